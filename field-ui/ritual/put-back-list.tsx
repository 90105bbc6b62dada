import { useSession } from '../walk/use-session.ts';
import { putBackWords } from '../words/action-words.ts';
import { capital } from '../words/plain-words.ts';

/** Everything temporary that is still in place, in the order to put it back, each with its own press. */
export function PutBackList() {
  const { view, send, writing } = useSession();
  return (
    <ol className="put-back-list">
      {view.putBack.map((item) => {
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
