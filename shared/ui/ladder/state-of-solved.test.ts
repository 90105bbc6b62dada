import { describe, expect, it } from 'vitest';
import { asFound, type Bench, prepare, type Situation, solve, withFault, withJumper, withLifted, withSetting } from '../../../engine/bench/index.ts';
import { SHIPPED } from '../../../tests/browser/ladder/shipped-benches.ts';
import { isLive, type LadderState } from './ladder-state.ts';
import { stateOfSolved } from './state-of-solved.ts';

const benchNamed = (name: string): Bench => {
  const found = SHIPPED.find(([file]) => file === `${name}.bench.yaml`)?.[1];
  if (!found) throw new Error(`no bench ${name}`);
  return found;
};

function stateOf(bench: Bench, change: (situation: Situation) => Situation = (found) => found): LadderState {
  const solved = solve(prepare(bench), change(asFound(bench)));
  if (!solved.ok) throw new Error(JSON.stringify(solved));
  return stateOfSolved(solved, { faults: true });
}

const liveNodes = (state: LadderState): readonly string[] => Object.keys(state.volts ?? {}).filter((node) => isLive(state, node));

describe('stateOfSolved', () => {
  const own = benchNamed('own-transformer');

  it('follows the power up to the load and not past it', () => {
    const state = stateOf(own);
    expect(liveNodes(state)).toEqual(expect.arrayContaining(['L1', 'HUM', 'P1', 'T1', 'F1', 'R', 'K1', 'K2', 'HL1', 'HL2', 'V1', 'S1']));
    for (const node of ['N', 'T2', 'C', 'V2', 'S2']) expect([node, isLive(state, node)]).toEqual([node, false]);
    expect(state.energisedParts).toEqual(expect.arrayContaining(['mains', 'xfmr', 'fuse', 'dry-contact', 'valve-coil', 'outdoor-sensor']));
  });

  it('stops where a contact is open', () => {
    const state = stateOf(own, (found) => withSetting(found, 'humidity-call', 'off'));
    expect(isLive(state, 'K1')).toBe(true);
    expect(liveNodes(state)).not.toEqual(expect.arrayContaining(['K2']));
    expect(state.parts?.['dry-contact']).toBe('open');
    expect(state.energisedParts).not.toContain('dry-contact');
    expect(state.forced).toEqual({ 'humidity-call': 'off' });
  });

  it('leaves the stray volts of a broken wire out', () => {
    const state = stateOf(own, (found) => withFault(withLifted(found, 'coil-hot'), 'run-open'));
    expect(isLive(state, 'HL2')).toBe(true);
    expect(isLive(state, 'V1')).toBe(false);
  });

  it('shows the loose end of a lifted lead apart from its terminal', () => {
    const state = stateOf(own, (found) => withLifted(found, 'coil-hot'));
    expect([isLive(state, 'V1'), isLive(state, 'coil-hot')]).toEqual([true, false]);
    expect(state.lifted).toEqual(['coil-hot']);
    expect(state.energisedParts).not.toContain('valve-coil');
  });

  it('shows a return that is broken as live up to the break', () => {
    const state = stateOf(own, (found) => withFault(found, 'return-open'));
    expect([isLive(state, 'V1'), isLive(state, 'V2'), isLive(state, 'C')]).toEqual([true, true, false]);
    expect(state.faults).toEqual([{ part: 'valve-return', word: 'open', breaks: true }]);
  });

  it('shows both hot legs of a 240 V supply', () => {
    const state = stateOf(benchNamed('cooling-call'));
    for (const node of ['LA', 'LB', 'CA', 'CB']) expect([node, isLive(state, node)]).toEqual([node, true]);
  });

  it('carries jumpers over', () => {
    expect(stateOf(own, (found) => withJumper(found, 'K1', 'K2')).jumpers).toEqual([{ from: 'K1', to: 'K2' }]);
  });

  it.each(SHIPPED)('%s: the supply’s own terminals are live as found, whatever single fault there is it can be drawn', (_file, bench) => {
    const prepared = prepare(bench);
    expect(liveNodes(stateOf(bench)).length).toBeGreaterThan(0);
    for (const fault of Object.keys(bench.faults)) {
      const solved = solve(prepared, withFault(asFound(bench), fault));
      if (!solved.ok) continue;
      const state = stateOfSolved(solved, { faults: true });
      expect(state.faults?.map(({ part }) => part)).toEqual([bench.faults[fault]?.part]);
      expect(Object.values(state.volts ?? {}).every(Number.isFinite)).toBe(true);
    }
  });

  it.each(SHIPPED.filter(([, { settings }]) => settings['main-power'] && !settings['humidifier-power'] && !settings.disconnect))(
    '%s: with the power off nothing behind the switch is live',
    (_file, bench) => {
      const state = stateOf(bench, (found) => withSetting(found, 'main-power', 'off'));
      const behind = ['L1', 'R', 'C', 'W', 'Y', 'K1', 'K2'].filter((node) => bench.terminals.includes(node));
      expect(behind.filter((node) => isLive(state, node))).toEqual([]);
    },
  );
});
