import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { namesOf, readBench } from '../../engine/bench/index.ts';
import { TRADE_FUNCTIONS } from '../../engine/trade/index.ts';
import { readTree } from '../../engine/tree/index.ts';
import { buildEdition, refusalWords } from '../../engine/walk/index.ts';
import { WalkDriver } from '../../engine/walk/testing/walk-driver.ts';

// What the proof forbids on paper the walk forbids at the unit: a tree with a mistake in it is walked anyway.

const text = (name: string): string => readFileSync(fileURLToPath(new URL(`../proof/${name}`, import.meta.url)), 'utf8');

function open(change: (tree: string) => string): WalkDriver {
  const { bench } = readBench(text('proof-bench.bench.yaml'), { file: 'proof-bench.bench.yaml' });
  if (!bench) throw new Error('no bench');
  const surroundings = { benches: { 'proof-bench': namesOf(bench) }, trees: {}, functions: TRADE_FUNCTIONS };
  const sound = text('sound.tree.mdx');
  const changed = change(sound);
  if (changed === sound) throw new Error('nothing was changed');
  const { tree, problems } = readTree(changed, { file: 'seeded.tree.mdx', surroundings });
  if (!tree) throw new Error(JSON.stringify(problems));
  const edition = buildEdition('seeded', { trees: { seeded: tree }, benches: { 'proof-bench': bench }, figures: {} });
  if (!edition.ok) throw new Error(JSON.stringify(edition.problem));
  return new WalkDriver(edition.value).open();
}

const toThePowerOff = (call: WalkDriver) => call.look('dry').read('26.9').read('26.9').read('26.9').read('26.7');

describe('the walk refuses', () => {
  it('ohms on what is live', () => {
    const call = open((tree) =>
      tree
        .replace('<Act does="prove the meter, turn main-power off" minutes={1} />', '<Act does="prove the meter" minutes={1} />')
        .replace('proves="dead" while="main-power off"', 'proves="dead"')
        .replace('lift coil-hot', 'prove the meter')
        .replace('across="coil-hot to C" while="main-power off"', 'across="V1 to C"'),
    );
    // Whatever the tech types for the dead reading, the bench knows that nothing was turned off.
    toThePowerOff(call).act().read('0.0').act().send({ type: 'read', typed: '30' });
    expect(call.refusals.at(-1)).toMatchObject({ code: 'unsafe', concern: { code: 'resistance-while-live', points: ['V1', 'C'] } });
    const refusal = call.refusals.at(-1);
    expect(refusal && refusalWords(refusal).fix).toContain('prove it dead');
    expect(call.at).toBe('work coil');
  });

  it('ohms on what was turned off and not proved dead; and takes them once it is', () => {
    const inCircuit = (tree: string) =>
      tree.replace('prove the meter, lift coil-hot', 'prove the meter').replace('across="coil-hot to C"', 'across="V1 to C"');
    const unproved = open((tree) => inCircuit(tree).replace('proves="dead" while', 'while'));
    toThePowerOff(unproved).act().read('0.0').act().send({ type: 'read', typed: '30' });
    expect(unproved.refusals.at(-1)).toMatchObject({ code: 'unsafe', concern: { code: 'not-proved-dead' } });
    const proved = open(inCircuit);
    toThePowerOff(proved).act().read('0.0').act().read('30');
    expect(proved.at).toBe('finding valve-stuck');
  });

  it('a line lead lifted with the power on, and a safety bridged', () => {
    const lifting = open((tree) =>
      tree.replace('<Act does="prove the meter, turn main-power off" minutes={1} />', '<Act does="lift line-lead" minutes={1} />'),
    );
    toThePowerOff(lifting).send({ type: 'did' });
    expect(lifting.refusals.at(-1)).toMatchObject({ code: 'unsafe', concern: { code: 'touched-while-live', action: 'lift line-lead' } });
    const bridging = open((tree) =>
      tree.replace('<Act does="prove the meter, turn main-power off" minutes={1} />', '<Act does="jumper K2 to V1" minutes={1} />'),
    );
    toThePowerOff(bridging).send({ type: 'did' });
    expect(bridging.refusals.at(-1)).toMatchObject({ code: 'unsafe', concern: { code: 'safety-bypassed', part: 'high-limit' } });
    expect(bridging.view.putBack).toEqual([]);
  });

  it('power before the lead that it would make live; the lead first, then the power', () => {
    const call = open((tree) =>
      tree
        .replace('across="R to C" proves="dead"', 'across="HUM to N" proves="dead"')
        .replace(
          '<Act does="prove the meter, lift coil-hot" minutes={1} />',
          '<Act does="prove the meter, lift line-lead, lift coil-hot" minutes={1} />',
        ),
    );
    toThePowerOff(call).act().read('0.0').act().read('OL').must({ type: 'found' }, { type: 'repaired', done: true });
    expect(call.view.putBack.map((item) => item.key)).toEqual(['lead line-lead', 'lead coil-hot', 'setting main-power']);
    call.send({ type: 'put-back', item: 'setting main-power' });
    expect(call.refusals.at(-1)).toMatchObject({ code: 'unsafe', concern: { code: 'touched-while-live', action: 'land line-lead' } });
    call.putAllBack();
    expect(call.at).toBe('recheck water');
  });
});
