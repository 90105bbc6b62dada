import { describe, expect, it } from 'vitest';
import { longestWalks } from '../../author-ui/proof/minutes-report.ts';
import { type Bench, parseBench } from '../../engine/bench/index.ts';
import { TreeFolder } from '../../engine/cli/tree-folder.ts';
import { proveTree } from '../../engine/proof/index.ts';
import { draftTree, probeWords, type StepLosses, stepLosses } from '../../engine/suspects/index.ts';
import { TRADE_FUNCTIONS } from '../../engine/trade/index.ts';
import type { Step, Tree } from '../../engine/tree/index.ts';
import { buildEdition, type CompiledEdition, compileEdition, type EditionSources } from '../../engine/walk/index.ts';
import { shippedBenches, soundBench } from '../circuits/bench-files.ts';

function compiled(root: string, sources: EditionSources): CompiledEdition {
  const edition = buildEdition(root, sources);
  if (!edition.ok) throw new Error(JSON.stringify(edition.problem));
  return compileEdition(edition.value, TRADE_FUNCTIONS);
}

const losses = (edition: CompiledEdition): StepLosses => stepLosses(edition, longestWalks(edition), { most: 3_000 });

const lostIn = ({ steps }: StepLosses): number => steps.reduce((sum, { lost }) => sum + lost, 0);

/** Four wires in a row, each as likely to be open, and a tree that reads them one after the other. */
function oneAfterTheOther(): CompiledEdition {
  const nodes = ['T0', 'T1', 'T2', 'T3', 'T4'];
  const wires = nodes.slice(1).map((to, i) => [`wire-${i}`, { kind: 'wire', between: [nodes[i], to], gauge: '18 AWG', length: '2 ft' }] as const);
  const read = parseBench({
    title: 'Four wires',
    terminals: [...nodes, 'C'],
    parts: {
      supply: { kind: 'source', between: ['T0', 'C'], volts: '24 V', ohms: '1 ohm' },
      load: { kind: 'load', between: ['T4', 'C'], ohms: '60 ohm' },
      ...Object.fromEntries(wires),
    },
    signs: { runs: 'volts(T4, C) above 18 V' },
    faults: Object.fromEntries(wires.map(([part]) => [`${part}-open`, { part, becomes: 'open' }])),
  });
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  const bench: Bench = read.bench;
  const say = [{ type: 'paragraph' as const, children: [{ type: 'text' as const, value: 'Do it.' }] }];
  const common = (id: string) => ({ id, title: id, minutes: 1, while: [], cautions: [], prose: [], photos: [] });
  const finding = (id: string, faults: string[]): Step => ({ kind: 'finding', ...common(id), minutes: 0, faults, repair: say });
  const reading = (i: number, next: string): Step => ({
    kind: 'reading',
    ...common(`at-${i}`),
    takes: 'ac-voltage',
    across: [`T${i}`, 'C'],
    ways: [
      { on: 'below 10 V', to: { step: `open-${i - 1}` } },
      { on: 'above 10 V', to: { step: next } },
    ],
  });
  const tree: Tree = {
    name: 'wires',
    title: 'Wires',
    complaint: 'It does not run.',
    benches: ['wires'],
    facts: {},
    settings: {},
    meter: '1 % + 3 counts',
    recheck: { step: 'look', passes: 'runs' },
    handoff: 'help',
    opening: { cautions: [{ signal: 'notice', about: 'control-circuit', prose: say }], prose: say },
    steps: [
      {
        kind: 'look',
        ...common('look'),
        sign: 'runs',
        ways: [
          { on: 'runs', to: { step: 'sound' } },
          { on: 'does not', to: { step: 'at-1' } },
        ],
      },
      reading(1, 'at-2'),
      reading(2, 'at-3'),
      reading(3, 'open-3'),
      finding('sound', []),
      ...[0, 1, 2, 3].map((i) => finding(`open-${i}`, [`wire-${i}-open`])),
      { kind: 'handoff', ...common('help'), minutes: 0, to: 'the senior tech' },
    ],
  };
  return compiled('wires', { trees: { wires: tree }, benches: { wires: bench }, figures: {} });
}

describe('what the steps of a tree lose', () => {
  it('by hand: four equal faults read one after the other lose a quarter of a minute, all of it at the first reading', () => {
    // The look, then (1 + 2 + 3 + 3) / 4 readings: 3.25. Halving takes 1 + 2. With the first reading taken, 1 + 3/4 (1 + 2/3) is the best that is left.
    const told = losses(oneAfterTheOther());
    expect(told.best.minutes).toBeCloseTo(3, 9);
    expect(told.method).toBe('exact');
    const [first, ...others] = told.steps;
    expect(first).toMatchObject({ key: 'wires/at-1', chance: 1 });
    expect(first?.lost).toBeCloseTo(0.25, 9);
    expect(first?.spent).toBeCloseTo(1, 9);
    expect(first?.instead && probeWords(first.instead.probe)).toMatch(/^AC volts T2 to C/);
    for (const { lost } of others) expect(lost).toBeCloseTo(0, 9);
    expect(others.find(({ key }) => key === 'wires/at-3')?.chance).toBeCloseTo(0.5, 9);
  });

  it('adds up to the minutes of a shipped tree less the best', () => {
    const folder = new TreeFolder(new URL('../../trees', import.meta.url).pathname);
    for (const name of ['condensate-or-float-switch-holds-off', 'contactor-will-not-pull-in', 'control-has-no-power', 'water-never-stops']) {
      const edition = compiled(name, folder.sources(name));
      const told = losses(edition);
      const { expectedMinutes } = proveTree(edition);
      expect(told.best.minutes).toBeLessThan(expectedMinutes);
      expect(told.best.bound).toBeLessThanOrEqual(told.best.minutes + 1e-9);
      // The proof walks every corner of the facts, this one the usual house and both ends.
      expect(Math.abs(told.best.minutes + lostIn(told) - expectedMinutes)).toBeLessThan(0.05);
      expect(told.steps.reduce((sum, { spent }) => sum + spent, 0)).toBeCloseTo(told.best.minutes + lostIn(told), 6);
    }
  });

  it('is nothing anywhere in a drafted tree', () => {
    const file = shippedBenches().find(({ name }) => name === 'condensate-safeties');
    if (!file) throw new Error('bench');
    const bench = soundBench(file);
    const draft = draftTree(bench, { name: 'draft', bench: file.name });
    if (!draft.ok) throw new Error(draft.problem.code);
    const told = losses(compiled('draft', { trees: { draft: draft.value.tree }, benches: { [file.name]: bench }, figures: {} }));
    expect(told.best.minutes).toBeCloseTo(draft.value.isolation.minutes, 9);
    for (const { lost } of told.steps) expect(Math.abs(lost)).toBeLessThan(1e-6);
  });
});
