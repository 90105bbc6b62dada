import { type LogProblem, logProblemWords, walkLineSchema } from '../../../engine/walk/index.ts';
import { clockWords, countWords } from '../walk-words.ts';
import { eventWords } from './event-words.ts';

type TrustedPartProps = {
  readonly problems: readonly LogProblem[];
  readonly trusted: number;
  readonly lines: readonly unknown[];
  readonly aside: readonly unknown[];
};

/** What of a log can be trusted, where not all of it can: the rest is listed as it can be read. */
export function TrustedPart({ problems, trusted, lines, aside }: TrustedPartProps) {
  const untrusted = lines.slice(trusted);
  if (problems.length === 0 && aside.length === 0) return null;
  return (
    <section className="walk-trusted" aria-label="What can be trusted of this log">
      {problems.map((problem) => {
        const { message, fix } = logProblemWords(problem);
        return (
          <p key={`${problem.code} ${problem.line}`}>
            <strong>{message}</strong> {fix}
          </p>
        );
      })}
      {problems.length > 0 && (
        <p>{trusted === 0 ? 'No line of it can be trusted.' : `Trusted and replayed here: lines 1 to ${trusted} of ${lines.length}.`}</p>
      )}
      {untrusted.length > 0 && <LinesAsRead summary={`Lines ${trusted + 1} to ${lines.length}, not trusted`} lines={untrusted} />}
      {aside.length > 0 && (
        <>
          <p>
            <strong>{countWords(aside.length, 'line')} beside the log.</strong> They stand at places that other lines have too, or come after lines
            that are missing. The replay follows the run that hangs together from the first line.
          </p>
          <LinesAsRead summary="Lines beside the log" lines={aside} />
        </>
      )}
    </section>
  );
}

function LinesAsRead({ summary, lines }: { readonly summary: string; readonly lines: readonly unknown[] }) {
  return (
    <details>
      <summary>{summary}</summary>
      <ol className="walk-as-read">
        {lines.map((line, at) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: lines that cannot be trusted have no name but their place.
          <li key={at}>{asRead(line)}</li>
        ))}
      </ol>
    </details>
  );
}

function asRead(line: unknown): string {
  const parsed = walkLineSchema.safeParse(line);
  if (!parsed.success) return 'cannot be read';
  const { seq, time, event } = parsed.data;
  return `Line ${seq + 1}, ${clockWords(time)}: ${eventWords(event)}`;
}
