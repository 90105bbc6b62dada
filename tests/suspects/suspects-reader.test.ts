import { describe, expect, it } from 'vitest';
import { TreeFolder } from '../../engine/cli/tree-folder.ts';
import { trailOfLog, WalkAdvisor } from '../../engine/suspects/index.ts';
import { buildEdition, type Edition, walkableEdition } from '../../engine/walk/index.ts';
import { WalkDriver } from '../../engine/walk/testing/walk-driver.ts';
import { SuspectsReader } from '../../field-ui/suspects/suspects-reader.ts';

const folder = new TreeFolder(new URL('../../trees', import.meta.url).pathname);

function editionOf(tree: string): Edition {
  const built = buildEdition(tree, folder.sources(tree));
  if (!built.ok) throw new Error(JSON.stringify(built.problem));
  return built.value;
}

const edition = editionOf('no-water-at-the-pad');
const walkable = walkableEdition(edition);

const toTheValve = (): WalkDriver => {
  const call = new WalkDriver(walkable);
  call.must({ type: 'opened' }, { type: 'told', fact: 'wiring', typed: 'own-transformer' }).readCautions().must({ type: 'went-on' });
  return call.look('pad dry').look('asks for humidity').look('open').look('silent');
};

describe('a log read entry by entry', () => {
  it('gives what the whole log gives at once, and what the engine makes of it', () => {
    const call = toTheValve();
    const live = new SuspectsReader(edition);
    for (let n = 1; n <= call.lines.length; n += 1) {
      live.take('walk-1', call.lines.slice(0, n));
      live.suspects();
    }
    const whole = new SuspectsReader(edition);
    whole.take('walk-1', call.lines);
    expect(live.suspects()).toEqual(whole.suspects());
    expect(live.advice()).toEqual(whole.advice());
    const { walk, trail } = trailOfLog(walkable, 'walk-1', call.lines);
    const { faults, unknown } = new WalkAdvisor(walkable.compiled).suspects(walk, trail);
    const { possible, ruledOut, unknown: shown } = whole.suspects();
    expect([...possible, ...ruledOut].map(({ fault, probability }) => [fault, probability])).toEqual(
      faults.map(({ fault, probability }) => [fault, probability]),
    );
    expect(shown).toBe(unknown);
  });

  it('begins anew with another log, shorter or of another walk', () => {
    const call = toTheValve();
    const reader = new SuspectsReader(edition);
    reader.take('walk-1', call.lines);
    const after = reader.suspects();
    const fresh = toTheValve().lines.slice(0, 4);
    reader.take('walk-1', fresh);
    expect(reader.suspects().found).toBe(0);
    reader.take('walk-1', call.lines);
    expect(reader.suspects()).toEqual(after);
  });

  it('is plain data, as a worker must send', () => {
    const reader = new SuspectsReader(edition);
    reader.take('walk-1', toTheValve().lines);
    expect(structuredClone(reader.suspects())).toEqual(reader.suspects());
    expect(structuredClone(reader.advice())).toEqual(reader.advice());
  });
});

describe('the way to a suggestion', () => {
  it('is said: a jump, the step that comes next, the step that is open', () => {
    const call = toTheValve();
    const reader = new SuspectsReader(edition);
    const best = () => {
      reader.take('walk-1', call.lines);
      const { suggestions, finding } = reader.advice();
      return suggestions[0]?.to ?? finding?.to;
    };
    const jump = best();
    expect(jump?.way).toBe('jump');
    if (!jump) throw new Error('no suggestion');
    call.must({ type: 'jumped', tree: jump.tree, step: jump.step });
    expect(best()).toMatchObject({ step: jump.step, way: 'here' });
  });

  it('names the wirings that a fault needs while the wiring is not told, and not after', () => {
    const call = new WalkDriver(walkable).open();
    const reader = new SuspectsReader(edition);
    reader.take('walk-1', call.lines);
    const before = reader.suspects();
    expect(before.wirings).toHaveLength(3);
    expect(before.possible.find(({ fault }) => fault === 'relay-contact-burnt')?.wirings).toEqual(['relay-to-line-humidifier']);
    call.must({ type: 'told', fact: 'wiring', typed: 'own-transformer' });
    reader.take('walk-1', call.lines);
    const { possible, wirings } = reader.suspects();
    expect(wirings.map(({ bench }) => bench)).toEqual(['own-transformer']);
    expect(possible.every((suspect) => suspect.wirings.length === 0)).toBe(true);
  });
});

describe('a reading that shows next to nothing beside the others', () => {
  it('is 0 in what could be shown, not thousandths', () => {
    const call = toTheValve();
    const reader = new SuspectsReader(edition);
    reader.take('walk-1', call.lines);
    const volts = reader.advice().suggestions.filter(({ task }) => /volts/i.test(task));
    expect(volts.length).toBeGreaterThan(0);
    for (const { shows } of volts) for (const { reading } of shows) expect(reading).not.toContain('mV');
  });
});

describe('an edition without a bench', () => {
  it('says so, and has no suspects', () => {
    const tree = edition.trees[edition.root];
    if (!tree) throw new Error('root');
    const { wiring: _, ...facts } = tree.facts;
    const bare: Edition = { ...edition, benches: {}, trees: { ...edition.trees, [edition.root]: { ...tree, benches: [], facts } } };
    const reader = new SuspectsReader(bare);
    reader.take('walk-1', []);
    expect(reader.suspects()).toMatchObject({ benches: 0, possible: [], contradictions: [] });
  });
});
