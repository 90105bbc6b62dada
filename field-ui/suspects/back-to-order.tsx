import { useSession } from '../walk/use-session.ts';
import { offOrder } from './off-order.ts';
import { useGoingTo } from './use-going-to.ts';
import './suspects.css';

/** While a walk is out of the tree's order: where that waits, and the way back to it. Everything found meanwhile stays on the path. */
export function BackToOrder({ onGone }: { readonly onGone?: () => void }) {
  const { view } = useSession();
  const { canGo, undecided, writing, go } = useGoingTo();
  const off = offOrder(view.path);
  if (!off || !canGo) return null;
  const back = async (): Promise<void> => {
    if (await go(off, 'back to the tree’s order')) onGone?.();
  };
  return (
    <section className="off-order" aria-label="Out of the tree’s order">
      <p>
        The tree’s order waits at “{off.title}”.
        {undecided && ' Decide first about the reading that is too close to call.'}
      </p>
      <button type="button" className="button button-line" disabled={writing || undecided} onClick={() => void back()}>
        Back to the tree’s order
      </button>
    </section>
  );
}
