import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import type { Bench } from '../../engine/bench/index.ts';
import { treeProblems } from '../../engine/cli/check.ts';
import { TreeFolder, treeName } from '../../engine/cli/tree-folder.ts';
import { proveTree } from '../../engine/proof/index.ts';
import { TRADE_FUNCTIONS } from '../../engine/trade/index.ts';
import { buildEdition, type CompiledEdition, compileEdition } from '../../engine/walk/index.ts';
import { proseText } from '../../shared/ui/prose-text.ts';

const folder = new TreeFolder(fileURLToPath(new URL('../../trees', import.meta.url)));
const trees = folder.treeFiles().map(treeName);

/** Of the weight of a tree's faults, the least that must end at a finding that names one fault alone; the rest share one, by name. */
const ISOLATED = 0.95;

function editionOf(name: string, benches: Readonly<Record<string, Bench>> = {}): CompiledEdition {
  const sources = folder.sources(name);
  const edition = buildEdition(name, { ...sources, benches: { ...sources.benches, ...benches } });
  if (!edition.ok) throw new Error(JSON.stringify(edition.problem));
  return compileEdition(edition.value, TRADE_FUNCTIONS);
}

describe.each(trees)('%s', (name) => {
  test('is checked without a problem, error or warning', () => {
    expect(treeProblems(folder, name).map(({ code, message }) => `${code} ${message}`)).toEqual([]);
  });

  test('is safe on every path, finds every fault of its benches, and finds a sound circuit sound', () => {
    const proof = proveTree(editionOf(name));
    expect(proof.cut).toBe(false);
    expect(proof.safety.map(({ step, found }) => `${step.step.title}: ${found.code}`)).toEqual([]);
    expect(proof.misses.map(({ fault, path }) => `${fault}: ${path.join(' → ')}`)).toEqual([]);
    expect(proof.wasted).toEqual([]);
    expect(proof.healthy).toBe(true);
    expect(proof.rates.detected).toBe(1);
    expect(proof.rates.isolated1).toBeGreaterThanOrEqual(ISOLATED);
    expect(proof.rates.isolated3).toBe(1);
  });
});

describe.each(trees)('%s, to someone who reads it', (name) => {
  const { root } = editionOf(name);
  const opening = [root.opening.prose, ...root.opening.cautions.map(({ prose }) => prose)].map(proseText).join(' ');

  test('leaves to local code, to the maker and to a license what is theirs', () => {
    expect(opening).toMatch(/local code/i);
    expect(opening).toMatch(/the maker's instructions/);
    expect(opening).toMatch(/licen[sc]/);
  });

  test('says what to do with a reading that does not fit, and has somebody to call', () => {
    expect(opening).toContain('A reading that fits no line');
    expect(root.steps.some((step) => step.kind === 'handoff' && step.id === root.handoff)).toBe(true);
  });

  test('a finding of more than one fault says that it does not tell them apart', () => {
    for (const step of root.steps)
      if (step.kind === 'finding' && step.faults.length > 1) expect(proseText(step.prose), step.title).toMatch(/the repair is the same/i);
  });
});

/** Every point that is one with the hot side of a gas valve when it opens: its own ends and what plain wires join to them, without the common. */
function gasPoints({ parts }: Bench): ReadonlySet<string> {
  const ends = Object.entries(parts).flatMap(([name, part]) => (name.includes('gas') && part.kind === 'coil' ? part.between : []));
  const points = new Set(ends.filter((point) => point !== 'C'));
  for (let grown = true; grown; ) {
    const before = points.size;
    for (const part of Object.values(parts)) {
      if (part.kind === 'wire' && part.between.some((point) => points.has(point)))
        for (const point of part.between) if (point !== 'C') points.add(point);
    }
    grown = points.size > before;
  }
  return points;
}

test('no tree joins anything to the hot side of a gas valve: the board alone opens it', () => {
  let valves = 0;
  for (const name of trees) {
    const { edition } = editionOf(name);
    const guarded = new Set(Object.values(edition.benches).flatMap((bench) => [...gasPoints(bench)]));
    valves += guarded.size > 0 ? 1 : 0;
    for (const step of Object.values(edition.trees).flatMap(({ steps }) => steps)) {
      if (step.kind !== 'act') continue;
      for (const action of step.does)
        if (action.do === 'jumper')
          expect(
            [action.from, action.to].filter((end) => guarded.has(end)),
            step.title,
          ).toEqual([]);
    }
  }
  // The furnace of no heat and that of the blown fuse, at least.
  expect(valves).toBeGreaterThanOrEqual(2);
});

/** `bench` with the temperature outside from one to another, °F; what is usual stays. */
function colder(bench: Bench, from: string, to: string): Bench {
  const { outdoor } = bench.facts;
  if (!outdoor) throw new Error('outdoor');
  return { ...bench, facts: { ...bench.facts, outdoor: { ...outdoor, from, to } } };
}

test('the sensor’s bands, which are worked out from the air, hold from -20 °F to 32 °F and not only where its bench tries them', () => {
  const bench = folder.bench('outdoor-sensor')?.bench;
  if (!bench) throw new Error('outdoor-sensor');
  const proof = proveTree(editionOf('outdoor-sensor-lies', { 'outdoor-sensor': colder(bench, '-20 °F', '32 °F') }));
  expect(proof.misses.map(({ fault, path }) => `${fault}: ${path.join(' → ')}`)).toEqual([]);
  expect(proof.rates).toMatchObject({ detected: 1, isolated1: 1 });
});
