import { plainWords } from '../../shared/ui/words/plain-words.ts';
import { Sheet } from '../frame/sheet.tsx';
import { useDrill } from './use-drill.ts';

/** What can be seen or heard without a meter, with the circuit as it stands. */
export function LookSheet({ onClose }: { readonly onClose: () => void }) {
  const { run, send, writing, seen } = useDrill();
  return (
    <Sheet title="Look and listen" onClose={onClose}>
      <p className="section-note">Each look counts as a move. It is of the circuit as it stands now.</p>
      <ul className="switch-list">
        {Object.keys(run.ground.bench.signs).map((sign) => (
          <li key={sign}>
            <span className="switch-name">{plainWords(sign)}?</span>
            {seen?.sign === sign && (
              <strong className="drill-seen" role="status">
                {seen.text}
              </strong>
            )}
            <button type="button" className="button button-line" disabled={writing} onClick={() => void send({ do: 'look', sign })}>
              Look<span className="unseen"> at: {plainWords(sign)}</span>
            </button>
          </li>
        ))}
      </ul>
    </Sheet>
  );
}
