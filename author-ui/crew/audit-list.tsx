import { useCallback, useState } from 'react';
import type { Person } from '../../shared/sync/wire/crew-wire.ts';
import { deedWords, momentWords } from './crew-page-words.ts';
import type { JoinedHub } from './desk-hub.tsx';
import { AskedTrouble } from './hub-trouble.tsx';
import { useAsked } from './use-asked.ts';
import { nameIn } from './use-people.ts';

type AuditListProps = { readonly hub: JoinedHub; readonly people: readonly Person[] };

/** Who did what, the latest first, a page at a time. */
export function AuditList({ hub: { client, deeds }, people }: AuditListProps) {
  /** Where each page that was turned to begins; the last is shown. */
  const [turned, setTurned] = useState<readonly number[]>([]);
  const before = turned.at(-1);
  const page = useAsked(
    useCallback(() => client.audit(before), [client, before]),
    deeds,
  );
  const next = page.value?.next;
  const name = nameIn(people);
  return (
    <section aria-labelledby="audit-title">
      <h2 id="audit-title">Who did what</h2>
      <AskedTrouble asked={page} what="who did what" />
      {page.value && page.value.entries.length === 0 && <p>Nothing earlier.</p>}
      <ol className="crew-audit">
        {page.value?.entries.map((entry) => (
          <li key={entry.id}>
            <time dateTime={entry.at}>{momentWords(entry.at)}</time>
            <span>
              <strong>{entry.person === undefined ? 'At the hub’s machine, someone' : name(entry.person)}</strong> {deedWords(entry, name)}
            </span>
          </li>
        ))}
      </ol>
      <p className="crew-buttons">
        {turned.length > 0 && (
          <button type="button" className="button button-quiet" onClick={() => setTurned(turned.slice(0, -1))}>
            Later
          </button>
        )}{' '}
        {next !== undefined && (
          <button type="button" className="button button-quiet" onClick={() => setTurned([...turned, next])}>
            Earlier
          </button>
        )}{' '}
        <button type="button" className="button button-quiet" onClick={page.again}>
          Ask again
        </button>
      </p>
    </section>
  );
}
