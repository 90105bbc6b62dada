import fc from 'fast-check';
import { readBand, readFormula, showBand, showFormula } from '../../engine/formula/index.ts';
import { QUANTITY_KIND_NAMES, type QuantityKindName, quantityKind } from '../../engine/quantity/index.ts';
import {
  CAUTION_SUBJECTS,
  type Caution,
  type Computed,
  type FactSpec,
  SIGNALS,
  type Step,
  type Target,
  type Tree,
  type Way,
} from '../../engine/tree/index.ts';
import { arbitraryProse, lineOfText } from './arbitrary-prose.ts';

const slug = fc
  .array(fc.string({ unit: fc.constantFrom(...'abcdefghijklmnopqrstuvwxyz0123456789'), minLength: 1, maxLength: 5 }), { minLength: 1, maxLength: 3 })
  .map((words) => words.join('-'));

const terminal = fc.constantFrom('R', 'C', 'K1', 'W/W1', 'Y2', 'coil-hot', 'V+', 'L1_N', 'A.1');
const minutes = fc.oneof(fc.constantFrom(0, 1, 2, 0.5), fc.double({ min: 0, max: 1440, noNaN: true }).map(Math.abs));
const hold = fc.record({ setting: slug, state: slug });

const caution: fc.Arbitrary<Caution> = fc.record({
  signal: fc.constantFrom(...SIGNALS),
  about: fc.constantFrom(...CAUTION_SUBJECTS),
  prose: arbitraryProse.map((prose) => [...prose]),
});

const action = fc.oneof(
  fc.record({ do: fc.constant('turn' as const), setting: slug, state: slug }),
  fc.record({ do: fc.constant('jumper' as const), from: terminal, to: terminal }),
  fc.record({ do: fc.constant('remove-jumper' as const), from: terminal, to: terminal }),
  fc.record({ do: fc.constantFrom('lift' as const, 'land' as const), lead: terminal }),
  fc.constant({ do: 'prove-meter' as const }),
);

// Bands of every form, as the writer spells them.
const quantity = fc
  .tuple(fc.constantFrom('2', '0.5', '24', '-3', '1e-6'), fc.constantFrom('V', 'ohm', 'kohm', 'uA', '°F', 'F°', 'in. w.c.', '%RH', 'pF/ft'))
  .map(([n, unit]) => `${n} ${unit}`);
const formula = fc.oneof(
  quantity,
  slug.filter(
    (name) => /^[a-z]/.test(name) && !['to', 'of', 'open', 'otherwise', 'below', 'above', 'within', 'is', 'and', 'or', 'not'].includes(name),
  ),
  quantity.map((q) => `85 % of ${q}`),
  fc.tuple(quantity, quantity).map(([a, b]) => `(${a} + ${b}) * 2`),
  quantity.map((q) => `ntc(10 kohm, type-2, ${q})`),
);
const band = fc
  .oneof(
    formula.map((edge) => `below ${edge}`),
    formula.map((edge) => `above ${edge}`),
    fc.tuple(formula, formula).map(([from, to]) => `${from} to ${to}`),
    fc.tuple(quantity, formula).map(([by, of]) => `within ${by} of ${of}`),
    formula.map((of) => `within 10 % of (${of})`),
    fc.constantFrom('open', 'otherwise'),
  )
  .map(readBand)
  .filter((read) => read.ok)
  .map((read) => showBand(read.value));

const computed: fc.Arbitrary<Computed> = fc.record(
  {
    shows: lineOfText,
    by: formula
      .map(readFormula)
      .filter((read) => read.ok)
      .map((read) => showFormula(read.value)),
    unit: fc.constantFrom('V', 'gpd', 'mV/ft', 'Btu/(h·ft²·°F)'),
  },
  { requiredKeys: ['shows', 'by'] },
);

const label = lineOfText.filter((text) => !/:$/.test(text) && !['cannot', 'done', 'known'].includes(text.toLowerCase()));

const ways = (on: fc.Arbitrary<string>, target: fc.Arbitrary<Target>): fc.Arbitrary<Way[]> =>
  fc.uniqueArray(fc.record({ on, to: target }), { maxLength: 4, selector: (way) => way.on });

