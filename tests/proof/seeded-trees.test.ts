import { describe, expect, it } from 'vitest';
import type { Problem } from '../../engine/problem.ts';
import { BENCH, changed, onlyCodes, prove, putBefore, SOUND, step } from './proving.ts';

// One sound tree on one small bench, and one seeded mistake at a time: each must be caught under its own code, with the path that shows it.

describe('the sound tree', () => {
  it('proves clean', () => {
    const { proof, problems } = prove(SOUND);
    expect(problems).toEqual([]);
    expect(proof.faults.map(({ id, right, group }) => [id, right, group])).toEqual([
      ['coil-open', true, 1],
      ['contact-stuck', true, 1],
      ['feed-missing', true, 1],
      ['run-open', true, 1],
      ['supply-open', true, 1],
      ['valve-stuck', true, 1],
    ]);
    expect(proof.healthy).toBe(true);
    expect(proof.rates).toMatchObject({ detected: 1, isolated1: 1 });
  });

  // By hand: steps of 1, 2, 2, 2, 3, 1, 1, 1, 2 minutes; the findings take none. Weights 3, 2, 4, 1, 2, 1.
  it('takes the minutes that adding up by hand gives', () => {
    const { proof } = prove(SOUND);
    const minutes = Object.fromEntries(proof.faults.map((f) => [f.id, f.minutes]));
    expect(minutes).toEqual({ 'supply-open': 3, 'feed-missing': 5, 'contact-stuck': 7, 'run-open': 10, 'coil-open': 15, 'valve-stuck': 15 });
    expect(proof.expectedMinutes).toBeCloseTo((3 * 15 + 2 * 7 + 4 * 5 + 1 * 10 + 2 * 3 + 1 * 15) / 13, 9);
  });
});

