import { describe, expect, it } from 'vitest';
import { shippedBenches } from '../../tests/circuits/bench-files.ts';
import { draftFromBench } from './draft-from-bench.ts';
import type { DraftAnswer } from './draft-message.ts';

const BENCH = 'drum-with-float';
const source = shippedBenches().find(({ name }) => name === BENCH)?.source ?? '';
const sources = (text: string, trees: Record<string, string> = {}) => ({ trees, benches: { [BENCH]: text }, figures: {}, editions: [] });
const draft = (text: string, trees?: Record<string, string>, told: (answer: DraftAnswer) => void = () => {}): DraftAnswer =>
  draftFromBench({ bench: BENCH, name: 'overflow', title: 'Water on the floor', sources: sources(text, trees) }, told);

describe('a draft on the desk', () => {
  it('tells its stages, and comes without problems, with the usual minutes where no tree is about the bench', () => {
    const stages: string[] = [];
    const made = draft(source, {}, ({ stage }) => stages.push(stage));
    if (made.stage !== 'drafted') throw new Error(made.stage);
    expect([...new Set(stages)]).toEqual(['reading', 'gathering', 'ordering', 'checking']);
    const { problems, minutesFrom, method, minutes, bound, text, ambiguous } = made.report;
    expect([problems, minutesFrom, method, ambiguous]).toEqual([[], undefined, 'exact', []]);
    expect(bound).toBeLessThanOrEqual(minutes);
    expect(text).toContain('title: Water on the floor');
  });

  it('counts with the minutes of a tree that is about the bench, and not with those of another draft', () => {
    const first = draft(source);
    if (first.stage !== 'drafted') throw new Error(first.stage);
    const slow = first.report.text.replaceAll('" />', '" minutes={3} />');
    expect(slow).not.toBe(first.report.text);
    const again = draft(source, { 'crews-own': slow });
    if (again.stage !== 'drafted') throw new Error(again.stage);
    expect(again.report.minutesFrom).toBe('Water on the floor');
    expect(again.report.minutes).toBeGreaterThan(first.report.minutes);
    expect(draft(source, { 'crews-own-draft': slow })).toEqual(first);
  });

  it.each([
    ['a bench with errors', source.replace('terminals:', 'terminal:')],
    ['a bench without faults', source.replace(/^faults:[\s\S]*$/m, 'faults: {}\n')],
  ])('of %s says why there is none, and the way out', (_what, text) => {
    expect(text).not.toBe(source);
    const none = draft(text);
    expect(none.stage).toBe('no-draft');
    if (none.stage === 'no-draft') for (const words of [none.message, none.fix]) expect(words).toMatch(/\S.*\./);
  });

  it('of a bench that is gone says so', () => {
    const none = draftFromBench({ bench: 'gone', name: 'x', title: 'X', sources: sources(source) }, () => {});
    expect(none).toMatchObject({ stage: 'no-draft', message: 'This bench is no longer on the desk.' });
  });
});
