import { useState } from 'react';
import { type ExportedWalk, eventsCsv, xapiStatements, xesLog } from '../../engine/exchange/index.ts';
import { type Edition, type WalkLine, walkableEdition, walkLineSchema } from '../../engine/walk/index.ts';
import { exportFile } from '../store/export-file.ts';
import { exportWords } from './walk-words.ts';

/** A walk as it can be given out: the edition that it was walked on, its lines as they came, and who walked it where the log does not say. */
export type GivenWalk = { readonly edition: Edition; readonly lines: readonly unknown[]; readonly by?: string | undefined };

type Form = { readonly name: keyof typeof exportWords.forms; readonly ending: string; readonly text: (walks: readonly GivenWalk[]) => string };

const FORMS: readonly Form[] = [
  { name: 'csv', ending: 'csv', text: (walks) => eventsCsv(exported(walks)) },
  { name: 'xes', ending: 'xes', text: (walks) => xesLog(exported(walks)) },
  { name: 'xapi', ending: 'xapi.json', text: (walks) => `${JSON.stringify(xapiStatements(exported(walks), location.origin), null, 2)}\n` },
  { name: 'log', ending: 'jsonl', text: (walks) => walks.flatMap(({ lines }) => lines.map((line) => `${JSON.stringify(line)}\n`)).join('') },
];

const linesIn = (values: readonly unknown[]): readonly WalkLine[] =>
  values.flatMap((value) => {
    const read = walkLineSchema.safeParse(value);
    return read.success ? [read.data] : [];
  });

/** What is no line of a log is in no format but the log itself. */
function exported(walks: readonly GivenWalk[]): readonly ExportedWalk[] {
  return walks.map(({ edition, lines, by }) => ({
    edition: walkableEdition(edition),
    lines: linesIn(lines),
    ...(by !== undefined && by !== '' && { by }),
  }));
}

/** A name for the file from the walk's own, which may hold anything where it came from a file. */
function fileName(walks: readonly GivenWalk[], ending: string): string {
  const [one] = walks;
  if (!one || walks.length > 1) return `walks.${ending}`;
  const [line] = one.lines;
  const walk = typeof line === 'object' && line !== null && 'walk' in line ? String(line.walk) : '';
  const token = walk.replace(/[^A-Za-z0-9-]+/g, '').slice(0, 12);
  return `${[one.edition.root, token].filter((part) => part !== '').join('-')}.${ending}`;
}

/** Saves walks as files in open formats, for other software. */
export function ExportMenu({ walks }: { readonly walks: readonly GivenWalk[] }) {
  const [saved, setSaved] = useState('');
  const save = async ({ name, ending, text }: Form): Promise<void> => {
    const path = fileName(walks, ending);
    await exportFile({ path, text: text(walks) });
    const lost = name === 'log' ? 0 : walks.reduce((sum, { lines }) => sum + lines.length - linesIn(lines).length, 0);
    setSaved(exportWords.saved(path, lost));
  };
  return (
    <section className="walk-export" aria-labelledby="walk-export-title">
      <h2 id="walk-export-title">{exportWords.title(walks.length)}</h2>
      <p className="walk-hint">{exportWords.hint}</p>
      <ul className="walk-buttons walk-export-forms">
        {FORMS.map((form) => (
          <li key={form.name}>
            <button type="button" className="button button-quiet" disabled={walks.length === 0} onClick={() => void save(form)}>
              {exportWords.forms[form.name]}
            </button>
          </li>
        ))}
      </ul>
      <p className="walk-hint" role="status">
        {saved}
      </p>
    </section>
  );
}
