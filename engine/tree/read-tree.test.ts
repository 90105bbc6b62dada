import { describe, expect, it } from 'vitest';
import { SAMPLE_SURROUNDINGS } from '../../tests/tree/sample-surroundings.ts';
import { SAMPLE } from '../../tests/tree/sample-tree.ts';
import { readTree } from './read-tree.ts';

const options = { file: 'trees/sample.tree.mdx', surroundings: SAMPLE_SURROUNDINGS };
const read = (text: string) => readTree(text, options);

/** The sample with one piece of it changed; the piece must be there. */
function changed(from: string, to: string): string {
  if (!SAMPLE.includes(from)) throw new Error(`The sample has no “${from}”.`);
  return SAMPLE.replace(from, to);
}

/** Code and place of each problem, and the text that the place covers. */
function found(text: string): readonly (readonly [code: string, covers: string])[] {
  const lines = text.split('\n');
  return read(text).problems.map(({ code, line, column, endLine = line, endColumn = column }) => {
    const covered = lines.slice(line - 1, endLine);
    const last = covered.length - 1;
    covered[last] = (covered[last] ?? '').slice(0, endColumn - 1);
    covered[0] = (covered[0] ?? '').slice(column - 1);
    return [code, covered.join('\n')] as const;
  });
}

describe('a place points at the piece that is wrong', () => {
  it.each([
    ['a unit in a band', 'below 2 V:', 'below 2 ohm:', 'unit-mismatch', '2 ohm'],
    ['a fact in a band', 'below 2 V:', 'below 2 V + coil-rate:', 'unknown-fact', 'coil-rate'],
    ['a word in a band', '2 V to 85 % of coil-rated:', '2 V too 85 % of coil-rated:', 'bad-band', 'too'],
    ['a gap', 'above 30 V:', 'above 40 V:', 'band-gap', '85 % of coil-rated to 30 V'],
    ['an overlap', '85 % of coil-rated to 30 V:', '20 V to 30 V:', 'band-overlap', '20 V to 30 V'],
    ['a link', '[Coil ohms](#coil-ohms)', '[Coil ohms](#coil-ohm)', 'missing-target', '[Coil ohms](#coil-ohm)'],
    ['an attribute', 'across="R to C"', 'across="R to X9"', 'unknown-terminal', 'across="R to X9"'],
    ['an attribute that is not known', 'sign="water-runs"', 'signs="water-runs"', 'unknown-attribute', 'signs="water-runs"'],
    ['a component', '<Look at', '<Lok at', 'unknown-component', '<Lok at="the pad" sign="water-runs" />'],
    ['a script', 'Meter on AC volts.', '<script>x</script>', 'code-in-prose', '<script>x</script>'],
    ['a brace', 'Meter on AC volts.', 'Meter {volts}.', 'code-in-prose', '{volts}'],
    ['a value of the front matter', 'usual: 120 V', 'usual: 120 ohm', 'unit-mismatch', '120 ohm'],
    ['a key of the front matter', 'complaint:', 'complain: x\ncomplaint:', 'unknown-attribute', 'complain'],
    ['a comment in the front matter', 'meter: 1 % + 3 counts', 'meter: 1 % + 3 counts # mine', 'comment-not-kept', '# mine'],
    ['a tag that is not closed', '</Caution>\n\n## Power', '## Power', 'not-readable', '<Caution signal="warning" about="line-voltage">'],
    ['a brace that is not closed', 'Meter on AC volts.', 'Meter {on AC volts.', 'code-in-prose', '{'],
    ['a character that is no text', 'Meter on AC', 'Meter\u0007on AC', 'not-readable', '\u0007'],
  ])('%s', (_, from, to, code, covers) => {
    expect(found(changed(from, to))).toContainEqual([code, covers]);
  });

  it('counts lines and columns the same whatever ends a line', () => {
    const text = changed('below 2 V:', 'below 2 ohm:');
    const [problem] = read(text).problems;
    expect(problem).toMatchObject({ line: text.slice(0, text.indexOf('2 ohm')).split('\n').length, column: '- below '.length + 1 });
    expect(read(text.replaceAll('\n', '\r\n')).problems).toEqual([problem]);
    expect(read(`\ufeff${text}`).problems).toEqual([problem]);
  });

  it('names the step', () => {
    expect(read(changed('below 2 V:', 'below 2 ohm:')).problems.map((problem) => problem.step)).toEqual(['power-at-r-and-c']);
    expect(read(changed('The panel', 'The {panel')).problems.map((problem) => problem.step)).toEqual(['switch-the-power-off']);
  });
});

