import { describe, expect, it } from 'vitest';
import { type Bench, namesOf, parseBench, prepare } from '../../engine/bench/index.ts';
import { TreeFolder } from '../../engine/cli/tree-folder.ts';
import { proveTree, type TreeProof } from '../../engine/proof/index.ts';
import { bestMinutes, type DraftedTree, draftTree, type MinutesModel, probeOf, treeMinutes, usualMinutes } from '../../engine/suspects/index.ts';
import { TRADE_FUNCTIONS } from '../../engine/trade/index.ts';
import { readTree, type Step, type Tree, writeTree } from '../../engine/tree/index.ts';
import { buildEdition, type CompiledEdition, compileEdition, type EditionSources } from '../../engine/walk/index.ts';
import { sampleBenches, shippedBenches, soundBench } from '../circuits/bench-files.ts';

const folder = new TreeFolder(new URL('../../trees', import.meta.url).pathname);

function compiled(root: string, sources: EditionSources): CompiledEdition {
  const edition = buildEdition(root, sources);
  if (!edition.ok) throw new Error(JSON.stringify(edition.problem));
  return compileEdition(edition.value, TRADE_FUNCTIONS);
}

function drafted(name: string, bench: Bench, minutes?: MinutesModel): DraftedTree {
  // With minutes of a tree's own the exact search takes longer than a test may; the rollout past the limit has to keep the promise too.
  const draft = draftTree(bench, { name: 'draft', bench: name, ...(minutes && { minutes, most: 5_000 }) });
  if (!draft.ok) throw new Error(draft.problem.code);
  return draft.value;
}

/** As a crew would have it: written to a file, read back, checked and proved. */
function proved(
  name: string,
  bench: Bench,
  minutes?: MinutesModel,
): { readonly draft: DraftedTree; readonly tree: Tree; readonly problems: readonly string[]; readonly proof: TreeProof } {
  const draft = drafted(name, bench, minutes);
  const text = writeTree(draft.tree);
  const { tree, problems } = readTree(text, {
    file: 'draft.tree.mdx',
    surroundings: { benches: { [name]: namesOf(bench) }, trees: {}, functions: TRADE_FUNCTIONS },
  });
  if (!tree) throw new Error(problems.map(({ message }) => message).join('\n'));
  const proof = proveTree(compiled('draft', { trees: { draft: tree }, benches: { [name]: bench }, figures: {} }));
  return { draft, tree, problems: problems.map(({ code, message }) => `${code} ${message}`), proof };
}

