import { useMemo } from 'react';
import type { Edition } from '../../engine/walk/index.ts';
import { changesInLines, type ChangedLines as FileLines } from './edition-changes.ts';

/** What differs between two editions, file by file and line by line, to fold out. */
export function ChangedLines({ before, now, title }: { readonly before: Edition; readonly now: Edition; readonly title: string }) {
  const files = useMemo(() => changesInLines(before, now), [before, now]);
  if (files.length === 0) return null;
  return (
    <details>
      <summary>{title}</summary>
      {files.map((file) => (
        <ChangedFile key={file.file} {...file} />
      ))}
    </details>
  );
}

function ChangedFile({ file, lines }: FileLines) {
  return (
    <section className="publish-lines" aria-label={file}>
      <h3>
        <code>{file}</code>
      </h3>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a long text that scrolls has to be reached by the keyboard. */}
      <pre tabIndex={0}>
        {lines.map((line, index) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: a line is known by its place.
          <span key={index} className={line.startsWith('+') ? 'line-new' : line.startsWith('-') ? 'line-gone' : undefined}>
            {`${line}\n`}
          </span>
        ))}
      </pre>
    </section>
  );
}
