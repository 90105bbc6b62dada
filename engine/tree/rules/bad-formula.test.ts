import { describe, expect, it } from 'vitest';
import { SAMPLE_SURROUNDINGS } from '../../../tests/tree/sample-surroundings.ts';
import { SAMPLE } from '../../../tests/tree/sample-tree.ts';
import { readTree } from '../read-tree.ts';
import { writeTree } from '../write-tree.ts';

const PLACE = '<Photo ask="The two leads in place" />';

function read(computed: string) {
  const text = SAMPLE.replace(PLACE, `${computed}\n\n${PLACE}`);
  return { text, ...readTree(text, { file: 'no-water-at-the-pad.tree.mdx', surroundings: SAMPLE_SURROUNDINGS }) };
}
const found = (computed: string) => read(computed).problems.map(({ code, message, fix }) => ({ code, message, fix }));

describe('a computed number in a tree', () => {
  it('is read, checked, and written as it was', () => {
    const { text, tree, problems } = read('<Computed shows="Lost along the run" by="cable-drop(18 AWG, run, 0.5 A, 68 °F)" unit="mV" />');
    expect(problems).toEqual([]);
    expect(tree?.steps[0]?.computed).toEqual([{ shows: 'Lost along the run', by: 'cable-drop(18 AWG, run, 0.5 A, 68 °F)', unit: 'mV' }]);
    expect(tree && writeTree(tree, SAMPLE_SURROUNDINGS)).toBe(text);
  });

  it('is written in the canonical form, after the text and before the photos, in its order', () => {
    const loose = read('<Computed unit="Ω" by="line-volts/( 2 A )" shows="B &amp; C" />\n\n<Computed shows="A" by=".85*coil-rated" unit="V"/>');
    expect(loose.problems).toEqual([]);
    expect(loose.tree && writeTree(loose.tree, SAMPLE_SURROUNDINGS)).toContain(
      '- Keep one hand free.\n\n<Computed shows="B &amp; C" by="line-volts / 2 A" unit="ohm" />\n\n<Computed shows="A" by=".85 * coil-rated" unit="V" />\n\n<Photo',
    );
  });

  it.each([
    ['<Computed shows="V" by="line-volts +" />', 'bad-formula', /cannot be read/],
    ['<Computed shows="V" by="lost(run)" />', 'bad-formula', /“lost\( \)”, which is not known/],
    ['<Computed shows="V" by="cable-drop(18 AWG, run)" />', 'bad-formula', /does not give “cable-drop\( \)” what it needs/],
    ['<Computed shows="V" by="line-volts + run" />', 'bad-formula', /puts voltage and length together/],
    ['<Computed shows="V" by="line-volts * coil-rated" />', 'bad-formula', /nothing says in which unit/],
    ['<Computed shows="V" by="line-volts" unit="ft" />', 'bad-formula', /comes to voltage, which is not shown in ft/],
    ['<Computed shows="V" by="line-volts" unit="volt-ish" />', 'bad-formula', /unit that is not known/],
    [
      '<Computed shows="V" by="line-volts / (coil-rated - 24 V)" unit="%" />',
      'bad-formula',
      /has no answer when line-volts is 120 V and coil-rated is 24 V/,
    ],
    ['<Computed shows="V" by="ntc(10 kohm, type-2, 200 °F + run / 1 ft * 1 F°)" />', 'bad-formula', /has no answer when run is 150 ft/],
    ['<Computed shows="V" by="line-vots" />', 'unknown-fact', /“line-vots”/],
    ['<Computed shows="V" by="fuel" />', 'unknown-fact', /“fuel”/],
    ['<Computed by="line-volts" />', 'bad-attribute', /shows/],
    ['<Computed shows="V" />', 'bad-attribute', /by/],
    ['<Computed shows="" by="line-volts" />', 'bad-attribute', /shows/],
    ['<Computed shows="V" by={line-volts} />', 'code-in-prose', /by/],
    ['<Computed shows="V" by="line-volts" where="here" />', 'unknown-attribute', /where/],
    ['<Computed shows="V" by="line-volts">24 V</Computed>', 'not-kept', /Computed/],
    ['<Compute shows="V" by="line-volts" />', 'unknown-component', /Compute/],
  ])('%s is %s', (computed, code, message) => {
    const problems = found(computed);
    expect(problems.map((problem) => problem.code)).toEqual([code]);
    expect(problems[0]?.message).toMatch(message);
    expect(problems[0]?.fix).not.toBe('');
  });

  it('has no place in the opening, in a list or in another component', () => {
    const number = '<Computed shows="V" by="line-volts" />';
    expect(found(`- one\n\n  ${number}`).map(({ code }) => code)).toEqual(['misplaced-component']);
    expect(found(`<Caution signal="notice" about="water">\n\n${number}\n\n</Caution>`).map(({ code }) => code)).toEqual(['misplaced-component']);
    const inOpening = SAMPLE.replace('What this tree covers', `${number}\n\nWhat this tree covers`);
    const { problems } = readTree(inOpening, { file: 'no-water-at-the-pad.tree.mdx', surroundings: SAMPLE_SURROUNDINGS });
    expect(problems.map(({ code }) => code)).toEqual(['misplaced-component']);
  });
});