/** The shipped trees by the benches that they are about. */
const byBench = (() => {
  const found = new Map<string, { readonly edition: CompiledEdition; readonly usual: CompiledEdition }>();
  for (const file of folder.treeFiles()) {
    const name = file.replace(/^.*\//, '').replace('.tree.mdx', '');
    const sources = folder.sources(name);
    const tree = sources.trees[name];
    if (!tree) continue;
    for (const bench of tree.benches) {
      const made = sources.benches[bench];
      if (!made) continue;
      const trees = Object.fromEntries(
        Object.entries(sources.trees).map(([key, each]) => [key, { ...each, steps: each.steps.map((step) => atUsualMinutes(step, made)) }]),
      );
      found.set(bench, { edition: compiled(name, sources), usual: compiled(name, { ...sources, trees }) });
    }
  }
  return found;
})();

/** A step with the minutes that a draft counts with, so that a hand-written tree and a draft can be measured by one watch. */
function atUsualMinutes(step: Step, bench: Bench): Step {
  const usual = usualMinutes(prepare(bench));
  if (step.kind === 'act') return { ...step, minutes: step.does.reduce((sum, action) => sum + usual.action(action), 0) };
  if (step.kind === 'reading' && step.proves) return { ...step, minutes: usual.dead };
  if (step.kind === 'reading' || step.kind === 'look') {
    const probe = probeOf(step);
    return { ...step, minutes: probe ? usual.probe(probe) : 1 };
  }
  return { ...step, minutes: 0 };
}

describe.each(shippedBenches().map((file) => [file.name, file] as const))('a draft of %s', (name, file) => {
  const bench = soundBench(file);
  const { draft, tree, problems, proof } = proved(name, bench);

  it('is read back as it was drafted, with nothing to put right', () => {
    expect(problems).toEqual([]);
    expect(tree).toEqual(draft.tree);
  });

  it('is safe on every path', () => {
    expect(proof.cut).toBe(false);
    expect(proof.safety.map(({ step, found }) => `${step.step.title}: ${found.code}`)).toEqual([]);
  });

  it('ends right with every fault, in every corner, and finds a sound circuit sound', () => {
    expect(proof.misses.map(({ fault, path }) => `${fault}: ${path.join(' → ')}`)).toEqual([]);
    expect(proof.wasted).toEqual([]);
    expect(proof.healthy).toBe(true);
    expect(proof.rates).toMatchObject({ detected: 1, isolated1: 1 });
    expect(draft.ambiguous).toEqual([]);
  });

  it('takes the minutes of the exact search, and none above its bound', () => {
    expect(draft.isolation.method).toBe('exact');
    expect(proof.expectedMinutes).toBeCloseTo(draft.isolation.minutes, 9);
    expect(draft.isolation.bound).toBeLessThanOrEqual(draft.isolation.minutes + 1e-9);
  });

  it('takes no more than the hand-written tree, by the usual minutes and by the tree’s own', () => {
    const hand = byBench.get(name);
    if (!hand) throw new Error(`no tree is about ${name}`);
    expect(proof.expectedMinutes).toBeLessThanOrEqual(proveTree(hand.usual).minutesByBench[name] ?? 0);
    const own = proved(name, bench, treeMinutes(hand.edition, prepare(bench)));
    expect(own.problems).toEqual([]);
    expect(own.proof.safety).toEqual([]);
    expect(own.proof.misses).toEqual([]);
    expect(own.proof.expectedMinutes).toBeCloseTo(own.draft.isolation.minutes, 9);
    expect(own.proof.expectedMinutes).toBeLessThanOrEqual(proveTree(hand.edition).minutesByBench[name] ?? 0);
  });

  it('feeds no gas valve and no igniter by hand', () => {
    const fed = tree.steps
      .flatMap((step) => (step.kind === 'act' ? step.does : []))
      .flatMap((act) => (act.do === 'jumper' ? [act.from, act.to] : []));
    const burner = Object.entries(bench.parts).flatMap(([part, spec]) => (/gas|igniter/.test(part) && 'between' in spec ? spec.between : []));
    expect(fed.filter((point) => burner.includes(point) && !['R', 'C', 'N', 'L1'].includes(point))).toEqual([]);
  });

  it('begins with the complaint, which is what is tried again after the repair', () => {
    const [first] = tree.steps;
    expect(tree.recheck).toEqual({ step: first?.id, passes: 'yes' });
    expect(first?.kind).toBe('look');
  });

  it('sends what no fault predicts to somebody, never to a finding', () => {
    const handoffs = new Set(tree.steps.filter(({ kind }) => kind === 'handoff').map(({ id }) => id));
    for (const step of tree.steps) {
      if (step.kind !== 'reading' || step.takes !== 'ac-voltage' || step.proves) continue;
      // No shipped circuit has 1000 V.
      const top = step.ways.find(({ on }) => on.startsWith('above'));
      expect(handoffs.has(top?.to.step ?? '')).toBe(true);
    }
  });
});

describe('the best minutes beside a tree', () => {
  it('lie between the bound and what the tree takes', () => {
    for (const edition of new Map([...byBench.values()].map((each) => [each.edition.root.name, each.edition])).values()) {
      const { minutes, bound } = bestMinutes(edition, { most: 2_000 });
      expect(bound).toBeGreaterThan(0);
      expect(bound).toBeLessThanOrEqual(minutes + 1e-9);
      expect(minutes).toBeLessThanOrEqual(proveTree(edition).expectedMinutes);
    }
  });
});

describe('the complaint of a draft', () => {
  const words = (sign: string): string | undefined => {
    const read = parseBench({
      title: 'A lamp',
      terminals: ['A', 'B', 'C'],
      parts: {
        supply: { kind: 'source', between: ['A', 'C'], volts: '24 V', ohms: '1 ohm' },
        wire: { kind: 'wire', between: ['A', 'B'], gauge: '18 AWG', length: '2 ft' },
        lamp: { kind: 'load', between: ['B', 'C'], ohms: '100 ohm' },
      },
      signs: { 'lamp-lit': sign },
      faults: { 'wire-open': { part: 'wire', becomes: 'open' } },
    });
    if (!read.ok) throw new Error(JSON.stringify(read.problems));
    const draft = draftTree(read.bench, { name: 'draft', bench: 'lamp' });
    return draft.ok ? draft.value.tree.complaint : draft.problem.code;
  };

  it('says what should be so and is not, and what should not be so and is', () => {
    expect(words('volts(B, C) above 20 V')).toBe('It should be so and is not: lamp lit.');
    expect(words('volts(B, C) below 20 V')).toBe('It is so and should not be: lamp lit.');
  });
});

describe('a bench that gives no draft', () => {
  const [sample] = sampleBenches().map(soundBench);

  it('says that it has no faults', () => {
    const draft = sample && draftTree({ ...sample, faults: {} }, { name: 'draft', bench: 'sample' });
    expect(draft).toEqual({ ok: false, problem: { code: 'no-faults' } });
  });

  it('says that nothing tells its faults', () => {
    const blind: Bench = {
      title: 'Blind',
      frequency: '60 Hz',
      terminals: ['A', 'B'],
      settings: {},
      facts: {},
      signs: {},
      parts: { supply: { kind: 'source', between: ['A', 'B'], volts: '24 V' }, cock: { kind: 'state', is: 'open' } },
      faults: { shut: { part: 'cock', becomes: 'shut', weight: 1 } },
    };
    expect(draftTree(blind, { name: 'draft', bench: 'blind' })).toEqual({ ok: false, problem: { code: 'nothing-tells' } });
  });
});

describe('faults that no reading tells apart', () => {
  it('share a finding that says so', () => {
    const [file] = shippedBenches().filter(({ name }) => name === 'condensate-safeties');
    if (!file) throw new Error('bench');
    const bench = soundBench(file);
    const twin: Bench = {
      ...bench,
      faults: { ...bench.faults, 'pump-seized': { part: 'pump', becomes: 'open', weight: 40, says: 'The pump is seized.' } },
    };
    const { draft, problems, proof } = proved('condensate-safeties', twin);
    expect(problems).toEqual([]);
    expect(draft.ambiguous).toEqual([['pump-dead', 'pump-seized']]);
    const shared = draft.tree.steps.find((step) => step.kind === 'finding' && step.faults.length === 2);
    const told = JSON.stringify(shared);
    expect(told).toContain('alike');
    // Likeliest first, whatever their names are.
    expect(told.indexOf('The pump is seized.')).toBeLessThan(told.indexOf('The pump has its 120 V'));
    expect(proof.misses).toEqual([]);
    expect(proof.rates).toMatchObject({ detected: 1, isolated2: 1 });
  });
});
