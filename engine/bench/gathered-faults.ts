import type { Becoming } from './becoming.ts';
import type { CircuitView, PartFault } from './circuit-builder.ts';
import type { PreparedBench } from './prepare.ts';

/** Nothing wrong. */
export const SOUND: PartFault = {
  open: false,
  absent: false,
  shorted: false,
  swapped: false,
  primaryOpen: false,
  secondaryOpen: false,
  stuck: undefined,
  value: undefined,
  state: undefined,
};

/** All that is wrong with one part: in itself, with where it is landed, and what it touches. */
export type Gathered = {
  readonly fault: PartFault;
  readonly moves: readonly { readonly from: string; readonly to: string }[];
  /** Nodes that its first end is shorted to. */
  readonly links: readonly number[];
};

/** The faults of a situation by part. Names must be known. */
export function gatherFaults(prepared: PreparedBench, ids: readonly string[], facts: CircuitView): ReadonlyMap<number, Gathered> {
  const gathered = new Map<number, Gathered>();
  for (const id of ids) {
    const entry = prepared.faults.get(id);
    if (!entry) continue;
    const { part, becoming, value } = entry;
    const { fault, moves, links } = gathered.get(part) ?? { fault: SOUND, moves: [], links: [] };
    const isState = prepared.index.parts[part]?.known.spec.kind === 'state';
    const touched = linkOf(becoming, isState, prepared);
    gathered.set(part, {
      fault: { ...fault, ...changeOf(becoming, isState), ...(value && { value: value(facts) }) },
      moves: becoming.as === 'move' ? [...moves, becoming] : moves,
      links: touched === undefined ? links : [...links, touched],
    });
  }
  return gathered;
}

function linkOf(becoming: Becoming, isState: boolean, { index }: PreparedBench): number | undefined {
  if (becoming.as === 'link') return index.nodeNumber.get(becoming.node) ?? -1;
  return becoming.as === 'mode' && becoming.mode === 'grounded' && !isState ? -1 : undefined;
}

function changeOf(becoming: Becoming, isState: boolean): Partial<PartFault> {
  if (becoming.as === 'state') return { state: becoming.state };
  if (becoming.as !== 'mode') return {};
  const { mode } = becoming;
  if (isState) return { state: mode };
  switch (mode) {
    case 'open':
    case 'blown':
      return { open: true };
    case 'primary-open':
      return { primaryOpen: true };
    case 'secondary-open':
      return { secondaryOpen: true };
    case 'stuck-open':
      return { stuck: 'open' };
    case 'stuck-closed':
      return { stuck: 'closed' };
    case 'grounded':
      return {};
    default:
      return { [mode]: true };
  }
}
