import { describe, expect, it } from 'vitest';
import { bestDrillPath, clockMinutes, type DrillMove, drawFault, scoreDrill } from '../../engine/review/index.ts';
import { isolateFaults, isolationProblem, planMinutes } from '../../engine/suspects/index.ts';
import { DrillDriver } from './drill-driver.ts';
import { groundOn } from './drill-grounds.ts';

const TREE = 'condensate-or-float-switch-holds-off';
const BENCH = 'condensate-safeties';
const volts = (a: string, b: string): DrillMove => ({ do: 'measure', takes: 'ac-voltage', across: [a, b], input: 'low' });

describe('the best way to a fault', () => {
  it('is the path of the best plan, minute for minute', () => {
    const ground = groundOn(TREE, BENCH);
    const faults = Object.keys(ground.bench.faults);
    const problem = isolationProblem(ground.bench, {
      minutes: ground.minutes,
      meter: ground.meter,
      safety: ground.safety,
      houses: [{ facts: {}, share: 1 }],
    });
    const whole = isolateFaults(problem);
    const best = faults.map((fault) => bestDrillPath(groundOn(TREE, BENCH, { fault })));
    const weights = faults.map((fault) => ground.bench.faults[fault]?.weight ?? 0);
    const mean = best.reduce((sum, { minutes }, i) => sum + minutes * (weights[i] ?? 0), 0) / weights.reduce((a, b) => a + b, 0);
    expect(mean).toBeCloseTo(whole.minutes, 9);
    expect(mean).toBeCloseTo(planMinutes(problem.problem, whole.plan), 9);
  });

  it('ends with the fault alone, on every fault of the bench', () => {
    for (const fault of Object.keys(groundOn(TREE, BENCH).bench.faults)) {
      const best = bestDrillPath(groundOn(TREE, BENCH, { fault }));
      expect(best.group).toEqual([fault]);
      expect(best.steps.at(-1)?.left).toBe(1);
    }
  });

  it('is right, tells something at every reading, and is refused nowhere when a tech takes it', () => {
    for (const fault of ['drain-plugged', 'pump-dead', 'board-lead-open']) {
      const ground = groundOn(TREE, BENCH, { fault });
      const best = bestDrillPath(ground);
      const drill = new DrillDriver(ground);
      for (const { does } of best.steps) {
        if (does.kind === 'act') drill.must(does.action);
        else if (does.kind === 'dead') drill.must({ do: 'measure', takes: 'ac-voltage', across: [...does.across] });
        else if (does.probe.kind === 'look') drill.must({ do: 'look', sign: does.probe.sign });
        else if (does.probe.across)
          drill.must({
            do: 'measure',
            takes: does.probe.takes,
            across: [...does.probe.across],
            ...(does.probe.input && { input: does.probe.input }),
          });
        else drill.must({ do: 'measure-at', takes: does.probe.takes, at: does.probe.at ?? '' });
      }
      const score = scoreDrill(drill.must({ do: 'name', faults: [fault] }).run);
      expect(score).toMatchObject({ right: true, toldNothing: [], refused: [], left: [fault], hidden: fault });
      expect(score.minutes).toBeCloseTo(best.minutes, 9);
      expect(score.path.map(({ shown, left }) => [shown, left])).toEqual(best.steps.map(({ shown, left }) => [shown, left]));
    }
  });
});

describe('what came of a drill', () => {
  it('counts readings that told nothing, refusals, what is left in place and the clock', () => {
    const drill = new DrillDriver(groundOn(TREE, BENCH, { fault: 'float-stuck' }));
    drill.must({ do: 'look', sign: 'unit-runs' }, volts('L1', 'N'), volts('L1', 'N'), { do: 'turn', setting: 'cooling-call', state: 'off' });
    drill.send({ do: 'measure', takes: 'resistance', across: ['FA', 'FB'] }).must({ do: 'name', faults: ['pump-dead'] });
    const score = scoreDrill(drill.run);
    expect(score.right).toBe(false);
    expect(score.refused).toMatchObject([{ line: 4, concern: { code: 'not-proved-dead' } }]);
    expect(score.leftInPlace).toMatchObject([{ kind: 'setting', setting: 'cooling-call', now: 'off' }]);
    // L1 to N is sound with every fault of this bench.
    expect(score.toldNothing.map((at) => score.path[at]?.does)).toMatchObject([{ kind: 'probe' }, { kind: 'probe' }]);
    expect(score.minutes).toBeGreaterThan(0);
    expect(score.clock).toBeCloseTo(3, 9);
    expect(score.left.length).toBeGreaterThan(1);
  });

  it('goes by the wall where the clock of the device begins anew: the page was loaded again, the phone slept', () => {
    const line = (time: string, mono: number) => ({ time, mono, move: { do: 'name' as const, faults: [] } });
    const begun = { time: '2026-01-15T09:00:00.000+00:00', mono: 90_000 };
    expect(clockMinutes({ begun, lines: [] })).toBe(0);
    expect(clockMinutes({ begun, lines: [line('2026-01-15T09:01:00.000+00:00', 150_000), line('2026-01-15T09:02:30.000+00:00', 2_000)] })).toBe(2.5);
    // Set back by an hour in between.
    expect(clockMinutes({ begun, lines: [line('2026-01-15T08:01:00.000+00:00', 150_000)] })).toBe(1);
  });

  it('takes nothing wrong for an answer, and only where nothing is', () => {
    const sound = new DrillDriver(groundOn(TREE, BENCH)).must({ do: 'name', faults: [] }).run;
    expect(scoreDrill(sound).right).toBe(true);
    const broken = new DrillDriver(groundOn(TREE, BENCH, { fault: 'pump-dead' })).must({ do: 'name', faults: [] }).run;
    expect(scoreDrill(broken).right).toBe(false);
    expect(scoreDrill(new DrillDriver(groundOn(TREE, BENCH)).must({ do: 'give-up' }).run).right).toBeUndefined();
  });

  it('does not hold two faults against a tech that no reading tells apart', () => {
    const ground = groundOn(TREE, BENCH, { fault: 'pump-dead' });
    const run = new DrillDriver(ground).must({ do: 'name', faults: ['receptacle-dead'] }).run;
    const best = bestDrillPath(ground);
    expect(scoreDrill(run, best).right).toBe(false);
    expect(scoreDrill(run, { ...best, group: ['pump-dead', 'receptacle-dead'] }).right).toBe(true);
  });
});

describe('a fault drawn', () => {
  it('comes as often as it is met', () => {
    const { bench } = groundOn(TREE, BENCH);
    const drawn = Array.from({ length: 1020 }, (_, i) => drawFault(bench, (i + 0.5) / 1020));
    const whole = Object.values(bench.faults).reduce((sum, { weight }) => sum + weight, 0);
    for (const [fault, { weight }] of Object.entries(bench.faults))
      expect(Math.abs(drawn.filter((each) => each === fault).length - (1020 * weight) / whole)).toBeLessThanOrEqual(1);
    expect([drawFault(bench, -1), drawFault(bench, 1), drawFault(bench, 2)]).toEqual(['thermostat-open', 'beyond-the-board', 'beyond-the-board']);
    expect(drawFault({ ...bench, faults: {} }, 0.5)).toBeUndefined();
  });
});
