import type { Edge } from './circuit-edges.ts';
import type { TextKind } from './ladder-layout.ts';
import type { LadderState } from './ladder-state.ts';
import { partName, partValue } from './part-words.ts';

/** The symbols there are. */
export type Shape =
  | 'source'
  | 'dc-source'
  | 'winding'
  | 'contact'
  | 'switch'
  | 'limit'
  | 'wire'
  | 'coil'
  | 'load'
  | 'resistor'
  | 'capacitor'
  | 'inductor'
  | 'fuse'
  | 'thermistor'
  | 'flame';

/** px of a symbol: its width, and how far it reaches above and below its line. */
export type SymbolSize = { readonly width: number; readonly up: number; readonly down: number };

export const SYMBOL_SIZES: Readonly<Record<Shape, SymbolSize>> = {
  source: { width: 24, up: 12, down: 12 },
  'dc-source': { width: 18, up: 11, down: 11 },
  winding: { width: 40, up: 16, down: 2 },
  contact: { width: 14, up: 11, down: 11 },
  switch: { width: 32, up: 12, down: 4 },
  limit: { width: 32, up: 12, down: 13 },
  wire: { width: 20, up: 4, down: 4 },
  coil: { width: 24, up: 12, down: 12 },
  load: { width: 36, up: 10, down: 10 },
  resistor: { width: 32, up: 7, down: 7 },
  capacitor: { width: 10, up: 10, down: 10 },
  inductor: { width: 40, up: 8, down: 2 },
  fuse: { width: 28, up: 6, down: 6 },
  thermistor: { width: 32, up: 12, down: 12 },
  flame: { width: 30, up: 13, down: 11 },
};

/** A supply is set in the middle of its rung, a load at its right end, and a wire takes the room that is left. */
export type Stance = 'supply' | 'load' | 'wire' | 'pass';

const STANCES: Partial<Readonly<Record<Shape, Stance>>> = {
  source: 'supply',
  'dc-source': 'supply',
  wire: 'wire',
  coil: 'load',
  load: 'load',
  winding: 'load',
  resistor: 'load',
  thermistor: 'load',
  capacitor: 'load',
  inductor: 'load',
  flame: 'load',
};

/** What is drawn of a part: its symbol, its name above, and what is said of it below. */
export type PartFace = {
  readonly shape: Shape;
  readonly size: SymbolSize;
  readonly stance: Stance;
  readonly name: string;
  readonly below: readonly { readonly text: string; readonly kind: TextKind }[];
  /** A wire that is only a line between two points. */
  readonly plain: boolean;
  readonly join: Join;
};

/** A winding's name says which it is, unless the transformer is drawn whole. */
export type Join = 'above' | 'below' | undefined;

export function partFace(edge: Edge, state: LadderState, value: (edge: Edge) => string | undefined, join: Join): PartFace {
  const shape = shapeOf(edge);
  const plain = shape === 'wire' && !isNamed(edge, state);
  const name = plain ? '' : partName(edge.part, edge.spec);
  const half = edge.piece === 'whole' || join ? '' : ` ${edge.piece}`;
  return {
    shape,
    size: join ? { ...SYMBOL_SIZES[shape], up: 0, down: 0 } : SYMBOL_SIZES[shape],
    stance: edge.piece === 'secondary' ? 'supply' : (STANCES[shape] ?? 'pass'),
    // Drawn whole, the name stands above the primary and the rest below the secondary.
    name: join === 'above' ? '' : name + half,
    below: plain || join === 'below' || (edge.piece === 'primary' && !join) ? [] : belowOf(edge, state, value(edge)),
    plain,
    join,
  };
}

function shapeOf({ spec }: Edge): Shape {
  switch (spec.kind) {
    case 'transformer':
      return 'winding';
    case 'state':
    case 'sequence':
    case 'place':
      return 'load';
    default:
      return spec.kind;
  }
}

const isNamed = ({ part, spec }: Edge, state: LadderState): boolean =>
  'lead' in spec && spec.lead !== undefined
    ? true
    : (state.faults?.some((fault) => fault.part === part) ?? false) || (state.asked?.parts?.includes(part) ?? false);

function belowOf(edge: Edge, state: LadderState, value: string | undefined): PartFace['below'] {
  const { part, spec } = edge;
  const lines: { text: string; kind: TextKind }[] = [];
  if (value !== undefined) lines.push({ text: partValue(value), kind: 'value' });
  const now = stateWord(spec.kind, state.parts?.[part]);
  if (now) lines.push({ text: now, kind: 'state' });
  for (const [setting, forced] of Object.entries(state.forced ?? {})) {
    if (asksFor(spec, setting)) lines.push({ text: `forced ${setting.replaceAll('-', ' ')} ${forced}`, kind: 'forced' });
  }
  for (const fault of state.faults ?? []) if (fault.part === part) lines.push({ text: `fault: ${fault.word}`, kind: 'fault' });
  return lines;
}

/** The states that are worth a word; what is as it should be and cannot be switched has none. */
function stateWord(kind: Edge['spec']['kind'], word: string | undefined): string | undefined {
  switch (kind) {
    case 'contact':
    case 'switch':
    case 'limit':
    case 'coil':
    case 'flame':
      return word?.replaceAll('-', ' ');
    case 'fuse':
      return word === 'blown' ? word : undefined;
    case 'load':
      return word === 'off' ? word : undefined;
    case 'source':
    case 'dc-source':
      return word === 'dead' ? 'off' : undefined;
    default:
      return undefined;
  }
}

/** Whether a part's own condition names a setting. */
function asksFor(spec: Edge['spec'], setting: string): boolean {
  const condition = 'closed-when' in spec ? spec['closed-when'] : 'when' in spec ? spec.when : 'lit-when' in spec ? spec['lit-when'] : undefined;
  return condition?.split(/[^a-z0-9-]+/).includes(setting) ?? false;
}
