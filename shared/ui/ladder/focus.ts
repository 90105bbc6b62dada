import { type Edge, nodeName } from './circuit-edges.ts';
import type { PartLead } from './drawing-context.ts';
import type { StubsByNode } from './ladder-plan.ts';
import { edgesIn, type Net, nodesIn } from './net.ts';
import type { Stub } from './series-parallel.ts';

/** Which pieces of a circuit lie about the points that are asked for. */
export type Focus = {
  readonly hasNode: (node: string) => boolean;
  /** Whether a piece, with all that hangs from it, holds one of the points inside. */
  readonly hasPiece: (net: Net, stubs: StubsByNode) => boolean;
  readonly hasStub: (stub: Stub, stubs: StubsByNode) => boolean;
};

/** Points are nodes or the names of leads; without any, everything is in focus. */
export function focusOn(points: readonly string[] | undefined, leadsOf: (edge: Edge) => readonly PartLead[]): Focus {
  if (!points || points.length === 0) return { hasNode: () => true, hasPiece: () => true, hasStub: () => true };
  const asked = new Set(points);
  const hasNode = (node: string): boolean => asked.has(nodeName(node));
  const hasPiece = (net: Net, stubs: StubsByNode): boolean =>
    edgesIn(net).some((edge) => leadsOf(edge).some(({ name }) => asked.has(name))) ||
    nodesIn(net).some((node) => hasNode(node) || (stubs.get(node) ?? []).some((stub) => hasStub(stub, stubs)));
  const hasStub = (stub: Stub, stubs: StubsByNode): boolean =>
    hasPiece(stub.net, stubs) ||
    (stub.end.kind !== 'elsewhere' && hasNode(stub.end.node)) ||
    (stub.end.kind === 'point' && (stubs.get(stub.end.node) ?? []).some((inner) => hasStub(inner, stubs)));
  return { hasNode, hasPiece, hasStub };
}
