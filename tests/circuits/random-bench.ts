import fc from 'fast-check';
import { type Bench, benchSchema } from '../../engine/bench/index.ts';

const NODES = ['a', 'b', 'c', 'd', 'e', 'f', 'g', 'h'];

const node = fc.constantFrom(...NODES);
const pair = fc.tuple(node, fc.oneof({ weight: 6, arbitrary: node }, { weight: 1, arbitrary: fc.constant('ground') })).filter(([a, b]) => a !== b);
/** A value over decades, as text with its unit. */
const decades = (low: number, high: number, unit: string) =>
  fc.integer({ min: 0, max: 1000 }).map((n) => `${Number((low * (high / low) ** (n / 1000)).toPrecision(4))} ${unit}`);

const part = fc.oneof(
  { weight: 4, arbitrary: fc.record({ kind: fc.constant('resistor'), between: pair, ohms: decades(1, 1e6, 'ohm') }) },
  { weight: 2, arbitrary: fc.record({ kind: fc.constant('wire'), between: pair, gauge: fc.constant('18 AWG'), length: decades(1, 150, 'ft') }) },
  {
    weight: 1,
    arbitrary: fc.record({ kind: fc.constant('inductor'), between: pair, inductance: decades(0.001, 1, 'H'), resistance: decades(0.1, 100, 'ohm') }),
  },
  { weight: 1, arbitrary: fc.record({ kind: fc.constant('capacitor'), between: pair, capacitance: decades(0.0001, 50, 'uF') }) },
  {
    weight: 2,
    arbitrary: fc.record({
      kind: fc.constant('contact'),
      between: pair,
      'closed-when': fc.constantFrom('one is on', 'two is on', 'one is off and two is on'),
    }),
  },
  {
    weight: 1,
    arbitrary: fc.record({
      kind: fc.constant('coil'),
      between: pair,
      rated: fc.constant('24 V'),
      va: fc.constant('10 VA'),
      resistance: fc.constant('30 ohm'),
    }),
  },
  {
    weight: 2,
    arbitrary: fc.record({
      kind: fc.constant('source'),
      between: pair,
      volts: decades(1, 120, 'V'),
      ohms: decades(0.1, 10, 'ohm'),
      phase: fc.integer({ min: -180, max: 180 }),
    }),
  },
  {
    weight: 1,
    arbitrary: fc.record({
      kind: fc.constant('transformer'),
      primary: pair,
      secondary: pair,
      rated: fc.constant('120 V to 24 V'),
      va: fc.constant('40 VA'),
      'no-load': fc.constant('27 V'),
    }),
  },
);

/** Circuits of all sorts, most of them nonsense and all of them solvable: islands, loops, parallel sources, transformers back to back. */
export const randomBench: fc.Arbitrary<Bench> = fc.array(part, { minLength: 2, maxLength: 24 }).map((parts) =>
  benchSchema.parse({
    title: 'A circuit of no use',
    terminals: NODES,
    settings: { one: ['on', 'off'], two: ['off', 'on'] },
    parts: Object.fromEntries(parts.map((spec, i) => [`p${i}`, spec])),
    faults: Object.fromEntries(
      parts.flatMap((spec, i) =>
        spec.kind === 'source' || spec.kind === 'transformer' ? [] : [[`f${i}`, { part: `p${i}`, becomes: i % 2 === 0 ? 'open' : 'absent' }]],
      ),
    ),
  }),
);

export const terminals: readonly string[] = NODES;