function step(id: string, target: fc.Arbitrary<Target>): fc.Arbitrary<Step> {
  const common = {
    id: fc.constant(id),
    title: lineOfText,
    minutes,
    while: fc.array(hold, { maxLength: 2 }),
    cautions: fc.array(caution, { maxLength: 2 }),
    prose: arbitraryProse.map((prose) => [...prose]),
    photos: fc.array(lineOfText, { maxLength: 2 }),
  };
  const open = { ...common, computed: fc.array(computed, { minLength: 1, maxLength: 2 }), cannot: target };
  return fc.oneof(
    fc.record(
      {
        ...open,
        kind: fc.constant('reading' as const),
        takes: fc.constantFrom(...QUANTITY_KIND_NAMES),
        across: fc.tuple(terminal, terminal),
        at: lineOfText,
        unit: fc.constantFrom('V', 'uA', '°F', 'in. w.c.'),
        input: fc.constant('low' as const),
        sets: slug,
        proves: fc.constant('dead' as const),
        ways: ways(band, target),
      },
      { requiredKeys: ['kind', 'takes', 'ways', 'id', 'title', 'minutes', 'while', 'cautions', 'prose', 'photos'] },
    ),
    fc.record(
      { ...open, kind: fc.constant('look' as const), at: lineOfText, sign: slug, ways: ways(label, target) },
      { requiredKeys: ['kind', 'ways', 'id', 'title', 'minutes', 'while', 'cautions', 'prose', 'photos'] },
    ),
    fc.record(
      { ...open, kind: fc.constant('act' as const), does: fc.array(action, { maxLength: 3 }), ways: ways(fc.constant('done'), target) },
      { requiredKeys: ['kind', 'does', 'ways', 'id', 'title', 'minutes', 'while', 'cautions', 'prose', 'photos'] },
    ),
    fc.record(
      {
        ...open,
        kind: fc.constant('ask' as const),
        fact: slug,
        ways: fc.oneof(ways(fc.constant('known'), target), ways(band, target), ways(slug, target)),
      },
      { requiredKeys: ['kind', 'fact', 'ways', 'id', 'title', 'minutes', 'while', 'cautions', 'prose', 'photos'] },
    ),
    fc.record({
      ...common,
      kind: fc.constant('finding' as const),
      faults: fc.array(slug, { maxLength: 3 }),
      repair: arbitraryProse.map((prose) => [...prose]),
    }),
    fc.record({ ...common, kind: fc.constant('handoff' as const), to: lineOfText }),
  );
}

const valueText = (kind: QuantityKindName): fc.Arbitrary<string> =>
  fc.constantFrom('24', '0.5', '120', '300.25').map((n) => (quantityKind(kind).unit === '' ? n : `${n} ${quantityKind(kind).unit}`));

const fact: fc.Arbitrary<FactSpec> = fc.oneof(
  fc
    .constantFrom(...QUANTITY_KIND_NAMES)
    .chain((kind) => fc.record({ quantity: fc.constant(kind), ask: lineOfText, usual: valueText(kind), from: valueText(kind), to: valueText(kind) })),
  fc
    .uniqueArray(slug, { minLength: 2, maxLength: 3 })
    .chain((choices) => fc.record({ choices: fc.constant(choices), ask: lineOfText, usual: fc.constantFrom(...choices) })),
);

/** Any tree that the language can hold, in canonical form; it need make no sense as a tree. */
export const arbitraryTree: fc.Arbitrary<Tree> = fc.uniqueArray(slug, { minLength: 1, maxLength: 4 }).chain((ids) => {
  const target: fc.Arbitrary<Target> = fc.oneof(
    { weight: 4, arbitrary: fc.record({ step: fc.constantFrom(...ids) }) },
    { weight: 1, arbitrary: fc.record({ tree: fc.constant('other-tree'), step: slug }) },
  );
  return fc.record(
    {
      name: fc.constant('any-tree'),
      title: lineOfText,
      complaint: lineOfText,
      benches: fc.array(slug, { maxLength: 2 }),
      facts: fc.dictionary(slug, fact, { maxKeys: 3, noNullPrototype: true }),
      settings: fc.dictionary(slug, fc.array(slug, { minLength: 2, maxLength: 3 }), { maxKeys: 2, noNullPrototype: true }),
      meter: fc.constantFrom('1 % + 3 counts', '0.7 % + 1 count', '2 % + 0 counts on 6000 counts'),
      recheck: fc.record({
        step: fc.constantFrom(...ids),
        passes: fc.oneof(
          label.filter((text) => !readBand(text).ok),
          band,
          fc.constant('done'),
        ),
      }),
      handoff: fc.constantFrom(...ids),
      opening: fc.record({ cautions: fc.array(caution, { maxLength: 2 }), prose: arbitraryProse.map((prose) => [...prose]) }),
      steps: fc.tuple(...ids.map((id) => step(id, target))).map((steps) => [...steps]),
    },
    { requiredKeys: ['name', 'title', 'complaint', 'benches', 'facts', 'settings', 'meter', 'opening', 'steps'] },
  );
});
