import { describe, expect, it } from 'vitest';
import { SAMPLE_FUNCTIONS } from '../../../tests/tree/sample-surroundings.ts';
import { readTree } from '../read-tree.ts';
import type { BenchNames, Surroundings } from '../surroundings.ts';

const BENCH: BenchNames = {
  terminals: ['R', 'C', 'K1'],
  leads: ['coil-hot'],
  settings: { power: ['on', 'off'], call: ['on', 'off'] },
  signs: ['lit'],
  faults: ['coil-open'],
  facts: { run: { quantity: 'length', ask: 'Cable', usual: '40 ft', from: '10 ft', to: '150 ft' } },
  places: ['rod'],
};
const OTHER: BenchNames = {
  ...BENCH,
  terminals: ['HUM', 'N'],
  settings: { power: ['off', 'on'], valve: ['open', 'shut'] },
  faults: ['relay-stuck'],
  facts: {},
  places: [],
};
const surroundings: Surroundings = { benches: { one: BENCH, other: OTHER }, trees: {}, functions: SAMPLE_FUNCTIONS };

type Front = { readonly benches?: string; readonly facts?: readonly string[]; readonly more?: string };

/** A tree of these sections, with a caution, a recheck of the first step that has a way, and a handoff. */
function problemsOf(sections: string, { benches = '[one]', facts = [], more = '' }: Front = {}) {
  const front = [
    'title: t',
    'complaint: c',
    ...(benches ? [`benches: ${benches}`] : []),
    ...(facts.length ? ['facts:', ...facts.map((f) => `  ${f}`)] : []),
    'recheck: a',
  ];
  const text = `---\n${front.join('\n')}\n${more}---\n\n<Caution signal="warning" about="gas">\n\nMind.\n\n</Caution>\n\n${sections}\n\n## End\n\n<Handoff to="x" />\n`;
  return readTree(text, { file: 't.tree.mdx', surroundings }).problems;
}

const step = (title: string, task: string, ...ways: readonly string[]): string =>
  `## ${title}\n\n${task}\n\n${ways.length ? `<Next>\n\n${ways.map((way) => `- ${way}`).join('\n')}\n\n</Next>\n` : ''}`;
const doc = (...steps: readonly string[]): string => steps.join('\n');
const codes = (sections: string, front?: Front) => problemsOf(sections, front).map(({ code }) => code);
const volts = (...bands: readonly string[]) =>
  doc(step('A', '<Reading takes="ac-voltage" across="R to C" />', ...bands.map((band) => `${band}: [End](#end)`)));
const END = '[End](#end)';

describe('loops', () => {
  it('of steps that lead only to each other are told once, with the way round', () => {
    const [problem, ...more] = problemsOf(
      doc(
        step('A', '<Look />', `x: ${END}`, 'y: [B](#b)'),
        step('B', '<Act />', 'done: [C](#c)', `cannot: ${END}`),
        step('C', '<Look />', 'x: [D](#d)', 'y: [B](#b)'),
        step('D', '<Act />', 'done: [C](#c)'),
      ),
    );
    expect(more).toEqual([]);
    expect(problem).toMatchObject({ code: 'endless-loop', step: 'b', path: ['B', 'C', 'B'] });
    expect(problem?.message).toBe('These steps lead only to each other, and a walk never ends: B and C.');
  });

  it('that some way leaves are a second try', () => {
    expect(codes(doc(step('A', '<Look />', 'x: [B](#b)', `y: ${END}`), step('B', '<Act minutes={5} />', 'done: [A](#a)')))).toEqual([]);
    expect(codes(doc(step('A', '<Look />', 'x: [A](#a)', `y: ${END}`)))).toEqual([]);
  });

  it('of one step, and two apart, are each told', () => {
    const sections = doc(
      step('A', '<Look />', 'x: [B](#b)', 'y: [C](#c)'),
      step('B', '<Act />', 'done: [B](#b)'),
      step('C', '<Act />', 'done: [C](#c)'),
    );
    expect(problemsOf(sections).map(({ code, step: id }) => [code, id])).toEqual([
      ['endless-loop', 'b'],
      ['endless-loop', 'c'],
    ]);
  });

  it('are not what a step without ways on is, nor what leads to it', () => {
    const sections = doc(step('A', '<Look />', `x: ${END}`, 'y: [B](#b)'), step('B', '<Act />', 'done: [C](#c)'), step('C', '<Look />'));
    expect(problemsOf(sections).map(({ code, step: id }) => [code, id])).toEqual([['dead-end', 'c']]);
  });
});

