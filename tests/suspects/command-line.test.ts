import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, it, test } from 'vitest';
import { checkFiles } from '../../engine/cli/check.ts';
import { draftFile } from '../../engine/cli/draft.ts';
import { nextFile, nextText } from '../../engine/cli/next.ts';
import { proveFile } from '../../engine/cli/prove.ts';
import { sequenceFile } from '../../engine/cli/sequence.ts';

const ROOT = fileURLToPath(new URL('../../', import.meta.url));
const place = mkdtempSync(join(tmpdir(), 'ohmward-suspects-'));
afterAll(() => rmSync(place, { recursive: true }));

const outside = (name: string): string => join(ROOT, 'tests/outside', `${name}.csv`);

/** A file of this test's folder. */
function written(name: string, text: string): string {
  const file = join(place, name);
  writeFileSync(file, text);
  return file;
}

describe('sequence', () => {
  // The reference values of test-sequencing.test.ts, as a program reads them.
  test.each([
    ['classic_6x5', { optimum: 2.18, firstTests: ['t2', 't4'], informationGain: 2.86, rollout: 2.18, bound: 1.59 }],
    ['identity_4x4', { optimum: 2.9, informationGain: 2.9, rollout: 2.9, bound: 1.9 }],
    ['hvac24v_9x10', { optimum: 6.62, informationGain: 6.96, rollout: 6.62, bound: 3 }],
    ['chain_9x8', { optimum: 3.222222222, informationGain: 3.222222222, rollout: 3.222222222, bound: 3.222222222 }],
  ])('of %s', (name, wanted) => {
    const report = sequenceFile(outside(name), {});
    expect(report).toMatchObject({ ok: true, value: { method: 'exact', ...wanted } });
  });

  it('takes what is switched into the file, and where the circuit is found from outside', () => {
    const plain = readFileSync(outside('hvac24v_9x10'), 'utf8').trim();
    const wants = Array.from({ length: 10 }, (_, i) => (i === 7 || i === 9 ? 'isolated' : 'energised')).join();
    const file = written('switched.csv', `${plain}\n#wants,,${wants}\n#switch,energised,isolated,4\n#switch,isolated,energised,1\n`);
    expect(sequenceFile(file, {})).toMatchObject({ value: { optimum: 6.82, method: 'exact' } });
    expect(sequenceFile(file, { from: 'isolated' })).toMatchObject({ value: { optimum: 7.82 } });
    const wrong = sequenceFile(file, { from: 'upside-down' });
    expect(!wrong.ok && wrong.problem).toContain('energised, isolated');
  });

  it('says when it is not exact, and what is wrong with a file or an option', () => {
    expect(sequenceFile(outside('hvac24v_9x10'), { most: '2' })).toMatchObject({ value: { method: 'rollout', optimum: 6.62 } });
    for (const [file, options] of [
      [join(place, 'nowhere.csv'), {}],
      [written('broken.csv', 'state,prior,t\na,1,0\n'), {}],
      [outside('classic_6x5'), { most: 'many' }],
      [outside('classic_6x5'), { from: 'isolated' }],
    ] as const) {
      const report = sequenceFile(file, options);
      expect(report.ok ? '' : report.problem).toMatch(/\S.*\./);
    }
  });
});

describe('draft', () => {
  const bench = join(ROOT, 'trees/benches/condensate-safeties.bench.yaml');

  it('writes a tree that checks and proves clean beside its bench, with the minutes of the crew’s tree, and says what it takes', () => {
    const trees = join(place, 'trees');
    mkdirSync(join(trees, 'benches'), { recursive: true });
    const own = join(trees, 'benches/condensate-safeties.bench.yaml');
    writeFileSync(own, readFileSync(bench));
    const out = join(trees, 'air-handler.tree.mdx');
    const usual = draftFile(own, out);
    if (!usual.ok) throw new Error(usual.problem);
    expect(usual.value).toMatchObject({ file: out, method: 'exact', minutesFrom: null, ambiguous: [], notes: [] });
    expect(checkFiles([out])).toEqual({ ok: true, problems: [] });
    const proof = proveFile(out);
    if (!proof.ok) throw new Error(proof.problem);
    expect(proof.value).toMatchObject({
      ok: true,
      problems: [],
      healthy: true,
      expectedMinutes: usual.value.minutes,
      bestMinutes: usual.value.minutes,
    });
    expect(proof.value.bound).toBeLessThanOrEqual(proof.value.bestMinutes);

    const hand = 'condensate-or-float-switch-holds-off.tree.mdx';
    rmSync(out);
    writeFileSync(join(trees, hand), readFileSync(join(ROOT, 'trees', hand)));
    const likeHand = draftFile(own, out);
    const handProof = proveFile(join(ROOT, 'trees', hand));
    if (!likeHand.ok || !handProof.ok) throw new Error('not drafted');
    expect(likeHand.value.minutesFrom).toBe(hand.replace('.tree.mdx', ''));
    expect(likeHand.value.minutes).toBe(handProof.value.bestMinutes);
    expect(likeHand.value.minutes).toBeLessThan(handProof.value.expectedMinutes);
  });

  it('writes over nothing, and says what is wrong', () => {
    const there = written('there.tree.mdx', 'mine');
    for (const [file, out] of [
      [bench, there],
      [bench, join(place, 'tree.txt')],
      [bench, join(place, 'no-such-folder/tree.tree.mdx')],
      [join(place, 'no.bench.yaml'), undefined],
      [written('broken.bench.yaml', 'title: Broken'), join(place, 'x.tree.mdx')],
    ] as const) {
      const report = draftFile(file, out);
      expect(report.ok ? '' : report.problem).toMatch(/\S.*\./);
    }
    expect(readFileSync(there, 'utf8')).toBe('mine');
  });
});

describe('next', () => {
  const tree = join(ROOT, 'trees/condensate-or-float-switch-holds-off.tree.mdx');

  it('before the first step has all faults by weight, and probabilities that add up', () => {
    const report = nextFile(tree, {});
    if (!report.ok) throw new Error(report.problem);
    const { suspects, nothingWrong, unknown, next, contradictions, finding } = report.value;
    expect(suspects.reduce((sum, { probability }) => sum + probability, nothingWrong + unknown)).toBeCloseTo(1, 2);
    expect(suspects[0]?.fault).toBe('drain-plugged');
    expect([contradictions, finding]).toEqual([[], null]);
    const expected = next.map((reading) => reading.expected);
    expect(expected).toEqual([...expected].sort((a, b) => a - b));
    for (const { shows } of next) expect(shows.reduce((sum, { probability }) => sum + probability, 0)).toBeCloseTo(1, 2);
    expect(nextText(report.value)).toContain('something that the bench does not know');
  });

  it('says that there is no log', () => expect(nextFile(tree, { log: join(place, 'none.jsonl') })).toMatchObject({ ok: false }));
});
