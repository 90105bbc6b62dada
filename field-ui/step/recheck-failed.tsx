import { capital, plainWords } from '../../shared/ui/words/plain-words.ts';
import { useSession } from '../walk/use-session.ts';

/** Told when the complaint came back after a repair, until the next step is entered. */
export function RecheckFailed() {
  const { view, lines } = useSession();
  const lastMove = lines.findLast(({ event }) => event.type !== 'caution-read' && event.type !== 'noted' && event.type !== 'photographed');
  const last = view.rechecks.at(-1);
  if (lastMove?.event.type !== 'rechecked' || !last || last.passed) return null;
  return (
    <div className="step-notice" role="status">
      <strong>The complaint is still there: {last.typed ?? last.on}.</strong>
      <p>
        There is a second fault, or the first was another one. {capital(view.excluded.map(plainWords).join(', '))}{' '}
        {view.excluded.length === 1 ? 'is' : 'are'} ruled out now; the walk goes on from the first step.
      </p>
    </div>
  );
}