describe('steps nobody gets to', () => {
  it('are told, and those after them', () => {
    const sections = doc(step('A', '<Act />', `done: ${END}`), step('B', '<Act />', 'done: [C](#c)'), step('C', '<Act />', `done: ${END}`));
    expect(problemsOf(sections).map(({ code, step: id }) => [code, id])).toEqual([
      ['unreachable-step', 'b'],
      ['unreachable-step', 'c'],
    ]);
  });

  it('are not the handoff where cannot goes, nor the step of the recheck', () => {
    expect(codes(doc(step('A', '<Act />', 'done: [F](#f)'), step('F', '<Finding faults="none" />')))).toEqual([]);
    const rechecked = doc(step('First', '<Act />', `done: ${END}`), step('A', '<Look />', `x: ${END}`, `y: ${END}`));
    expect(codes(rechecked)).toEqual([]);
  });

  it('are not told where a slip in a link is the cause', () => {
    expect(codes(doc(step('A', '<Act />', 'done: [B](#blower-on)'), step('Blower-onn', '<Act />', `done: ${END}`)))).toEqual(['missing-target']);
  });
});

describe('settings', () => {
  const off = '<Reading takes="resistance" across="R to C" while="power off" />';
  const ohms = [`below 5 ohm: ${END}`, `otherwise: ${END}`];

  it('come with the shortest way to where they do not hold', () => {
    const sections = doc(
      step('A', '<Look />', 'x: [Off](#off)', 'y: [Long](#long)'),
      step('Off', '<Act does="turn power off" />', 'done: [Ohms](#ohms)'),
      step('Long', '<Act />', 'done: [Round](#round)'),
      step('Round', '<Act />', 'done: [Ohms](#ohms)'),
      step('Ohms', off, ...ohms),
    );
    const problems = problemsOf(sections);
    expect(problems).toHaveLength(1);
    expect(problems[0]).toMatchObject({ code: 'setting-not-held', step: 'ohms', path: ['power on', 'A: y', 'Long: done', 'Round: done', 'Ohms'] });
  });

  it('hold where the Acts on every way saw to it', () => {
    expect(codes(doc(step('A', '<Act does="turn power off" />', 'done: [Ohms](#ohms)'), step('Ohms', off, ...ohms)))).toEqual([]);
  });

  it('were not turned by an Act that could not be done', () => {
    const sections = doc(step('A', '<Act does="turn power off" />', `done: ${END}`, 'cannot: [Ohms](#ohms)'), step('Ohms', off, ...ohms));
    expect(problemsOf(sections)[0]).toMatchObject({ code: 'setting-not-held', path: ['power on', 'A: cannot', 'Ohms'] });
  });

  it('are told once, not again at every step after', () => {
    const sections = doc(
      step('A', '<Look />', 'x: [Ohms](#ohms)', `y: ${END}`),
      step('Ohms', off, 'below 5 ohm: [More](#more)', `otherwise: ${END}`),
      step('More', off, ...ohms),
    );
    expect(codes(sections)).toEqual(['setting-not-held']);
  });

  it('are found as each bench says', () => {
    const live = step('A', '<Look while="power on" />', `x: ${END}`, `y: ${END}`);
    expect(codes(live)).toEqual([]);
    expect(problemsOf(live, { benches: '[one, other]' })[0]).toMatchObject({ code: 'setting-not-held', path: ['power off', 'A'] });
    expect(codes(live, { benches: '[one, other]', more: 'settings:\n  power: [on, off]\n' })).toEqual([]);
  });

  it('may be named by the tree where no bench has them', () => {
    const fan = step('A', '<Look while="fan auto" />', `x: ${END}`, `y: ${END}`);
    expect(codes(fan, { benches: '' })).toEqual(['unknown-setting']);
    expect(codes(fan, { benches: '', more: 'settings:\n  fan: [auto, on]\n' })).toEqual([]);
  });
});

