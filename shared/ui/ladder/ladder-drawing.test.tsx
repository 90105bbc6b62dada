import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, it } from 'vitest';
import { describeLadder } from './describe-ladder.ts';
import { LadderDrawing, type LadderDrawingProps } from './ladder-drawing.tsx';
import { layoutLadder } from './layout-ladder.ts';
import { benchOf, partBetween, transformerBetween } from './testing/random-bench.ts';

const bench = {
  ...benchOf([
    partBetween('source', ['L1', 'N']),
    transformerBetween(['L1', 'N'], ['R', 'C']),
    partBetween('contact', ['R', 'W'], { label: 'thermostat' }),
    partBetween('coil', ['W', 'C'], { label: 'gas valve', lead: 'valve-hot on W' }),
    partBetween('load', ['R', 'C'], { label: 'board' }),
    { kind: 'state', is: 'open', label: 'gas cock' },
  ]),
  title: 'A gas valve',
};

const markup = (props: Partial<LadderDrawingProps> = {}): string => renderToStaticMarkup(<LadderDrawing bench={bench} width={700} {...props} />);

describe('LadderDrawing', () => {
  it('is a picture with words when it is only looked at', () => {
    const html = markup({
      leads: { red: 'R', black: 'C' },
      state: { volts: { R: 24.4 }, energisedParts: ['p1', 'p4'], parts: { p2: 'open', p3: 'dropped-out' } },
    });
    expect(html).toContain('role="img"');
    expect(html).toContain('aria-label="Red lead on R, black on C. Energised: R. With power: p1, board. Open: thermostat."');
    expect(html).not.toContain('role="button"');
    expect(html).toContain('thermostat from R to W');
  });

  it('has a named target for each terminal, once, when terminals are to be picked', () => {
    const html = markup({ onPickTerminal: () => undefined });
    const names = [...html.matchAll(/role="button"[^>]*aria-label="([^"]+)"/g)].map((match) => match[1]);
    expect(names.toSorted()).toEqual(bench.terminals.map((terminal) => `terminal ${terminal}`).toSorted());
    expect(html).toContain('role="group"');
    expect(html).not.toContain('role="img"');
  });

  it('offers the loose end of a lifted lead as a point', () => {
    const html = markup({ onPickTerminal: () => undefined, state: { lifted: ['valve-hot'] } });
    expect(html).toContain('aria-label="loose end valve-hot"');
  });

  it('marks leads by letters and shape, not by color alone', () => {
    const html = markup({ leads: { red: 'R', black: 'C' } });
    expect(html).toContain('>RED<');
    expect(html).toContain('>BLK<');
    expect(html).toMatch(/ladder-probe-red.*?rx="8"/);
    expect(html).toMatch(/ladder-probe-black.*?rx="0"/);
  });

  it('offers the rest of the circuit where only a part is shown', () => {
    const html = markup({ focus: ['W', 'C'] });
    expect(html).toContain('1 more rung');
    expect(html).toContain('aria-expanded="false"');
    expect(markup({ focus: ['L1', 'N', 'R', 'C', 'W'] })).not.toContain('gas cock');
    expect(markup({ mechanical: true })).toContain('gas cock');
  });

  it('needs no inline style', () => {
    expect(markup({ onPickTerminal: () => undefined, leads: { red: 'R', black: 'C' }, mechanical: true })).not.toContain('style=');
  });
});

describe('describeLadder', () => {
  const layout = layoutLadder(bench);

  it('says what is done to the circuit', () => {
    const state = {
      volts: {},
      jumpers: [{ from: 'R', to: 'W' }],
      lifted: ['valve-hot'],
      forced: { call: 'on' },
      faults: [{ part: 'p3', word: 'open', breaks: true }],
    };
    expect(describeLadder(bench, layout, state, undefined)).toBe(
      'Nothing here is energised. Jumper from R to W. Lifted: valve-hot. Forced: call on. Fault: gas valve, open.',
    );
  });

  it('falls back on the bench’s title', () => {
    expect(describeLadder(bench, layout, {}, undefined)).toBe('A gas valve: ladder drawing.');
  });
});
