import { describe, expect, it } from 'vitest';
import { padKeys } from './pad-keys.ts';
import { type PadPress, padText } from './pad-text.ts';
import { typedEcho } from './typed-echo.ts';

const KEYS: Readonly<Record<string, PadPress>> = {
  '.': { key: 'point' },
  '-': { key: 'sign' },
  O: { key: 'open' },
  '<': { key: 'back' },
  C: { key: 'clear' },
  k: { key: 'unit', unit: 'kΩ' },
  M: { key: 'unit', unit: 'MΩ' },
};
const typed = (keys: string, start = ''): string => [...keys].reduce((text, key) => padText(text, KEYS[key] ?? { key: 'digit', digit: key }), start);

describe('what the pad makes', () => {
  it.each([
    ['24.1', '24.1'],
    ['.5', '0.5'],
    ['24..1', '24.1'],
    ['007', '7'],
    ['0.07', '0.07'],
    ['12-', '-12'],
    ['12--', '12'],
    ['1.2k', '1.2 kΩ'],
    ['1.2kM', '1.2 MΩ'],
    ['1.2kk', '1.2'],
    ['1k2', '12 kΩ'],
    ['1.2k<', '1.2'],
    ['24<', '2'],
    ['O', 'OL'],
    ['24O', 'OL'],
    ['O5', '5'],
    ['O<', ''],
    ['24.1C', ''],
    ['<', ''],
  ])('%s gives %j', (keys, text) => expect(typed(keys)).toBe(text));

  it('edits what came from a keyboard at its end and loses none of it', () => {
    expect(typed('5', 'abc')).toBe('abc5');
    expect(typed('<', 'abc')).toBe('ab');
    expect(typed('k', 'abc')).toBe('abc kΩ');
    expect(typed('9', '1'.repeat(40))).toBe('1'.repeat(40));
  });
});

describe('the keys offered', () => {
  it('are those of what is measured', () => {
    expect(padKeys('ac-voltage')).toEqual({ units: ['mV'], sign: false, open: false });
    expect(padKeys('resistance')).toEqual({ units: ['kΩ', 'MΩ'], sign: false, open: true });
    expect(padKeys('dc-current', 'uA')).toEqual({ units: ['mA'], sign: true, open: false });
    expect(padKeys('temperature')).toEqual({ units: ['°C'], sign: true, open: false });
    expect(padKeys('humidity')).toEqual({ units: [], sign: false, open: false });
  });

  it.each(['ac-voltage', 'resistance', 'dc-current', 'capacitance', 'temperature', 'pressure', 'time', 'length'] as const)(
    'type units that are read: %s',
    (kind) => {
      for (const unit of padKeys(kind).units) expect(typedEcho(`12 ${unit}`, kind), unit).toMatchObject({ ok: true, shown: `12 ${unit}` });
    },
  );
});

describe('the echo', () => {
  it.each([
    ['24.1', 'ac-voltage', undefined, '24.1 V'],
    ['24.0', 'ac-voltage', undefined, '24.0 V'],
    ['118.53', 'ac-voltage', undefined, '118.53 V'],
    ['1.2k', 'resistance', undefined, '1.2 kΩ'],
    ['1200', 'resistance', undefined, '1200 Ω'],
    ['2.', 'ac-voltage', undefined, '2 V'],
    ['0.7u', 'dc-current', undefined, '0.7 µA'],
    ['4.2', 'dc-current', 'uA', '4.2 µA'],
    ['-10', 'temperature', undefined, '-10 °F'],
    ['ol', 'resistance', undefined, 'OL'],
    ['45', 'humidity', undefined, '45 %RH'],
  ] as const)('of %s on %s is %s', (text, kind, unit, shown) => expect(typedEcho(text, kind, unit)).toMatchObject({ ok: true, shown }));

  it.each(['abc', '', '24 ohm', '1,200', '-3', 'OL'])('says why %j cannot be read', (text) => {
    const echo = typedEcho(text, 'ac-voltage');
    expect(echo).toMatchObject({ ok: false });
    if (!echo.ok) expect(echo.message.length * echo.fix.length).toBeGreaterThan(0);
  });
});