describe('bands', () => {
  const fact = (range: string) => ({ facts: [`rated: { quantity: ac-voltage, ask: x, usual: 24 V, ${range} }`] });

  it('are told with the numbers, and the facts that show it', () => {
    const [gap] = problemsOf(volts('below 2 V', '85 % of rated to 30 V', 'above 30 V'), fact('from: 24 V, to: 24 V'));
    expect(gap?.message).toBe('Nothing is said for 2 V to 20.4 V when rated is 24 V.');
    const [end] = problemsOf(volts('below 2 V', '2 V to 30 V'));
    expect(end?.message).toBe('Nothing is said for 30 V and more.');
    const [overlap] = problemsOf(volts('below 5 V', 'above 3 V'));
    expect(overlap?.message).toBe('3 V to 5 V falls in two bands: “below 5 V” and “above 3 V”.');
  });

  it('are tried over the whole range of a fact, not only where it usually is', () => {
    const bands = volts('below 20 V', '20 V to 120 % of rated', 'above 120 % of rated');
    expect(codes(bands, fact('from: 22 V, to: 27 V'))).toEqual([]);
    const [problem] = problemsOf(bands, fact('from: 12 V, to: 27 V'));
    expect(problem).toMatchObject({ code: 'bad-band' });
    expect(problem?.message).toContain('when rated is 12 V');
  });

  it('of ohms say what OL leads to; of volts it is never shown', () => {
    const ohms = (...bands: readonly string[]) =>
      step('A', '<Reading takes="resistance" across="R to C" />', ...bands.map((band) => `${band}: ${END}`));
    expect(codes(ohms('below 5 ohm', 'above 5 ohm'))).toEqual(['way-on-missing']);
    expect(codes(ohms('below 5 ohm', 'above 5 ohm', 'open'))).toEqual([]);
    expect(codes(ohms('below 5 ohm', 'otherwise'))).toEqual([]);
    expect(codes(volts('below 5 V', 'above 5 V', 'open'))).toEqual(['bad-band']);
  });

  it('may call functions, in range and with what they need', () => {
    const with2 = (call: string) => volts(`below ${call}`, 'otherwise');
    expect(codes(with2('divided(24 V, 1 kohm, 1 kohm)'))).toEqual([]);
    expect(codes(with2('divided(24 V, 1 kohm)'))).toEqual(['bad-band']);
    expect(codes(with2('dividd(24 V, 1 kohm, 1 kohm)'))).toEqual(['bad-band']);
    expect(codes(with2('divided(24 V, 1 kohm, 1 V)'))).toEqual(['bad-band']);
  });

  it('of temperatures keep temperatures and differences apart', () => {
    const degrees = (band: string) =>
      codes(step('A', '<Reading takes="temperature" at="rod" />', `${band}: ${END}`, `otherwise: ${END}`), {
        facts: ['outdoor: { quantity: temperature, ask: x, usual: 25 °F, from: 0 °F, to: 45 °F }'],
      });
    expect(degrees('within 5 F° of outdoor')).toEqual([]);
    expect(degrees('below outdoor + 5 °F')).toEqual([]);
    expect(degrees('below 2 * outdoor')).toEqual(['unit-mismatch']);
    expect(degrees('within 5 % of outdoor')).toEqual(['unit-mismatch']);
    expect(degrees('below 5 F°')).toEqual(['unit-mismatch']);
  });

  it('of an Ask are bands on its fact, or its choices', () => {
    const ask = (task: string, ...ways: readonly string[]) =>
      codes(step('A', task, ...ways.map((way) => `${way}: ${END}`)), {
        facts: ['fuel: { choices: [gas, oil], ask: x, usual: gas }', 'rated: { quantity: ac-voltage, ask: x, usual: 24 V, from: 20 V, to: 28 V }'],
      });
    expect(ask('<Ask fact="fuel" />', 'known')).toEqual([]);
    expect(ask('<Ask fact="fuel" />', 'gas', 'oil')).toEqual([]);
    expect(ask('<Ask fact="fuel" />', 'gas')).toEqual(['way-on-missing']);
    expect(ask('<Ask fact="fuel" />', 'gas', 'oil', 'wood')).toEqual(['bad-way']);
    expect(ask('<Ask fact="fuel" />', 'gas', 'oil', 'known')).toEqual(['bad-way']);
    expect(ask('<Ask fact="rated" />', 'below 22 V', 'above 22 V')).toEqual([]);
    expect(ask('<Ask fact="rated" />', 'below 22 V')).toEqual(['band-gap']);
    expect(ask('<Ask fact="rated" />', 'below 22 ohm', 'otherwise')).toEqual(['unit-mismatch']);
    expect(ask('<Ask fact="run" />', 'below 100 ft', 'above 100 ft')).toEqual([]);
    expect(ask('<Ask fact="cable" />', 'known')).toEqual(['unknown-fact']);
  });
});

