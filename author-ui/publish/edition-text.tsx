import { writeTree } from '../../engine/tree/index.ts';
import type { Edition } from '../../engine/walk/index.ts';

/** An edition's trees as they are written. */
export function EditionText({ hash, edition }: { readonly hash: string; readonly edition: Edition }) {
  return (
    <section aria-label={`Edition ${hash.slice(0, 12)}`}>
      {Object.values(edition.trees).map((tree) => (
        // biome-ignore lint/a11y/noNoninteractiveTabindex: a long text that scrolls has to be reached by the keyboard.
        <pre key={tree.name} className="edition-text" tabIndex={0}>
          {writeTree(tree)}
        </pre>
      ))}
    </section>
  );
}
