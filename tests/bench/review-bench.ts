import { crewPicture, type PicturedWalk, Reviewer, type StepStay, walkMinutes, walkStays } from '../../engine/review/index.ts';
import { replayLog } from '../../engine/walk/index.ts';
import { seededRandom } from '../crew/testing/seeded-random.ts';
import { NO_HABITS } from '../review/testing/generated-call.ts';
import { generatedCrew } from '../review/testing/generated-crew.ts';
import { shelfGrounds } from '../review/testing/shelf-grounds.ts';
import { type Bench, type BenchRow, benchRow } from './bench-row.ts';
import { medianTimes } from './median-times.ts';

function generatedCalls() {
  const grounds = shelfGrounds(['condensate-or-float-switch-holds-off']);
  const habits = { ...NO_HABITS, guesses: 0.1, readsAgain: 0.05, fastCautions: 0.1 };
  return [...generatedCrew({ grounds, techs: [{ by: 'one', habits }], calls: 40, seed: 3 })];
}

function reviewRows(calls: ReturnType<typeof generatedCalls>): readonly BenchRow[] {
  const [first] = calls;
  if (!first) throw new Error('no calls');
  const { edition } = first.ground;
  const reviewer = new Reviewer(edition);
  const lines = calls.reduce((sum, call) => sum + call.lines.length, 0);
  const replayed = () => calls.map((call) => replayLog(edition, call.lines));
  const reviewed = medianTimes(() => calls.map((call) => reviewer.review(call.lines)), replayed, { turns: 5, warmUp: 2 });
  const stayed = medianTimes(() => calls.map((call) => walkStays(edition, call.lines)), replayed, { turns: 9, warmUp: 2 });
  return [
    benchRow(
      `review ${calls.length} calls, ${lines} lines, every measure (${Math.round((1000 * calls.length) / reviewed.ours)} a second)`,
      reviewed.ours,
      reviewed.other,
      'their plain replay',
    ),
    benchRow('their stays and minutes alone', stayed.ours, stayed.other, 'their plain replay'),
  ];
}

/** A million lines' worth of stays: the calls of a shelf tree over and over, each with its own minutes. */
function manyStays(calls: ReturnType<typeof generatedCalls>): { readonly walks: readonly PicturedWalk[]; readonly lines: number } {
  const random = seededRandom(11);
  const patterns = calls.map(({ ground, lines, walk }) => {
    const stays = walkStays(ground.edition, lines);
    const reviewer = new Reviewer(ground.edition);
    return { lines: lines.length, minutes: walkMinutes(reviewer.replay(lines).log), stays, outcome: walk.snapshot.context.outcome };
  });
  const [first] = calls;
  const tree = first?.ground.edition.compiled.root.name ?? '';
  const walks: PicturedWalk[] = [];
  let lines = 0;
  while (lines < 1_000_000) {
    const pattern = patterns[Math.floor(random() * patterns.length)];
    if (!pattern) break;
    lines += pattern.lines;
    const pace = 0.5 + random();
    const stays = pattern.stays.map((stay): StepStay => ({ ...stay, minutes: stay.minutes * pace }));
    walks.push({
      edition: `edition ${walks.length % 4}`,
      tree,
      drill: false,
      closed: '2026-01-15T10:00:00Z',
      stays,
      minutes: pattern.minutes * pace,
      ...(pattern.outcome && { outcome: pattern.outcome }),
    });
  }
  return { walks, lines };
}

function pictureRow(calls: ReturnType<typeof generatedCalls>): BenchRow {
  const { walks, lines } = manyStays(calls);
  const tree = walks[0]?.tree ?? '';
  const plain = (): Map<string, { stays: number; minutes: number }> => {
    const sums = new Map<string, { stays: number; minutes: number }>();
    for (const { edition, stays } of walks)
      for (const stay of stays) {
        const key = `${edition} ${stay.tree}/${stay.step}`;
        const sum = sums.get(key) ?? { stays: 0, minutes: 0 };
        sum.stays += 1;
        sum.minutes += stay.minutes;
        sums.set(key, sum);
      }
    return sums;
  };
  const times = medianTimes(() => crewPicture(tree, walks), plain, { turns: 5, warmUp: 2 });
  return benchRow(
    `crew picture of ${walks.length} calls, ${lines} lines`,
    times.ours,
    times.other,
    'stays and minutes of each step summed in one map, no bins, ways or findings',
  );
}

const bench: Bench = async () => {
  const calls = generatedCalls();
  return [...reviewRows(calls), pictureRow(calls)];
};

export default bench;
