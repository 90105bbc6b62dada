import { failure, type Result, success } from '../result.ts';
import { contradictionWords, type NextReading, probeWords, trailOfLog, WalkAdvisor } from '../suspects/index.ts';
import { showAction } from '../tree/index.ts';
import { logLines, logProblemWords, replayLog, viewOf, walkableEdition } from '../walk/index.ts';
import { editionFileFor, editionFrom } from './log-file.ts';
import { openEdition } from './open-edition.ts';
import { readTextFile } from './read-text-file.ts';

export type NextReport = {
  /** Where the walk stands. */
  readonly at: string | null;
  readonly suspects: readonly { readonly fault: string; readonly says: string | null; readonly probability: number }[];
  readonly nothingWrong: number;
  /** Something that the benches do not know. */
  readonly unknown: number;
  readonly excluded: readonly string[];
  readonly contradictions: readonly { readonly code: string; readonly message: string; readonly fix: string }[];
  /** Best first. */
  readonly next: readonly {
    readonly reading: string;
    /** The step to jump to for it, where the edition has one that takes it as the circuit then stands. */
    readonly step: string | null;
    /** The walk comes to it by going on as it is. */
    readonly onTheWay: boolean;
    readonly setUp: readonly string[];
    readonly minutes: number;
    /** Expected minutes from now to the finding. */
    readonly expected: number;
    readonly gain: number;
    readonly reason: string;
    readonly shows: readonly { readonly reading: string; readonly leaves: readonly string[]; readonly probability: number }[];
  }[];
  readonly method: 'exact' | 'rollout';
  /** The finding to go to, where nothing more can be told apart. */
  readonly finding: { readonly step: string; readonly title: string; readonly faults: readonly string[]; readonly probability: number } | null;
};

const rounded = (value: number): number => Math.round(value * 1000) / 1000;

/** What a walk's log leaves possible on a tree, and what to find out next. Without a log, the walk has not begun. */
export function nextFile(
  file: string,
  { log, stepsOnly = false }: { readonly log?: string; readonly stepsOnly?: boolean },
): Result<NextReport, string> {
  const opened = openEdition(file);
  if (!opened.ok) return opened;
  const text = log === undefined ? success('') : readTextFile(log, 'log');
  if (!text.ok) return text;
  const lines = logLines(text.value);
  // The edition that was walked counts; a tree that was changed since may not take the log's events.
  const hash = lines.map(editionNamed).find((name) => name !== undefined);
  const kept = log !== undefined && hash !== undefined ? editionFrom(editionFileFor(log, hash), hash) : undefined;
  const edition = walkableEdition(kept ?? opened.value);
  const { walk: trusted, problems, readable } = replayLog(edition, lines);
  const [problem] = problems;
  if (problem && trusted.length === 0) {
    const { message, fix } = logProblemWords(problem);
    return failure(`${log}: ${message} ${fix}`);
  }
  const { walk, trail } = trailOfLog(edition, trusted.id, readable.slice(0, trusted.length));
  const { suspects, next, finding } = new WalkAdvisor(edition.compiled).advise(walk, trail, {
    among: stepsOnly ? 'steps' : 'everything',
    most: 20_000,
  });
  return success({
    at: viewOf(walk).step?.id ?? null,
    suspects: suspects.faults.map(({ fault, says, probability }) => ({ fault, says: says ?? null, probability: rounded(probability) })),
    nothingWrong: rounded(suspects.nothingWrong),
    unknown: rounded(suspects.unknown),
    excluded: suspects.excluded,
    contradictions: suspects.contradictions.map((contradiction) => ({ code: contradiction.code, ...contradictionWords(contradiction) })),
    next: next.readings.map(nextLine),
    method: next.method,
    finding: finding
      ? { step: `${finding.tree}/${finding.step.id}`, title: finding.step.title, faults: finding.faults, probability: rounded(finding.probability) }
      : null,
  });
}

function nextLine({ candidate, jump, setUp, minutes, expected, gain, reason, shows }: NextReading): NextReport['next'][number] {
  return {
    reading: probeWords(candidate.probe),
    step: jump?.step.key ?? null,
    onTheWay: jump?.onTheWay ?? false,
    setUp: setUp.map((move) => (move.do === 'prove-dead' ? `prove ${move.across.join(' to ')} dead` : showAction(move))),
    minutes: rounded(minutes),
    expected: rounded(expected),
    gain: rounded(gain),
    reason,
    shows: shows.map(({ reading, faults, probability }) => ({ reading, leaves: faults, probability: rounded(probability) })),
  };
}

function editionNamed(line: unknown): string | undefined {
  return typeof line === 'object' && line !== null && 'edition' in line && typeof line.edition === 'string' ? line.edition : undefined;
}

const percent = (share: number): string => `${Math.round(share * 100)} %`.padStart(5);

/** The report for people. */
export function nextText(report: NextReport): string {
  const likely = report.suspects.filter(({ probability }) => probability >= 0.005);
  return [
    ...likely.map(({ fault, says, probability }) => `${percent(probability)}  ${fault}${says === null ? '' : `: ${says}`}`),
    ...(report.nothingWrong >= 0.005 ? [`${percent(report.nothingWrong)}  nothing wrong`] : []),
    `${percent(report.unknown)}  something that the bench does not know`,
    ...report.contradictions.map(({ message, fix }) => `!  ${message} ${fix}`),
    ...(report.finding ? [`go to ${report.finding.title} (${report.finding.step})`] : []),
    ...report.next.map(
      ({ reading, step, setUp, expected, reason }) =>
        `${expected.toFixed(1).padStart(5)} min to go  ${reading}: ${reason}${setUp.length > 0 ? ` (first ${setUp.join(', ')})` : ''}${step === null ? '' : `  → ${step}`}`,
    ),
    ...(report.next.length === 0
      ? []
      : [`minutes to go: the first is ${report.method === 'exact' ? 'the least there is, by exact search' : 'the best found, by rollout'}`]),
  ].join('\n');
}
