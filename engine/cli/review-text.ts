import {
  type CrewMeasures,
  type Habit,
  type Interval,
  LEAST_CALLS,
  MEASURES,
  type Measure,
  type MeasureEvidence,
  type MeasureSummary,
  measureWords,
  missingWords,
  type StepStay,
  type WalkReview,
} from '../review/index.ts';
import { logProblemWords, type WalkOutcome } from '../walk/index.ts';
import { wrapped } from './prose-text.ts';

const WIDTH = 110;

const OUTCOMES: Readonly<Record<WalkOutcome, string>> = {
  fixed: 'fixed',
  'nothing-wrong': 'nothing wrong found',
  'not-repaired': 'not repaired',
  'not-fixed': 'not fixed',
  'handed-off': 'handed off',
};

const minutes = (value: number): string => `${value.toFixed(1)} min`;

/** One call for a trainer to read: what it came to, each stay with its minutes, and each measure with the lines that made it. */
export function reviewText(review: WalkReview): string {
  const { title, by, site, opened, outcome, finding, stays, measures, problems, drill, confirmation } = review;
  const where = [opened?.slice(0, 16).replace('T', ' '), by && `by ${by}`, site && `at ${site}`, drill && 'drill'].filter(Boolean).join(', ');
  return [
    `${title}${where === '' ? '' : ` (${where})`}`,
    `${finding ? `finding: ${finding.title}` : 'no finding'}; ${outcome ? OUTCOMES[outcome] : 'not closed'}${confirmation ? `; later: ${confirmation.held ? 'it held' : confirmation.fault === undefined ? 'it came back' : `it was ${confirmation.fault}`}` : ''}`,
    '',
    'Steps',
    ...stays.map(stayText),
    '',
    'Measures; the number at the left of a line is its line in the log',
    ...measures.flatMap(measureLines),
    ...problems.flatMap((problem) => {
      const { message, fix } = logProblemWords(problem);
      return ['', wrapped(`!  ${message} ${fix}`, WIDTH)];
    }),
  ].join('\n');
}

function stayText({ from, minutes: spent, title, on, jumped, steppedBack, couldNot, acceptedTooClose }: StepStay): string {
  const marks = [jumped && 'jumped to', couldNot && 'could not', acceptedTooClose && 'too close, gone on', steppedBack && 'stepped back from'].filter(
    Boolean,
  );
  return `${lineNumber(from)}  ${minutes(spent).padStart(9)}  ${title}${on === undefined ? '' : `: ${on}`}${marks.length > 0 ? ` (${marks.join('; ')})` : ''}`;
}

// A log's lines are counted from 1, as `replay` does.
const lineNumber = (seq: number): string => String(seq + 1).padStart(5);

function measureLines(measure: Measure): readonly string[] {
  const { name, says, unit } = measureWords(measure.code);
  if ('missing' in measure) return [`  ${name.padEnd(30)} –  ${missingWords(measure.missing)}`];
  const value = unit === 'min' ? minutes(measure.value) : unit === 'yes or no' ? (measure.value > 0 ? 'yes' : 'no') : String(measure.value);
  const line = ({ seq, step, ...rest }: MeasureEvidence): string =>
    wrapped(`${lineNumber(seq)}  ${step === undefined ? '' : `${step}: `}${says({ seq, ...(step !== undefined && { step }), ...rest })}`, WIDTH);
  return [`  ${name.padEnd(30)} ${value}`, ...measure.evidence.map(line)];
}

/** Many calls: each measure over all of them with its interval, who stands out, and how many calls each has. Nobody is ranked. */
export function crewText(crew: CrewMeasures, left: { readonly drills: number; readonly told: readonly string[] }): string {
  const { walks, people, measures, habits } = crew;
  return [
    `${walks} ${walks === 1 ? 'call' : 'calls'} of ${people.length} ${people.length === 1 ? 'person' : 'people'}${left.drills > 0 ? `; ${left.drills} ${left.drills === 1 ? 'drill' : 'drills'} left out` : ''}`,
    ...left.told.map((file) => `${file} is left out: another log tells the same call further.`),
    '',
    `${'Measure'.padEnd(30)} ${'came up in'.padEnd(28)} mean a call (95 % interval)`,
    ...measures.map(summaryLine),
    '',
    'What stands out, each person beside all the others (5 % for all comparisons together)',
    ...(habits.length === 0 ? [`  Nothing. Fewer than ${LEAST_CALLS} calls say nothing about a person.`] : habits.map(habitLine)),
    '',
    'Calls',
    ...people.map(
      ({ by, walks: own, tooFew }) => `${String(own).padStart(5)}  ${by === '' ? 'nobody named' : by}${tooFew ? ' (too few to compare)' : ''}`,
    ),
  ].join('\n');
}

const percent = (share: number): string => `${Math.round(share * 100)} %`;
const figure = (value: number): string => (Number.isFinite(value) ? value.toFixed(1) : value < 0 ? '−∞' : '∞');

const shareText = ({ value, low, high, n }: Interval): string => `${percent(value)} (${percent(low)} to ${percent(high)}, of ${n})`;
const meanText = ({ value, low, high, n }: Interval): string => `${figure(value)} (${figure(low)} to ${figure(high)}, of ${n})`;

function summaryLine({ code, share, mean }: MeasureSummary): string {
  const { name, unit } = MEASURES[code];
  if (!share || !mean) return `${name.padEnd(30)} no call has it`;
  return `${name.padEnd(30)} ${(unit === 'min' ? '' : shareText(share)).padEnd(28)} ${unit === 'yes or no' ? '' : `${meanText(mean)}${unit === 'min' ? ' min' : ''}`}`.trimEnd();
}

function habitLine({ by, of, step, direction, own, others }: Habit): string {
  const isMinutes = of === 'step-minutes' || MEASURES[of].unit === 'min';
  const what = of === 'step-minutes' ? `minutes at ${step?.tree}/${step?.step}` : MEASURES[of].name;
  const told = isMinutes ? meanText : shareText;
  return wrapped(`  ${by}: ${what}, ${direction}: ${told(own)}; the others ${told(others)}`, WIDTH);
}