describe('all problems of a file come at once', () => {
  it('in the order of their places', () => {
    const text = changed('usual: 120 V', 'usual: 120 ohm')
      .replace('below 2 V:', 'below 2 ohm:')
      .replace('sign="water-runs"', 'sign="water-rans"')
      .replace('(#coil-ohms)', '(#coil-omhs)');
    expect(found(text).map(([code]) => code)).toEqual(['unit-mismatch', 'unit-mismatch', 'missing-target', 'unknown-sign']);
  });

  it('also when a section cannot be parsed', () => {
    const text = changed('below 2 V:', 'below 2 ohm:')
      .replace('The panel', 'The {panel')
      .replace('<Look at', '<Look at=')
      .replace('faults="coil-open"', 'faults="coil-opne"');
    expect(found(text).map(([code]) => code)).toEqual(['unit-mismatch', 'code-in-prose', 'not-readable', 'unknown-fault']);
  });

  it('and one slip is one problem, not one for everything that hangs on it', () => {
    expect(found(changed('<Reading takes="resistance"', '<Reading takes="ohms"')).map(([code]) => code)).toEqual(['bad-attribute']);
    expect(found(changed('- done: [Coil ohms](#coil-ohms)', '- done: Coil ohms')).map(([code]) => code)).toEqual(['bad-way']);
    expect(found(changed('quantity: ac-voltage, ask: Coil', 'quantity: volts, ask: Coil')).map(([code]) => code)).toEqual(['bad-attribute']);
    expect(found(changed('benches: [own-transformer]', 'benches: [own-transfomer]')).map(([code]) => code)).toEqual(['unknown-bench']);
    expect(found(changed('signal="warning"', 'signal="warnign"')).map(([code]) => code)).toEqual(['bad-attribute']);
    expect(found(changed('---\ntitle', '---\n\ttitle')).map(([code]) => code)).toEqual(['not-readable']);
  });
});

describe('the tree', () => {
  it('is given although it has errors, as long as all that is written could be taken in', () => {
    expect(read(changed('below 2 V:', 'below 2 ohm:')).tree).toBeDefined();
    expect(read(changed('(#coil-ohms)', '(#coil-omhs)')).tree).toBeDefined();
    expect(read(changed('meter: 1 % + 3 counts', 'meter: 1 % + 3 counts # mine')).tree).toBeDefined();
  });

  it('is not given when something that is written would be lost with it', () => {
    for (const to of ['{volts}', '![x](x.png)', '<Foo />', '[a](ftp://x)', '<Photo />', '# Heading', '[a](#hand-over "b")']) {
      expect(read(changed('Meter on AC volts.', `${to}\n`)).tree, to).toBeUndefined();
    }
  });

  it('holds bands and quantities spelled out', () => {
    const { tree } = read(
      changed('below 2 V:', 'below 2V:').replace('usual: 120 V', 'usual: 120').replace('meter: 1 % + 3 counts', 'meter: ±(1% + 3 digits)'),
    );
    expect(tree?.steps[0]).toMatchObject({ ways: [{ on: 'below 2 V' }, {}, {}, {}] });
    expect(tree?.facts['line-volts']).toMatchObject({ usual: '120 V' });
    expect(tree?.meter).toBe('1 % + 3 counts');
  });

  it('reads a product of a band as a product, not as emphasis', () => {
    const { tree, problems } = read(changed('- above 30 V:', '- above 1.25*coil-rated*1:').replace('to 30 V:', 'to 1.25 * coil-rated * 1:'));
    expect(problems).toEqual([]);
    expect(tree?.steps[0]).toMatchObject({ ways: [{}, {}, {}, { on: 'above 1.25 * coil-rated * 1' }] });
  });

  it('takes the first way on of the recheck step where none is named', () => {
    expect(read(changed('recheck: water-runs is runs', 'recheck: water-runs')).tree?.recheck).toEqual({ step: 'water-runs', passes: 'runs' });
  });

  it('leads to the first step of another tree where a link names none, and to its own step by its own name', () => {
    const { tree } = read(
      changed('- cannot: [Hand over](#hand-over)', '- cannot: [x](no-heat.tree.mdx)').replace(
        'done: [Coil ohms](#coil-ohms)',
        'done: [x](sample.tree.mdx#coil-ohms)',
      ),
    );
    expect(tree?.steps[1]).toMatchObject({ cannot: { tree: 'no-heat', step: 'call-for-heat' }, ways: [{ to: { step: 'coil-ohms' } }] });
  });

  it('takes a caution on one line with its text', () => {
    const block = '<Caution signal="caution" about="sharp-edges">\n\nThe panel\'s edge cuts.\n\n</Caution>';
    expect(read(changed(block, block.replaceAll('\n\n', ''))).tree).toEqual(read(SAMPLE).tree);
  });

  it('has the file name as its name', () => {
    expect(read(SAMPLE).tree?.name).toBe('sample');
    expect(readTree(SAMPLE, { ...options, file: 'C:\\trees\\no-heat.tree.mdx' }).tree?.name).toBe('no-heat');
    expect(readTree(SAMPLE, { ...options, file: 'No heat.mdx' }).problems.map((p) => p.code)).toEqual(['bad-attribute']);
  });
});

describe('places', () => {
  it('are given for every step, way, caution, attribute and key', () => {
    const { tree, places } = read(SAMPLE);
    expect(places.steps).toHaveLength(tree?.steps.length ?? 0);
    for (const [i, step] of (tree?.steps ?? []).entries()) {
      expect(places.steps[i]?.ways).toHaveLength('ways' in step ? step.ways.length : 0);
      expect(places.steps[i]?.cautions).toHaveLength(step.cautions.length);
      expect(places.steps[i]?.cannot === undefined).toBe(step.cannot === undefined);
    }
    expect([...(places.steps[0]?.attributes.keys() ?? [])]).toEqual(['takes', 'across', 'while', 'minutes']);
    expect(places.keys.get('facts.line-volts.from')).toEqual({ line: 6, column: 90, endLine: 6, endColumn: 95 });
    expect(places.keys.has('recheck')).toBe(true);
  });
});
