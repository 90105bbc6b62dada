import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import type { Bench } from '../../engine/bench/index.ts';
import { treeProblems } from '../../engine/cli/check.ts';
import { TreeFolder, treeName } from '../../engine/cli/tree-folder.ts';
import { proveTree } from '../../engine/proof/index.ts';
import { TRADE_FUNCTIONS } from '../../engine/trade/index.ts';
import { buildEdition, type CompiledEdition, compileEdition } from '../../engine/walk/index.ts';

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
