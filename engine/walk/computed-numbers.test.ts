import { describe, expect, it } from 'vitest';
import type { Computed } from '../tree/index.ts';
import { readEdition } from './edition-builder.ts';
import { smallEdition } from './testing/small-edition.ts';
import { WalkDriver } from './testing/walk-driver.ts';
import { editionHash, walkableEdition } from './walk.ts';

/** The small edition with computed numbers on one of its steps. */
function withComputed(step: string, computed: Computed[], tree = 'dry-pad') {
  const edition = smallEdition();
  const found = edition.trees[tree]?.steps.find(({ id }) => id === step);
  if (!found) throw new Error(step);
  found.computed = computed;
  return edition;
}
const open = (step: string, computed: Computed[], tree?: string) => new WalkDriver(walkableEdition(withComputed(step, computed, tree))).open();

describe('a computed number in a walk', () => {
  it('is worked out with the usual facts, and with what is told since', () => {
    const at = { shows: 'Lost along 50 ft', by: 'cable-drop(18 AWG, 50 ft, 10 VA / coil-rated, 68 °F)', unit: 'mV' };
    const call = open('power', [at]).tell('wiring', 'own');
    // Twice 0.6385 Ω of 100 ft of 18 AWG for each 100 ft of run, international wire table; 10 VA over 24 V is 0.4167 A.
    expect(call.view.computed).toMatchObject([{ shows: at.shows, by: at.by, text: '266 mV' }]);
    expect(call.view.computed[0]?.given).toMatchObject([{ name: 'coil-rated', text: '24 V', source: 'usual' }]);
    expect(call.view.computed[0]?.sources).toHaveLength(1);
    expect(call.view.computed[0]?.sources[0]).toMatch(/ASTM B258/);
    call.must({ type: 'told', fact: 'coil-rated', typed: '20' });
    expect(call.view.computed).toMatchObject([{ text: '319 mV', given: [{ text: '20 V', source: 'told' }] }]);
  });

  it('takes the unit of its function, its fact or its first term, and arithmetic has no source', () => {
    const shows = 'It';
    const call = open('power', [
      { shows, by: 'ntc(10 kohm, type-2, 32 °F)' },
      { shows, by: '85 % of coil-rated' },
      { shows, by: 'coil-rated / 4 V' },
    ]).tell('wiring', 'own');
    // 32 650 Ω in an ice bath: the published tables of this curve.
    expect(call.view.computed.map(({ text }) => text)).toEqual(['32650 Ω', '20.4 V', '6']);
    expect(call.view.computed.map(({ sources }) => sources.length)).toEqual([1, 0, 0]);
  });

  it('says why where a fact that nobody foresaw leaves it without an answer', () => {
    const call = open('power', [{ shows: 'Ohms', by: 'coil-impedance(coil-rated, coil-rated * 1 A - 24 VA)' }]).tell('wiring', 'own');
    const [number] = call.view.computed;
    expect(number?.text).toBeUndefined();
    expect(number?.why).toMatch(/a coil without a rating/);
    call.must({ type: 'told', fact: 'coil-rated', typed: '28' });
    expect(call.view.computed[0]?.text).toBe('196 Ω');
  });

  it('says so where an older app meets a function that it does not know', () => {
    const call = open('power', [{ shows: 'It', by: 'from-the-future(coil-rated)' }]).tell('wiring', 'own');
    expect(call.view.computed[0]).toMatchObject({ why: expect.stringContaining('does not know'), sources: [] });
  });

  it('stands on findings and handoffs too, with what a reading told on the way', () => {
    const call = open('transformer-open', [{ shows: 'Turns', by: 'line-volts / coil-rated' }], 'supply')
      .tell('wiring', 'own')
      .read('0.3')
      .read('118.5');
    expect(call.at).toBe('finding transformer-open');
    expect(call.view.computed).toMatchObject([
      {
        text: '4.94',
        given: [
          { name: 'line-volts', source: 'read' },
          { name: 'coil-rated', source: 'usual' },
        ],
      },
    ]);
  });

  it('is asked of the site where only it speaks of a fact of a bench', () => {
    const edition = withComputed('power', [{ shows: 'Run', by: 'run' }]);
    edition.benches.own = {
      facts: { run: { quantity: 'length', ask: 'Cable', usual: '40 ft', from: '10 ft', to: '150 ft' } },
    } as unknown as NonNullable<(typeof edition.benches)[string]>;
    edition.benches.own = { ...edition.benches.own, settings: {} } as NonNullable<(typeof edition.benches)[string]>;
    expect([...walkableEdition(edition).compiled.facts.keys()]).toContain('run');
  });
});

describe('an edition', () => {
  it('without computed numbers has the name that it always had', () => {
    // The key is absent, not empty, so the canonical JSON is that of an edition published before there were any.
    expect(JSON.stringify(smallEdition())).not.toContain('computed');
    const read = readEdition(smallEdition());
    if (!read.ok) throw new Error('not read');
    expect(editionHash(read.value)).toBe(editionHash(smallEdition()));
  });

  it('with one keeps it, and is refused where its formula cannot be read', () => {
    const good = withComputed('power', [{ shows: 'Lost', by: '85 % of coil-rated' }]);
    expect(readEdition(good)).toMatchObject({ ok: true });
    expect(editionHash(good)).not.toBe(editionHash(smallEdition()));
    expect(readEdition(withComputed('power', [{ shows: 'Lost', by: '85 % off coil-rated' }]))).toMatchObject({
      ok: false,
      problem: { code: 'not-an-edition', where: 'dry-pad/power' },
    });
    expect(readEdition(withComputed('power', []))).toMatchObject({ ok: false, problem: { code: 'not-an-edition' } });
  });
});
