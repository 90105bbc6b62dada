import { type Bench, GROUND } from '../../../engine/bench/index.ts';
import { closedAtRest } from './at-rest.ts';
import type { Box } from './box.ts';
import type { Edge } from './circuit-edges.ts';
import type { CircuitPlan, StubsByNode } from './ladder-plan.ts';
import type { LadderState, MeterLeads } from './ladder-state.ts';
import type { Net } from './net.ts';
import { type Join, type PartFace, partFace } from './part-face.ts';
import { valuesIn } from './part-words.ts';

/** What placing needs to know besides the circuit. */
export type DrawingContext = {
  readonly state: LadderState;
  readonly leads: MeterLeads | undefined;
  /** Points take the room of a fingertip. */
  readonly pick: boolean;
  /** How wide a part's name may be before it breaks into lines, px. */
  readonly nameWidth: number;
  readonly terminals: ReadonlySet<string>;
  /** Whether a node's name is written at its point. */
  readonly labelled: (node: string) => boolean;
  readonly face: (edge: Edge) => PartFace;
  readonly normally: (edge: Edge) => 'open' | 'closed' | undefined;
  readonly leadsOf: (edge: Edge) => readonly PartLead[];
  /** How many jumpers end on a node. */
  readonly jumperEnds: (node: string) => number;
  /** px to keep from a symbol's middle to what follows it, so that a winding stands over the other winding of its transformer. */
  readonly roomAfter: (edge: Edge) => number;
  readonly stubs: StubsByNode;
  /** Blocks already made without a limit to their width. */
  readonly unfolded: Map<Net, Box>;
};

/** A lead of a part, and the terminal it is landed on. */
export type PartLead = { readonly name: string; readonly on: string };

/** What is the same for every ladder of a drawing. */
export type SharedContext = Omit<DrawingContext, 'stubs' | 'roomAfter' | 'unfolded'>;

export type ContextOptions = Pick<DrawingContext, 'state' | 'leads' | 'pick' | 'nameWidth'> & { readonly joins: ReadonlyMap<Edge, Join> };

export function drawingContext(bench: Bench, plan: CircuitPlan, options: ContextOptions): SharedContext {
  const { state, joins } = options;
  const terminals = new Set(bench.terminals);
  const named = namedNodes(plan);
  const value = valuesIn(bench);
  const faces = new Map<Edge, PartFace>();
  return {
    ...options,
    terminals,
    // Ground's symbol is its name.
    labelled: (node) => terminals.has(node) || (named.has(node) && node !== GROUND),
    face(edge) {
      const known = faces.get(edge);
      if (known) return known;
      const face = partFace(edge, state, value, joins.get(edge));
      faces.set(edge, face);
      return face;
    },
    normally: ({ spec }) => ('closed-when' in spec ? (closedAtRest(bench, spec['closed-when']) ? 'closed' : 'open') : undefined),
    leadsOf,
    jumperEnds: (node) => (state.jumpers ?? []).filter(({ from, to }) => from !== to && (from === node || to === node)).length,
  };
}

/** Nodes that nobody can touch and that are written all the same: rails, what a tag elsewhere points to, and what is drawn twice. */
function namedNodes({ ladders, loose }: CircuitPlan): ReadonlySet<string> {
  const named = new Set(ladders.flatMap(({ left, right }) => [left, right]));
  for (const { node } of loose) named.add(node);
  const seen = new Set<string>();
  for (const node of ladders.flatMap(({ nodes }) => [...nodes])) {
    if (seen.has(node)) named.add(node);
    seen.add(node);
  }
  for (const { stubs } of [...ladders, ...loose]) {
    for (const { end } of [...stubs.values()].flat()) if (end.kind === 'elsewhere') named.add(end.node);
  }
  return named;
}

function leadsOf({ spec }: Edge): readonly PartLead[] {
  if (!('lead' in spec) || spec.lead === undefined) return [];
  return (typeof spec.lead === 'string' ? [spec.lead] : spec.lead).map((text) => {
    const [name = '', on = ''] = text.split(' on ');
    return { name, on };
  });
}
