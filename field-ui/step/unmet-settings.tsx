import { actionWords } from '../../shared/ui/words/action-words.ts';
import { plainWords } from '../../shared/ui/words/plain-words.ts';
import { useSession } from '../walk/use-session.ts';
import { holdWords } from '../words/task-words.ts';

/** What must be switched before the step can be worked, each with the press that says it is so now. */
export function UnmetSettings() {
  const { view, walk, send, writing } = useSession();
  if (view.unmet.length === 0) return null;
  return (
    <section className="unmet" aria-labelledby="unmet-title">
      <h2 id="unmet-title">First set the circuit</h2>
      <ul>
        {view.unmet.map((hold) => (
          <li key={hold.setting}>
            <p>
              <strong>{actionWords({ do: 'turn', ...hold })}</strong>
              <span className="unmet-now">
                It is {plainWords(view.settings[hold.setting] ?? 'not known')} now.
                {walk.edition.compiled.asFound[hold.setting] !== hold.state && ' Turned, it goes on the put-back list.'}
              </span>
            </p>
            <button
              type="button"
              className="button button-main"
              disabled={writing}
              onClick={() => void send({ type: 'did', does: `turn ${hold.setting} ${hold.state}` })}
            >
              It is {plainWords(hold.state)}
              <span className="unseen">: {holdWords(hold)}</span>
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}
