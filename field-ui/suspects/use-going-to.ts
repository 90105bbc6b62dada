import { useSession } from '../walk/use-session.ts';

export type GoingTo = {
  /** Absent while the walk takes no jump: before its first step, in the closing ritual, paused. */
  readonly canGo: boolean;
  /** A reading on the screen is too close to call: the tech decides about it first. */
  readonly undecided: boolean;
  readonly writing: boolean;
  /** Goes to a step by a jump that the log keeps; what is on the screen is taken first, so that it counts. Resolves to whether it went. */
  go(to: { readonly tree: string; readonly step: string }, why: string): Promise<boolean>;
  /** On in the tree's order, from a verdict. */
  goOn(): Promise<boolean>;
};

const WALKING: ReadonlySet<string> = new Set(['cautions', 'work', 'verdict', 'finding', 'handoff']);

// The longest reason that the log takes.
const LONGEST = 200;

/** How the walk on the screen leaves the tree's order for a step, and comes back to it. */
export function useGoingTo(): GoingTo {
  const { view, send, writing } = useSession();
  const hasVerdict = view.phase === 'verdict';
  const undecided = hasVerdict && view.verdict?.tooClose === true;
  const goOn = async (): Promise<boolean> => !hasVerdict || (!undecided && (await send({ type: 'went-on' })));
  return {
    canGo: WALKING.has(view.phase) && !view.paused,
    undecided,
    writing,
    goOn,
    go: async ({ tree, step }, why) => (await goOn()) && send({ type: 'jumped', tree, step, why: why.slice(0, LONGEST) }),
  };
}
