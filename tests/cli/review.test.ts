import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { keepEdition } from '../../engine/cli/log-file.ts';
import { type ReviewReport, reviewFiles } from '../../engine/cli/review.ts';
import { crewText, reviewText } from '../../engine/cli/review-text.ts';
import type { WalkLine } from '../../engine/walk/index.ts';
import { WalkDriver } from '../../engine/walk/testing/walk-driver.ts';
import { closedWalk, EDITION, WALKABLE } from '../crew/testing/sample-walks.ts';

const place = mkdtempSync(join(tmpdir(), 'ohmward-review-'));
afterAll(() => rmSync(place, { recursive: true }));

function log(name: string, lines: readonly WalkLine[]): string {
  const file = join(place, name);
  writeFileSync(file, lines.map((line) => JSON.stringify(line)).join('\n'));
  keepEdition(file, EDITION);
  return file;
}

const nowhere = { trees: join(place, 'no-trees') };

async function reviewed(files: readonly string[], confirmed?: string): Promise<ReviewReport> {
  const report = await reviewFiles(files, { ...nowhere, ...(confirmed !== undefined && { confirmed }) });
  if (!report.ok) throw new Error(report.problem);
  return report.value;
}

const one = log('one.jsonl', closedWalk('one'));

describe('review of one log', () => {
  it('finds the edition beside it, and gives every measure with its lines', async () => {
    const { reviews, crew } = await reviewed([one]);
    expect(crew).toBeNull();
    const [{ review } = { review: undefined }] = reviews;
    expect(review).toMatchObject({ walk: 'one', by: 'Tam Tech', site: '12 Elm', outcome: 'fixed', problems: [] });
    const text = review ? reviewText(review) : '';
    expect(text).toMatch(/by Tam Tech, at 12 Elm/);
    expect(text).toMatch(/^finding: .+; fixed$/m);
    // Lines tick a second each, so a log of n lines is n − 1 seconds long.
    const seconds = closedWalk('one').length - 1;
    expect(text).toMatch(new RegExp(`^ {2}Minutes +${(seconds / 60).toFixed(1)} min$`, 'm'));
    for (const { step } of review?.stays ?? []) expect(step).not.toBe('');
  });

  it('takes what it turned out to be: it held, it came back, or a fault that the benches know', async () => {
    const fault = (await reviewed([one])).reviews[0]?.review.finding?.faults[0] ?? '';
    expect(fault).not.toBe('');
    expect((await reviewed([one], 'held')).reviews[0]?.review.confirmation).toEqual({ held: true });
    expect((await reviewed([one], 'came-back')).reviews[0]?.review.confirmation).toEqual({ held: false });
    expect((await reviewed([one], fault)).reviews[0]?.review.confirmation).toMatchObject({ held: true, fault });
    const wrong = await reviewFiles([one], { ...nowhere, confirmed: 'no-such-fault' });
    expect(!wrong.ok && wrong.problem).toContain(fault);
    expect((await reviewFiles([one, one], { ...nowhere, confirmed: 'held' })).ok).toBe(false);
  });

  it('takes the log that can be trusted further, whichever is named first, and says which is left out', async () => {
    const whole = closedWalk('twice');
    const broken = [...whole.map((line, i) => (i === 5 ? { ...line, mono: line.mono + 1 } : line)), ...whole.slice(-1)];
    const [longer, good] = [log('broken.jsonl', broken), log('whole.jsonl', whole)];
    for (const files of [
      [longer, good],
      [good, longer],
    ]) {
      const { reviews, left } = await reviewed(files);
      expect(reviews).toMatchObject([{ file: good, review: { problems: [], outcome: 'fixed' } }]);
      expect(left).toEqual([longer]);
    }
  });

  it('says of a folder that it is one', async () => {
    expect(await reviewFiles([place], nowhere)).toEqual({ ok: false, problem: `${place} is a folder. Name the log in it.` });
    expect(await reviewFiles([join(place, 'none.jsonl')], nowhere)).toEqual({ ok: false, problem: `There is no log ${join(place, 'none.jsonl')}.` });
  });

  it('reviews what comes before a line that was changed, and says so', async () => {
    const lines = closedWalk('edited').map((line, i) => (i === 5 ? { ...line, mono: line.mono + 1 } : line));
    const { reviews } = await reviewed([log('edited.jsonl', lines)]);
    expect(reviews[0]?.review.problems).toHaveLength(1);
    expect(reviews[0] && reviewText(reviews[0].review)).toMatch(/^! {2}\S/m);
  });

  it('says what is wrong with a file', async () => {
    const empty = join(place, 'empty.jsonl');
    writeFileSync(empty, 'nothing\n');
    for (const file of [join(place, 'none.jsonl'), empty]) {
      const report = await reviewFiles([file], nowhere);
      expect(report.ok ? '' : report.problem).toMatch(/\S.*\.$/);
    }
  });
});

describe('review of several logs', () => {
  it('counts a call once, from the log that tells it furthest, leaves drills out and names nobody first', async () => {
    const short = log('short.jsonl', closedWalk('two', 'Ann').slice(0, 8));
    const long = log('long.jsonl', closedWalk('two', 'Ann'));
    const drill = log('drill.jsonl', new WalkDriver(WALKABLE, 'three').must({ type: 'opened', by: 'Ann', drill: true }).lines);
    const report = await reviewed([one, short, long, drill]);
    expect(report.reviews).toHaveLength(3);
    expect(report.left).toEqual([short]);
    expect(report.crew?.walks).toBe(2);
    expect(report.crew?.people.map(({ by }) => by)).toEqual(['Ann', 'Tam Tech']);
    expect(report.crew?.habits).toEqual([]);
    expect(report.pictures.map(({ editions }) => editions.map(({ walks, closed }) => [walks, closed]))).toEqual([[[2, 2]]]);
    const text = report.crew ? crewText(report.crew, { drills: 1, told: report.left }) : '';
    expect(text).toContain('2 calls of 2 people; 1 drill left out');
    expect(text).toContain('too few to compare');
    expect(text).not.toMatch(/NaN|undefined/);
  });
});
