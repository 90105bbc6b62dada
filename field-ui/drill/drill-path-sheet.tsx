import { drillMoveWords } from '../../shared/ui/drill/drill-step-words.ts';
import { Sheet } from '../frame/sheet.tsx';
import { useDrill } from './use-drill.ts';
import '../sheets/path-list.css';

/** Every move so far with what it showed. */
export function DrillPathSheet({ onClose }: { readonly onClose: () => void }) {
  const { lines } = useDrill().run.record;
  return (
    <Sheet title="Path so far" onClose={onClose}>
      {lines.length === 0 ? (
        <p>No move yet. Put both leads on the drawing and read.</p>
      ) : (
        <ol className="path-list">
          {lines.map(({ move, shown, refused, mono }) => (
            <li key={`${mono} ${JSON.stringify(move)}`}>
              <span className="path-line">
                <span className="path-title">{drillMoveWords(move)}</span>
                <span className="path-value">{refused === undefined ? shown : 'refused'}</span>
              </span>
            </li>
          ))}
        </ol>
      )}
    </Sheet>
  );
}