describe('a reading', () => {
  const reading = (attributes: string, ...bands: readonly string[]) =>
    codes(step('A', `<Reading ${attributes} />`, ...bands.map((band) => `${band}: ${END}`), `otherwise: ${END}`));

  it('is taken across two points or at a place, as its kind needs', () => {
    expect(reading('takes="ac-voltage"')).toEqual(['bad-attribute']);
    expect(reading('takes="ac-voltage" at="rod"')).toEqual(['bad-attribute']);
    expect(reading('takes="dc-current" across="R to C"')).toEqual(['bad-attribute']);
    expect(reading('takes="dc-current"')).toEqual(['bad-attribute']);
    expect(reading('takes="dc-current" at="rod" unit="uA"', 'below 1 uA')).toEqual([]);
    expect(reading('takes="dc-current" at="vent"')).toEqual(['unknown-terminal']);
  });

  it('proves dead only on a voltage that ends at a few volts, for all facts', () => {
    expect(reading('takes="ac-voltage" across="R to C" proves="dead"', 'below 5 V')).toEqual([]);
    expect(reading('takes="ac-voltage" across="R to C" proves="dead"', 'below 6 V')).toEqual(['bad-attribute']);
    expect(reading('takes="ac-voltage" across="R to C" proves="dead"', '0 V to 2 V')).toEqual(['bad-attribute']);
    expect(reading('takes="resistance" across="R to C" proves="dead"', 'below 1 ohm')).toEqual(['bad-attribute']);
    expect(reading('takes="resistance" across="R to C" input="low"', 'below 1 ohm')).toEqual(['bad-attribute']);
  });

  it('sets a fact of its own kind, in a unit of its own kind', () => {
    expect(reading('takes="ac-voltage" across="R to C" sets="run"')).toEqual(['unit-mismatch']);
    expect(reading('takes="ac-voltage" across="R to C" sets="runn"')).toEqual(['unknown-fact']);
    expect(reading('takes="ac-voltage" across="R to C" unit="ohm"')).toEqual(['unit-mismatch']);
    expect(reading('takes="ac-voltage" across="R to C" unit="furlong"')).toEqual(['unit-mismatch']);
  });

  it('touches a lead that was lifted as well as a terminal', () => {
    expect(reading('takes="ac-voltage" across="coil-hot to C"')).toEqual([]);
  });
});

