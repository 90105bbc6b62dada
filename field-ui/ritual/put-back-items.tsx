import type { PutBackItem } from '../../engine/walk/index.ts';
import { capital } from '../../shared/ui/words/plain-words.ts';
import { useSession } from '../walk/use-session.ts';
import { putBackWords } from '../words/put-back-words.ts';
import './ritual.css';

/** Temporary things, in the order to put them back, each with its own press. */
export function PutBackItems({ items }: { readonly items: readonly PutBackItem[] }) {
  const { send, writing } = useSession();
  return (
    <ol className="put-back-list">
      {items.map((item) => {
        const { now, todo, done } = putBackWords(item);
        return (
          <li key={item.key}>
            <p>
              <strong>{capital(now)}</strong>
              <span className="put-back-todo">{todo}, then mark it.</span>
            </p>
            <button type="button" className="button button-main" disabled={writing} onClick={() => void send({ type: 'put-back', item: item.key })}>
              {done}
            </button>
          </li>
        );
      })}
    </ol>
  );
}
