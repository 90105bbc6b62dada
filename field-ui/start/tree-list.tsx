import { counted } from '../../shared/ui/words/plain-words.ts';
import { hrefOf } from '../frame/use-route.ts';
import type { StoredEdition } from '../storage/field-db.ts';

export function TreeList({ trees }: { readonly trees: readonly StoredEdition[] }) {
  return (
    <ul className="tree-list">
      {trees.map(({ hash, title, complaint, steps, from }) => (
        <li key={hash}>
          <a className="tree-line" href={hrefOf({ screen: 'tree', edition: hash })}>
            <span className="tree-line-title">{title}</span>
            <span className="tree-line-complaint">{complaint}</span>
            <span className="tree-line-steps">
              {counted(steps, 'step')}
              {from && `, edition ${hash.slice(0, 12)} ${from === 'desk' ? 'from the desk in this browser' : 'from a file'}`}
            </span>
          </a>
        </li>
      ))}
    </ul>
  );
}
