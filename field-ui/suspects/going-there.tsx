import { capital, counted } from '../../shared/ui/words/plain-words.ts';
import { PutBackItems } from '../ritual/put-back-items.tsx';
import { useSession } from '../walk/use-session.ts';
import type { Destination } from './suspects-report.ts';
import { useGoingTo } from './use-going-to.ts';

type GoingThereProps = {
  readonly to: Destination | undefined;
  /** Of what is gone to; the step that leads up to it may have another name. */
  readonly title: string;
  readonly why: string;
  /** A newer answer is being worked out. */
  readonly stale: boolean;
  readonly onGone: () => void;
};

/** The one press that takes a suggestion, or why none is needed or possible. Stays in reach at the foot of the sheet. */
export function GoingThere({ to, title, why, stale, onGone }: GoingThereProps) {
  const { canGo, undecided, writing, go, goOn } = useGoingTo();
  if (!to) return <p className="going-there">No step of this tree takes it as the circuit stands. Take it and note what it shows.</p>;
  if (!canGo) return null;
  if (to.way === 'here') return <p className="going-there">This is the step you are on.</p>;
  if (to.way === 'under-way') return <p className="going-there">You are on the way to it: the step you are on comes first.</p>;
  if (undecided) return <p className="going-there">Decide first about the reading that is too close to call: read again, or go on all the same.</p>;
  const take = async (): Promise<void> => {
    if (await (to.way === 'next' ? goOn() : go(to, `suggested: ${why}`))) onGone();
  };
  if (to.way === 'next') return <Next disabled={writing || stale} onPress={() => void take()} />;
  return (
    <div className="going-there">
      {to.putBack.length > 0 ? (
        <>
          <p>
            For “{to.title}”, first put back {counted(to.putBack.length, 'thing')}: it is done without {to.putBack.length === 1 ? 'it' : 'them'}.
          </p>
          <PutBackItems items={to.putBack} />
        </>
      ) : (
        <button type="button" className="button button-main button-wide" disabled={writing || stale} onClick={() => void take()}>
          Go to “{to.title}”<span className="button-second">{to.title === title ? capital(why) : `It leads up to “${title}”`}</span>
        </button>
      )}
    </div>
  );
}

function Next({ disabled, onPress }: { readonly disabled: boolean; readonly onPress: () => void }) {
  const { view } = useSession();
  if (view.phase !== 'verdict') return <p className="going-there">It comes next in the tree’s order, once the step you are on is done.</p>;
  return (
    <div className="going-there">
      <button type="button" className="button button-main button-wide" disabled={disabled} onClick={onPress}>
        Go on
        <span className="button-second">It comes next in the tree’s order.</span>
      </button>
    </div>
  );
}