describe('names', () => {
  it('may be of any bench of the tree', () => {
    const across = step('A', '<Reading takes="ac-voltage" across="HUM to N" />', `otherwise: ${END}`);
    expect(codes(across)).toEqual(['unknown-terminal', 'unknown-terminal']);
    expect(codes(across, { benches: '[one, other]' })).toEqual([]);
    expect(codes(across, { benches: '' })).toEqual([]);
  });

  it('are not judged while a bench is missing', () => {
    const across = step('A', '<Reading takes="ac-voltage" across="HUM to N" while="valve open" />', `below 1 V + far: ${END}`, `otherwise: ${END}`);
    expect(codes(across, { benches: '[one, othr]' })).toEqual(['unknown-bench']);
  });

  it('of a fact mean one thing in the tree and on its benches', () => {
    const a = step('A', '<Look />', `x: ${END}`, `y: ${END}`);
    expect(codes(a, { facts: ['run: { quantity: length, ask: x, usual: 9 ft, from: 9 ft, to: 9 ft }'] })).toEqual([]);
    expect(codes(a, { facts: ['run: { quantity: time, ask: x, usual: 9 s, from: 9 s, to: 9 s }'] })).toEqual(['unit-mismatch']);
  });
});

describe('facts, handoff and recheck of the front matter', () => {
  const a = step('A', '<Look />', `x: ${END}`, `y: ${END}`);
  const facts = (fact: string) => codes(a, { facts: [fact] });

  it('have a usual value in their range', () => {
    expect(facts('f: { quantity: time, ask: x, usual: 1 min, from: 30 s, to: 90 s }')).toEqual([]);
    expect(facts('f: { quantity: time, ask: x, usual: 2 min, from: 30 s, to: 90 s }')).toEqual(['bad-attribute']);
    expect(facts('f: { quantity: time, ask: x, usual: 60 s, from: 90 s, to: 30 s }')).toEqual(['bad-attribute']);
    expect(facts('f: { choices: [gas, oil], ask: x, usual: wood }')).toEqual(['bad-attribute']);
    expect(facts('f: { choices: [gas, known], ask: x, usual: gas }')).toEqual(['bad-attribute']);
    expect(facts('f: { choices: [gas, gas], ask: x, usual: gas }')).toEqual(['bad-attribute']);
  });

  it('name a handoff that is one', () => {
    expect(codes(a, { more: 'handoff: end\n' })).toEqual([]);
    expect(codes(a, { more: 'handoff: a\n' })).toEqual(['bad-attribute']);
    expect(codes(a, { more: 'handoff: ende\n' })).toEqual(['missing-target']);
  });

  it('name a step for the recheck at which something is tried', () => {
    const withRecheck = (recheck: string) =>
      readTree(
        `---\ntitle: t\ncomplaint: c\nrecheck: ${recheck}\n---\n\n<Caution signal="warning" about="gas" />\n\n${a}\n\n## End\n\n<Handoff to="x" />\n`,
        { file: 't.tree.mdx', surroundings },
      ).problems;
    expect(withRecheck('a is y')).toEqual([]);
    for (const wrong of ['b', 'a is z', 'end']) expect(withRecheck(wrong).map(({ code }) => code)).toEqual(['no-recheck']);
  });
});

it('without a handoff, every step needs a way on for cannot', () => {
  const text = (ways: string) =>
    `---\ntitle: t\ncomplaint: c\nrecheck: a\n---\n\n<Caution signal="warning" about="gas" />\n\n## A\n\n<Look />\n\n<Next>\n\n- x: [F](#f)\n- y: [F](#f)\n${ways}\n</Next>\n\n## F\n\n<Finding faults="none" />\n`;
  const codesOf = (ways: string) => readTree(text(ways), { file: 't.tree.mdx', surroundings }).problems.map(({ code }) => code);
  expect(codesOf('')).toEqual(['way-on-missing']);
  expect(codesOf('- cannot: [F](#f)\n')).toEqual([]);
});
