import type { Edge } from './circuit-edges.ts';
import type { LadderPlan } from './ladder-plan.ts';
import { branchesOf, edgesIn, type Net } from './net.ts';

/** Rungs between two rails. `leftFeed` and `rightFeed`: the wire by which a rail comes from the tier above, where it is another node there. */
export type Tier = {
  readonly left: string;
  readonly right: string;
  readonly rungs: readonly Net[];
  readonly leftFeed?: Edge;
  readonly rightFeed?: Edge;
};

type Step = { readonly left: string; readonly right: string; readonly inner: Net; readonly leftFeed?: Edge; readonly rightFeed?: Edge };

/**
 * Where a rung is only wires out to more rungs, as from a board to a control, the rails themselves go on through those wires: another tier of
 * the same ladder. `isPlain`: a wire that needs no name. `last`: a part to be drawn at the foot of the ladder.
 */
export function tiersOf({ left, right, net, supply }: LadderPlan, isPlain: (edge: Edge) => boolean, last: Edge | undefined): readonly Tier[] {
  const tiers: Tier[] = [];
  let tier: Step = { left, right, inner: net };
  for (;;) {
    const { inner, ...rails } = tier;
    const rungs = ordered(branchesOf(inner), supply, last);
    const steps = rungs.flatMap((rung) => {
      const step = rungs.length > 1 && !(supply && edgesIn(rung).includes(supply)) ? stepOf(rung, isPlain) : undefined;
      return step ? [{ rung, step }] : [];
    });
    const chosen = steps.at(-1);
    tiers.push({ ...rails, rungs: rungs.filter((rung) => rung !== chosen?.rung) });
    if (!chosen) return tiers;
    tier = chosen.step;
  }
}

/** The supply first, the part that is to be last last, the rest as in the file. */
function ordered(rungs: readonly Net[], supply: Edge | undefined, last: Edge | undefined): readonly Net[] {
  const rank = (rung: Net): number => {
    const edges = edgesIn(rung);
    if (supply && edges.includes(supply)) return 0;
    return last && edges.includes(last) ? 2 : 1;
  };
  return rungs.map((rung) => (last && rank(rung) === 2 ? lastAtFoot(rung, last) : rung)).toSorted((a, b) => rank(a) - rank(b));
}

/** The branch with a part is the lowest of its block, and so on inward. */
function lastAtFoot(net: Net, last: Edge): Net {
  if (net.kind === 'series') return { ...net, items: net.items.map((item) => lastAtFoot(item, last)) };
  if (net.kind === 'part' || !edgesIn(net).includes(last)) return net;
  const has = (branch: Net): boolean => edgesIn(branch).includes(last);
  return {
    ...net,
    branches: [...net.branches.filter((branch) => !has(branch)), ...net.branches.filter(has).map((branch) => lastAtFoot(branch, last))],
  };
}

function stepOf(rung: Net, isPlain: (edge: Edge) => boolean): Step | undefined {
  if (rung.kind !== 'series') return undefined;
  const at = rung.items.findIndex(({ kind }) => kind === 'parallel');
  const inner = rung.items[at];
  if (!inner || at > 1 || rung.items.length - at > 2) return undefined;
  const feed = (item: Net | undefined): Edge | undefined => (item?.kind === 'part' && isPlain(item.edge) ? item.edge : undefined);
  const [before, after] = [rung.items[at - 1], rung.items[at + 1]];
  const [leftFeed, rightFeed] = [feed(before), feed(after)];
  if ((before && !leftFeed) || (after && !rightFeed)) return undefined;
  return { left: inner.from, right: inner.to, inner, ...(leftFeed && { leftFeed }), ...(rightFeed && { rightFeed }) };
}
