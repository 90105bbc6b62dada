import { describe, expect, it } from 'vitest';
import { factBox } from '../../engine/bench/index.ts';
import { TreeFolder } from '../../engine/cli/tree-folder.ts';
import { proveTree } from '../../engine/proof/index.ts';
import { evidenceOf, trailOfLog, trailOfPath, WalkAdvisor } from '../../engine/suspects/index.ts';
import { buildEdition, type WalkableEdition, walkableEdition } from '../../engine/walk/index.ts';
import { SimulatedCall } from './simulated-call.ts';

const folder = new TreeFolder(new URL('../../trees', import.meta.url).pathname);

function edition(name: string): WalkableEdition {
  const built = buildEdition(name, folder.sources(name));
  if (!built.ok) throw new Error(JSON.stringify(built.problem));
  return walkableEdition(built.value);
}

/** Every fault of a bench, found by taking the suggestions; the minutes of each beside those of the tree's own order. */
function bySuggestion(tree: string, bench: string, tell: boolean) {
  const walkable = edition(tree);
  const advisor = new WalkAdvisor(walkable.compiled);
  const made = walkable.compiled.edition.benches[bench];
  if (!made) throw new Error(bench);
  const order = proveTree(walkable.compiled).faults.filter((fault) => fault.bench === bench);
  return order.map(({ id, weight, minutes }) => {
    const call = new SimulatedCall(walkable, made, [id]);
    if (tell) call.send({ type: 'told', fact: 'wiring', typed: bench });
    const { taken, names } = call.follow(advisor);
    return { id, weight, taken, names, suggested: call.minutes, treeMinutes: minutes };
  });
}

const mean = (of: readonly { readonly weight: number }[], each: (i: number) => number): number =>
  of.reduce((sum, { weight }, i) => sum + weight * each(i), 0) / of.reduce((sum, { weight }) => sum + weight, 0);

describe.each([
  ['condensate-or-float-switch-holds-off', 'condensate-safeties', false],
  ['contactor-will-not-pull-in', 'cooling-call', false],
  ['control-has-no-power', 'blank-thermostat', false],
  ['no-water-at-the-pad', 'own-transformer', true],
  ['ignition-call-to-proved-flame', 'ignition-sequence', false],
] as const)('suggestions on %s', (tree, bench, tell) => {
  it('end on the right part for every fault, in fewer minutes than the tree’s order', () => {
    const found = bySuggestion(tree, bench, tell);
    expect(found.filter(({ id, names }) => !names.includes(id))).toEqual([]);
    expect(mean(found, (i) => found[i]?.suggested ?? 0)).toBeLessThan(mean(found, (i) => found[i]?.treeMinutes ?? 0));
  });
});

describe.each([
  ['condensate-or-float-switch-holds-off', 'condensate-safeties'],
  ['control-has-no-power', 'blank-thermostat'],
] as const)('suggestions on %s, in houses that nobody told of', (tree, bench) => {
  it('end on the right part with all facts at their low and at their high ends', () => {
    const walkable = edition(tree);
    const advisor = new WalkAdvisor(walkable.compiled);
    const made = walkable.compiled.edition.benches[bench];
    if (!made) throw new Error(bench);
    for (const end of ['from', 'to'] as const) {
      const house = Object.fromEntries(Object.entries(factBox(made)).map(([fact, range]) => [fact, range[end]]));
      for (const id of Object.keys(made.faults)) expect(new SimulatedCall(walkable, made, [id], house).follow(advisor).names).toContain(id);
    }
  });
});

describe('two faults at once', () => {
  it.each([
    ['feed-missing', 'coil-open'],
    ['cock-shut', 'contact-stuck'],
    ['fuse-blown', 'valve-stuck'],
  ])('%s and %s: the second is found after the first repair did not help', (first, second) => {
    const walkable = edition('no-water-at-the-pad');
    const advisor = new WalkAdvisor(walkable.compiled);
    const made = walkable.compiled.edition.benches['own-transformer'];
    if (!made) throw new Error('bench');
    const call = new SimulatedCall(walkable, made, [first, second]);
    call.send({ type: 'told', fact: 'wiring', typed: 'own-transformer' });
    const found = [call.follow(advisor).names];
    call.repair(found.flat());
    expect(call.driver.view.excluded).toEqual(found.flat());
    const suspects = advisor.suspects(call.driver.walk, call.trail);
    expect(suspects.faults.map(({ fault }) => fault)).not.toContain(found[0]?.[0]);
    found.push(call.follow(advisor).names);
    expect(found.flat().sort()).toEqual([first, second].sort());
    call.repair(found[1] ?? []);
    expect(call.driver.view.phase).toBe('closing');
  });
});

describe('a wiring that nobody told', () => {
  it('weighs in until a reading tells it', () => {
    const walkable = edition('no-water-at-the-pad');
    const advisor = new WalkAdvisor(walkable.compiled);
    const made = walkable.compiled.edition.benches['relay-to-line-humidifier'];
    if (!made) throw new Error('bench');
    const call = new SimulatedCall(walkable, made, ['relay-contact-burnt']);
    const before = advisor.suspects(call.driver.walk, call.trail);
    for (const share of Object.values(before.wirings)) expect(share).toBeCloseTo((1 - before.unknown) / 3, 6);
    const { names } = call.follow(advisor);
    expect(names).toEqual(['relay-contact-burnt']);
    const { wirings } = advisor.suspects(call.driver.walk, call.trail);
    expect(wirings['relay-to-line-humidifier']).toBeGreaterThan(0.9);
  });
});

describe('with the power off and proved dead', () => {
  it('the ohms that are one lead away come before going live again', () => {
    const walkable = edition('no-water-at-the-pad');
    const made = walkable.compiled.edition.benches['own-transformer'];
    if (!made) throw new Error('bench');
    const call = new SimulatedCall(walkable, made, ['coil-open']);
    call.tell('wiring', 'own-transformer');
    while (call.at !== 'no-water-at-the-pad/lift-a-coil-lead') call.work();
    const { next } = new WalkAdvisor(walkable.compiled).advise(call.driver.walk, call.trail);
    const [best] = next.readings;
    expect(best?.candidate.probe).toMatchObject({ takes: 'resistance' });
    expect(best?.setUp.map((move) => move.do)).not.toContain('turn');
    expect(best?.reason).toBe('tells coil open from valve stuck');
  });
});

describe('the trail of a walk', () => {
  it('is the same from its events and from its log; from the path alone but for what was put back by hand', () => {
    const walkable = edition('contactor-will-not-pull-in');
    const made = walkable.compiled.edition.benches['cooling-call'];
    if (!made) throw new Error('bench');
    const call = new SimulatedCall(walkable, made, ['coil-open']);
    while (call.driver.view.step?.kind !== 'finding') call.work();
    expect(call.trail.length).toBeGreaterThan(8);
    const logged = trailOfLog(walkable, call.driver.walk.id, call.driver.lines);
    expect(logged.trail).toEqual(call.trail);
    expect(logged.walk.snapshot.context).toEqual(call.driver.walk.snapshot.context);
    const settings = (trail: typeof call.trail) => trail.map(({ circuit }) => [circuit.settings, circuit.jumpers, circuit.lifted]);
    expect(settings(trailOfPath(walkable.compiled, call.driver.walk.snapshot.context))).toEqual(settings(call.trail));
    expect(evidenceOf(call.driver.walk, call.trail).map(({ step, found }) => [step, Number.isFinite(found)])).toEqual(
      evidenceOf(call.driver.walk).map(({ step, found }) => [step, Number.isFinite(found)]),
    );
  });
});
