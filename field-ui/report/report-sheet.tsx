import { Prose } from '../../shared/ui/prose.tsx';
import { capital, plainWords } from '../../shared/ui/words/plain-words.ts';
import type { SessionState } from '../walk/walk-session.ts';
import { OUTCOME_WORDS } from '../words/outcome-words.ts';
import { putBackWords } from '../words/put-back-words.ts';
import { PhotoStrip } from './photo-strip.tsx';
import { ReadingsTable } from './readings-table.tsx';
import { reportData } from './report-data.ts';

/** One page that a customer can read: what was wrong, how that was known, what was done, and that all is as it was. */
export function ReportSheet({ state }: { readonly state: SessionState }) {
  const { view, walk, lines } = state;
  const data = reportData(walk, lines);
  const { root } = walk.edition.compiled;
  const outcome = view.outcome && OUTCOME_WORDS[view.outcome];
  const handedOff = view.step?.kind === 'handoff' ? view.step : undefined;
  const last = view.rechecks.at(-1);
  return (
    <>
      <dl className="report-facts">
        {data.site !== undefined && <Fact name="Site">{data.site}</Fact>}
        <Fact name="Date">{dateWords(data.opened)}</Fact>
        {data.by !== undefined && <Fact name="Technician">{data.by}</Fact>}
        <Fact name="Time on it">{data.minutes} min</Fact>
      </dl>
      <section className="report-result">
        <p className="report-complaint">
          <span>Complaint</span> {root.complaint}
        </p>
        <p className="report-outcome">{outcome ? outcome.short : 'Not closed yet'}</p>
        <p>{outcome ? outcome.long : 'The call is still open; this is how it stands.'}</p>
      </section>
      {view.finding && (
        <section>
          <h2>What was found</h2>
          <p className="report-finding">{view.finding.title}</p>
          <Prose prose={view.finding.prose} figures={walk.edition.compiled.edition.figures} />
        </section>
      )}
      {handedOff && (
        <section>
          <h2>Handed over</h2>
          <p>
            {handedOff.title}. To be taken up by {handedOff.to}.
          </p>
          {data.reasons.map((why) => (
            <p key={why}>Reason noted: {why}</p>
          ))}
        </section>
      )}
      {view.repaired && (
        <section>
          <h2>Repair</h2>
          <p>
            {view.repaired.done ? 'Done.' : 'Not done on this visit.'} {view.repaired.note}
          </p>
        </section>
      )}
      <ReadingsTable path={view.path} steps={walk.edition.compiled.steps} />
      <section>
        <h2>Left as found</h2>
        {data.putBack.length === 0 && view.putBack.length === 0 && <p>Nothing temporary was left in place.</p>}
        <ul className="report-put-back">
          {data.putBack.map(({ item, time }) => (
            <li key={`${item.key} ${time}`}>
              {capital(putBackWords(item).past)} <span className="report-time">{clockWords(time)}</span>
            </li>
          ))}
          {view.putBack.map((item) => (
            <li key={item.key}>
              <strong>{capital(putBackWords(item).now)}: still in place</strong>
            </li>
          ))}
        </ul>
        {last && (
          <p>
            The complaint was tried again: {plainWords(last.typed ?? last.on)}. {last.passed ? 'It is gone.' : 'It is still there.'}
          </p>
        )}
      </section>
      {view.notes.length > 0 && (
        <section>
          <h2>Notes</h2>
          {view.notes.map((note, index) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: notes are only ever added.
            <p key={index} className="report-note">
              {note}
            </p>
          ))}
        </section>
      )}
      {view.photos.length > 0 && (
        <section>
          <h2>Photos</h2>
          <PhotoStrip photos={view.photos} />
        </section>
      )}
      <footer className="report-foot">
        <p>
          Work on electrical and gas equipment follows the local code and the maker’s instructions, and is for licensed trades where the law says so.
        </p>
        <p className="report-marks">
          {root.title}, edition {walk.edition.hash.slice(0, 12)}. Call {walk.id}, {lines.length} entries, log {walk.head.slice(0, 12)}.
        </p>
      </footer>
    </>
  );
}

function Fact({ name, children }: { readonly name: string; readonly children: React.ReactNode }) {
  return (
    <div>
      <dt>{name}</dt>
      <dd>{children}</dd>
    </div>
  );
}

const dateWords = (iso: string): string => new Date(iso).toLocaleDateString(undefined, { year: 'numeric', month: 'long', day: 'numeric' });
const clockWords = (iso: string): string => iso.slice(11, 16);