describe('safety: each mistake under its code, with a path', () => {
  const caught = (text: string, code: string, bench = BENCH): Problem => {
    const { problems } = prove(text, bench);
    const found = problems.find((p) => p.code === code);
    expect(onlyCodes(problems)).toContain(code);
    if (!found) throw new Error(code);
    expect(found.path?.length).toBeGreaterThan(0);
    expect(found.message).not.toBe('');
    expect(found.fix).not.toBe('');
    return found;
  };

  it('resistance-while-live: ohms before the power is off', () => {
    const early = changed(SOUND, '- above 10 V: [Power off](#power-off)', '- above 10 V: [Lift the coil lead](#lift-the-coil-lead)');
    const text = changed(
      changed(early, ' across="coil-hot to C" while="main-power off"', ' across="V1 to C"'),
      '<Act does="prove the meter, lift coil-hot" minutes={1} />',
      '<Act does="prove the meter" minutes={1} />',
    );
    const orphaned = text.replace(/## Power off[\s\S]*?## Lift/, '## Lift');
    const found = caught(orphaned, 'resistance-while-live');
    expect(found.step).toBe('coil');
    expect(found.path?.at(-1)).toBe('Coil');
  });

  it('not-proved-dead: power off is taken on trust', () => {
    const text = changed(SOUND, '- done: [Dead](#dead)', '- done: [Lift the coil lead](#lift-the-coil-lead)').replace(
      /## Dead[\s\S]*?## Lift/,
      '## Lift',
    );
    const inCircuit = changed(changed(text, 'prove the meter, lift coil-hot', 'prove the meter'), 'coil-hot to C', 'V1 to C');
    expect(caught(inCircuit, 'not-proved-dead').step).toBe('coil');
    // With its lead lifted nothing can drive a current through the coil, whatever the switch does.
    expect(onlyCodes(prove(text).problems)).not.toContain('not-proved-dead');
  });

  it('not-proved-dead: a welded contact makes “off” a lie', () => {
    // The call is turned off and the service switch left on: only the relay's contact stands between line and hands.
    const act = step(
      'Call off',
      '<Act does="prove the meter, turn heat-call off, lift line-lead" minutes={1} />',
      '- done: [Supply open](#supply-open)',
    );
    const text = putBefore(changed(SOUND, '- below 15 V: [Supply open](#supply-open)', '- below 15 V: [Call off](#call-off)'), 'Nothing wrong', act);
    const found = caught(text, 'not-proved-dead');
    expect(found.step).toBe('call-off');
    expect(found.message).toContain('heat-call');
  });

  it('meter-not-proved: line voltage read dead with a meter nobody tried', () => {
    const off = (does: string) =>
      step('Line off', `<Act does="${does}" minutes={1} />`, '- done: [Line dead](#line-dead)') +
      step(
        'Line dead',
        '<Reading takes="ac-voltage" across="HUM to N" proves="dead" while="main-power off" minutes={1} />',
        '- below 2 V: [Winding](#winding)\n- above 2 V: [Call for help](#call-for-help)',
      ) +
      step('Winding', '<Act does="lift line-lead" minutes={1} />', '- done: [Supply open](#supply-open)');
    const tree = (does: string) =>
      putBefore(changed(SOUND, '- below 15 V: [Supply open](#supply-open)', '- below 15 V: [Line off](#line-off)'), 'Nothing wrong', off(does));
    expect(caught(tree('turn main-power off'), 'meter-not-proved').step).toBe('winding');
    // Tried before and not after: still only half.
    expect(caught(tree('turn main-power off, prove the meter'), 'meter-not-proved').message).toContain('after');
    const whole = changed(tree('turn main-power off, prove the meter'), '<Act does="lift line-lead"', '<Act does="prove the meter, lift line-lead"');
    expect(onlyCodes(prove(whole).problems)).toEqual([]);
  });

  it('touched-while-live: a line lead lifted with the power on', () => {
    const act = step('Lift the line', '<Act does="lift line-lead" minutes={1} />', '- done: [Supply open](#supply-open)');
    const text = putBefore(
      changed(SOUND, '- below 15 V: [Supply open](#supply-open)', '- below 15 V: [Lift the line](#lift-the-line)'),
      'Nothing wrong',
      act,
    );
    expect(caught(text, 'touched-while-live')).toMatchObject({ step: 'lift-the-line' });
    // And what was lifted live cannot be landed safely by the ritual either.
    expect(onlyCodes(prove(text).problems)).toContain('left-in-place');
  });

  it('safety-bypassed: a jumper past the limit, with the wires on the way', () => {
    const act = step('Straight to the valve', '<Act does="jumper K2 to V1" minutes={1} />', '- done: [Run open](#run-open)');
    const text = putBefore(
      changed(SOUND, '- below 10 V: [Run open](#run-open)', '- below 10 V: [Straight to the valve](#straight-to-the-valve)'),
      'Nothing wrong',
      act,
    );
    const found = caught(text, 'safety-bypassed');
    expect(found.step).toBe('straight-to-the-valve');
    expect(found.message).toContain('high-limit');
    // Around the dry contact alone no safety is passed.
    expect(onlyCodes(prove(changed(text, 'jumper K2 to V1', 'jumper K1 to K2')).problems)).not.toContain('safety-bypassed');
  });

  it('left-in-place: a jumper left by one of many paths', () => {
    const act = step('By hand', '<Act does="jumper K1 to K2" minutes={1} />', '- done: [At the valve](#at-the-valve)');
    const text = putBefore(
      changed(SOUND, '- below 10 V: [Contact stuck](#contact-stuck)', '- below 10 V: [By hand](#by-hand)'),
      'Nothing wrong',
      act,
    );
    const still = changed(
      text,
      '- above 10 V: [Far side](#far-side)',
      '- above 10 V: [Far side](#far-side)\n- cannot: [Contact stuck](#contact-stuck)',
    );
    const found = caught(still, 'left-in-place');
    expect(found.step).toBe('at-the-valve');
    expect(found.path).toContain('By hand: done');
  });

  it('caution-too-mild: line voltage called a caution', () => {
    const text = changed(SOUND, '<Caution signal="warning" about="line-voltage">', '<Caution signal="caution" about="line-voltage">');
    const lines = changed(
      text,
      '<Reading takes="ac-voltage" across="R to C" minutes={2} />',
      '<Reading takes="ac-voltage" across="L1 to N" minutes={2} />',
    );
    expect(caught(lines, 'caution-too-mild')).toMatchObject({ step: 'supply' });
  });

  it('caution-too-mild: gas called a notice', () => {
    const text = changed(
      SOUND,
      '<Look at="the pad" sign="water-runs" minutes={1} />',
      '<Look at="the pad" sign="water-runs" minutes={1} />\n\n<Caution signal="notice" about="gas">\n\nGas.\n\n</Caution>',
    );
    expect(caught(text, 'caution-too-mild').message).toContain('gas');
  });
});

describe('proof: each mistake under its code, with the walk that shows it', () => {
  const caught = (text: string, code: string, bench = BENCH): Problem => {
    const { problems } = prove(text, bench);
    expect(onlyCodes(problems)).toContain(code);
    const found = problems.find((p) => p.code === code);
    if (!found) throw new Error(code);
    return found;
  };

  it('fault-missed: a fault that nothing looks for', () => {
    const text = changed(SOUND, '- below 10 V: [Contact stuck](#contact-stuck)', '- below 10 V: [Call for help](#call-for-help)').replace(
      /## Contact stuck[\s\S]*?## Run/,
      '## Run',
    );
    const found = caught(text, 'fault-missed');
    expect(found.message).toContain('contact-stuck');
    expect(found.path?.join(' ')).toContain('Far side: ');
  });

  it('fault-misnamed: two findings swapped', () => {
    const text = changed(
      changed(SOUND, '<Finding faults="run-open" />', '<Finding faults="contact-stuck" />'),
      '<Finding faults="contact-stuck" />\n\nNo volts at K2',
      '<Finding faults="run-open" />\n\nNo volts at K2',
    );
    const { problems, proof } = prove(text);
    expect(onlyCodes(problems)).toEqual(['fault-misnamed']);
    expect(problems.map((p) => p.message).join(' ')).toMatch(/run-open[\s\S]*contact-stuck|contact-stuck[\s\S]*run-open/);
    expect(proof.rates.isolated1).toBeCloseTo(10 / 13, 9);
  });

  it('healthy-condemned: 24 V ± 10 % fails a healthy, lightly loaded transformer', () => {
    const first = step(
      'Supply first',
      '<Reading takes="ac-voltage" across="R to C" minutes={2} />',
      '- within 10 % of 24 V: [Water](#water)\n- otherwise: [Transformer wrong](#transformer-wrong)',
    );
    const finding = '## Transformer wrong\n\n<Finding faults="run-open" />\n\nNot 24 V.\n\n<Repair>\n\nReplace it.\n\n</Repair>\n\n';
    const found = caught(putBefore(putBefore(SOUND, 'Water', first), 'Nothing wrong', finding), 'healthy-condemned');
    expect(found.path?.[0]).toMatch(/^Supply first: 2[67]\.\d V, otherwise$/);
  });

  it('too-close-to-call: an edge inside the meter’s accuracy', () => {
    // With 108 V in, the fed side reads 24.2 V; an edge at 24 V is within 1 % + 3 counts of it.
    const text = changed(
      SOUND,
      '- below 10 V: [Feed missing](#feed-missing)\n- above 10 V: [Far side](#far-side)',
      '- below 24 V: [Feed missing](#feed-missing)\n- above 24 V: [Far side](#far-side)',
    );
    const found = caught(text, 'too-close-to-call');
    expect(found.step).toBe('fed-side');
  });

  it('fooled-by-stray-voltage: a floating wire read with 10 Mohm', () => {
    // The lead is lifted first, so the long run to the valve hangs on its stray capacitance to R.
    const lift = step('Lift first', '<Act does="lift coil-hot" minutes={1} />', '- done: [At the valve](#at-the-valve)');
    const text = putBefore(
      changed(
        SOUND,
        '- below 10 V: [Contact stuck](#contact-stuck)\n- above 10 V: [At the valve](#at-the-valve)',
        '- below 10 V: [Lift first](#lift-first)\n- above 10 V: [Lift first](#lift-first)',
      ),
      'Nothing wrong',
      lift,
    );
    const high = changed(
      changed(text, 'across="V1 to C" input="low"', 'across="V1 to C"'),
      '- below 10 V: [Run open](#run-open)',
      '- below 10 V: [Contact stuck](#contact-stuck)',
    ).replace(/## Run open[\s\S]*?## Coil open/, '## Coil open');
    const found = caught(
      changed(high, '<Finding faults="contact-stuck" />', '<Finding faults="contact-stuck, run-open" />'),
      'fooled-by-stray-voltage',
    );
    expect(found.step).toBe('at-the-valve');
  });

  it('fooled-by-parallel-path: ohms in circuit with a winding across it', () => {
    // Nothing is lifted and a jumper holds the contact closed: the transformer's winding lies across the coil.
    const text = changed(
      SOUND,
      '<Act does="prove the meter, lift coil-hot" minutes={1} />',
      '<Act does="prove the meter, jumper K1 to K2" minutes={1} />',
    );
    const inCircuit = changed(text, 'across="coil-hot to C" while', 'across="V1 to C" while');
    const proved = changed(inCircuit, '<Act does="prove the meter, jumper K1 to K2" minutes={1} />', '<Act does="jumper K1 to K2" minutes={1} />');
    const again = changed(proved, '- done: [Coil](#coil)', '- done: [Dead again](#dead-again)');
    const dead = step(
      'Dead again',
      '<Reading takes="ac-voltage" across="R to C" proves="dead" while="main-power off" minutes={1} />',
      '- below 2 V: [Coil](#coil)\n- above 2 V: [Call for help](#call-for-help)',
    );
    const found = caught(putBefore(again, 'Coil', dead), 'fooled-by-parallel-path');
    expect(found.step).toBe('coil');
    expect(found.message).toContain('OL');
  });

  it('wasted-step: a reading that no fault changes', () => {
    const text = putBefore(
      changed(SOUND, '- above 15 V: [Fed side](#fed-side)', '- above 15 V: [Line](#line)'),
      'Fed side',
      step(
        'Line',
        '<Reading takes="ac-voltage" across="L1 to N" minutes={2} />',
        '- below 90 V: [Call for help](#call-for-help)\n- above 90 V: [Fed side](#fed-side)',
      ),
    );
    const { problems } = prove(text);
    expect(problems.map((p) => [p.code, p.step])).toEqual([['wasted-step', 'line']]);
  });
});
