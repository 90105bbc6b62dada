import type { ComputeProblem } from '../../formula/index.ts';
import { QUANTITY_KINDS, type QuantityKindName, unitSign } from '../../quantity/index.ts';
import type { ProblemData } from '../tree-problem.ts';
import { cut, orOneOf, type Words, whenFacts } from './words.ts';

type Of<C extends ProblemData['code']> = Extract<ProblemData, { code: C }>;

export const TYPES_WORDING = {
  'bad-band': badBand,
  'bad-formula': badFormula,
  'unit-mismatch': unitMismatch,
  'unknown-fact': ({ name, known, suggestion }: Of<'unknown-fact'>): Words => ({
    message: `“${cut(name)}” is no fact of this tree or its benches that a number can be taken from.`,
    fix:
      suggestion !== undefined || known.length > 0
        ? orOneOf(suggestion, known, 'The facts are')
        : 'Add it to “facts” in the front matter. A value needs its unit right after the number.',
  }),
  'unknown-terminal': ({ name, of, known, suggestion }: Of<'unknown-terminal'>): Words =>
    of === 'places'
      ? { message: `No bench of this tree has a place “${cut(name)}” where a reading is taken.`, fix: orOneOf(suggestion, known, 'The places are') }
      : of === 'leads'
        ? { message: `No bench of this tree has a lead “${cut(name)}” that can be lifted.`, fix: orOneOf(suggestion, known, 'The leads are') }
        : { message: `No bench of this tree has a terminal “${cut(name)}”.`, fix: orOneOf(suggestion, known, 'The terminals are') },
  'unknown-setting': ({ name, of, known, suggestion }: Of<'unknown-setting'>): Words =>
    of === undefined
      ? {
          message: `“${cut(name)}” is no setting of this tree or its benches.`,
          fix:
            known.length === 0 && suggestion === undefined
              ? 'Add it to “settings” in the front matter, with its states.'
              : orOneOf(suggestion, known, 'The settings are'),
        }
      : { message: `The setting “${cut(of)}” has no state “${cut(name)}”.`, fix: orOneOf(suggestion, known, 'Its states are') },
  'unknown-sign': ({ name, known, suggestion }: Of<'unknown-sign'>): Words => ({
    message: `No bench of this tree has a sign “${cut(name)}”.`,
    fix: orOneOf(suggestion, known, 'The signs are'),
  }),
  'unknown-fault': ({ name, known, suggestion }: Of<'unknown-fault'>): Words => ({
    message: `No bench of this tree has a fault “${cut(name)}”.`,
    fix: orOneOf(suggestion, known, 'The faults are'),
  }),
  'unknown-bench': ({ name, known, suggestion }: Of<'unknown-bench'>): Words => ({
    message: `There is no bench “${cut(name)}”.`,
    fix: orOneOf(suggestion, known, 'The benches are'),
  }),
  'setting-not-held': ({ setting, wants, is, title }: Of<'setting-not-held'>): Words => ({
    message: `“${cut(title)}” needs ${setting} ${wants}, and there is a way to it on which ${setting} is ${is}.`,
    fix: `Put an <Act does="turn ${setting} ${wants}" /> on that way, or change what the step needs.`,
  }),
};

function badBand({ band, ...fault }: Of<'bad-band'>): Words {
  const shown = cut(band);
  switch (fault.why) {
    case 'cannot-read':
      return {
        message: `The band “${shown}” cannot be read: ${cut(fault.found)} stands where ${fault.expected} should.`,
        fix: 'Write “below 2 V”, “2 V to 20 V”, “above 30 V”, “within 10 % of coil-rated”, “within 2 V of coil-rated”, “open” or “otherwise”.',
      };
    case 'unit-not-known':
      return {
        message: `The band “${shown}” has a unit that is not known: ${cut(fault.found)}.`,
        fix: 'The units are listed in the manual, trees/README.md.',
      };
    case 'unknown-function':
      return {
        message: `The band “${shown}” uses “${cut(fault.name)}( )”, which is not known.`,
        fix: fault.suggestion !== undefined ? `Did you mean “${fault.suggestion}”?` : 'The functions are listed in the manual, trees/README.md.',
      };
    case 'wrong-arguments':
      return { message: `The band “${shown}” does not give “${cut(fault.name)}( )” what it needs.`, fix: `It is used as ${fault.expected}.` };
    case 'never-open':
      return {
        message: `“open” stands on a reading of ${label(fault.takes)}, where no meter shows OL.`,
        fix: 'Take it out. A dead circuit reads next to nothing: “below 2 V”.',
      };
    case 'not-computable':
      return {
        message: `The band “${shown}” has no answer${whenFacts(fault.facts)}: ${whyNot(fault.what)}.`,
        fix: 'Narrow the range of the fact in the front matter, or write the band without it.',
      };
    case 'empty':
      return {
        message: `The band “${shown}” holds nothing${whenFacts(fault.facts)}: it begins at ${fault.low} and ends at ${fault.high}.`,
        fix: 'Write the lower edge first. Where the edges cross for some house only, narrow the facts or part the bands elsewhere.',
      };
  }
}

function badFormula({ shows, ...fault }: Of<'bad-formula'>): Words {
  const shown = cut(shows);
  switch (fault.why) {
    case 'cannot-read':
      return {
        message: `The formula of “${shown}” cannot be read: ${cut(fault.found)} stands where ${fault.expected} should.`,
        fix: 'Write it from numbers with units, facts, + - * / and functions, such as “dew-point(indoor, 35 %RH)”.',
      };
    case 'unit-not-known':
      return {
        message: `“${shown}” has a unit that is not known: ${cut(fault.found)}.`,
        fix: 'The units are listed in the manual, trees/README.md.',
      };
    case 'unknown-function':
      return {
        message: `The formula of “${shown}” uses “${cut(fault.name)}( )”, which is not known.`,
        fix: fault.suggestion !== undefined ? `Did you mean “${fault.suggestion}”?` : 'The functions are listed in the manual, trees/README.md.',
      };
    case 'wrong-arguments':
      return { message: `The formula of “${shown}” does not give “${cut(fault.name)}( )” what it needs.`, fix: `It is used as ${fault.expected}.` };
    case 'arithmetic':
      return {
        message: `The formula of “${shown}” ${fault.right === '' ? `does arithmetic (${fault.operator}) on a ${fault.left}, which has none` : `puts ${fault.left} and ${fault.right} together with “${fault.operator}”`}.`,
        fix: 'Add and subtract only what is of one kind, and write a unit after each number.',
      };
    case 'no-unit':
      return { message: `“${shown}” comes to ${fault.gives}, and nothing says in which unit.`, fix: 'Name one, such as unit="gpd".' };
    case 'other-unit':
      return {
        message: `“${shown}” comes to ${fault.gives}, which is not shown in ${cut(fault.unit)}.`,
        fix: 'Name a unit of its kind, or take “unit” out where the formula is one function.',
      };
    case 'not-computable':
      return {
        message: `“${shown}” has no answer${whenFacts(fault.facts)}: ${whyNot(fault.what)}.`,
        fix: 'Narrow the range of the fact in the front matter to what the source of the function holds for.',
      };
  }
}

function whyNot(why: ComputeProblem): string {
  switch (why.code) {
    case 'out-of-range':
      return `${why.what} is ${Number(why.value.toPrecision(4))} ${unitSign(why.unit)}, and what is known ends at ${why.from} to ${why.to} ${unitSign(why.unit)}`;
    case 'no-answer':
      return `it comes to ${why.what}`;
    case 'value-missing':
      return `${why.what} is not known`;
  }
}

const example = (unit: string): string => `20 ${unit}`.trimEnd();

/** `AC volts`, `resistance`: as it stands in a sentence. */
const label = (kind: QuantityKindName): string => QUANTITY_KINDS[kind].label.replace(/^[A-Z](?=[a-z])/, (letter) => letter.toLowerCase());

function unitMismatch(data: Of<'unit-mismatch'>): Words {
  switch (data.what) {
    case 'band': {
      const reads = cut(data.band);
      if (data.unitless)
        return {
          message: `The band “${reads}” has a number without a unit, on a reading of ${data.wants}.`,
          fix: `Write the unit after each number, such as ${example(data.example)}.`,
        };
      return {
        message: `The band “${reads}” is in ${data.got}, and the reading is of ${data.wants}.`,
        fix: `Write the band in ${data.wants}, such as ${example(data.example)}, or change what the reading takes.`,
      };
    }
    case 'arithmetic':
      return data.right === ''
        ? {
            message: `“${cut(data.band)}” does arithmetic (${data.operator}) on a ${data.left}, which has none.`,
            fix: 'A temperature takes a difference: outdoor + 5 F°. Half of a temperature is not a temperature.',
          }
        : {
            message: `“${cut(data.band)}” puts ${data.left} and ${data.right} together with “${data.operator}”.`,
            fix: 'Add and subtract only what is of one kind, and write a unit after each number.',
          };
    case 'unit':
      return {
        message: `“${cut(data.unit)}” is no unit for ${label(data.takes)}.`,
        fix: data.example === '' ? 'Take “unit” out.' : `Write one such as ${data.example}, or take “unit” out.`,
      };
    case 'sets':
      return {
        message: `This reading takes ${data.got}, and the fact “${data.fact}” that it sets is ${data.wants}.`,
        fix: 'Let the two be the same.',
      };
    case 'bench-fact':
      return {
        message: `The fact “${data.fact}” is ${data.got} here and ${data.wants} on a bench of this tree.`,
        fix: 'Use one name for one thing: make them the same, or rename one.',
      };
    case 'fact-value':
      return {
        message: `“${data.key}” of fact ${data.fact} is “${cut(data.text)}”, and the fact is ${label(data.kind)}.`,
        fix: data.example === '' ? 'Write a plain number.' : `Write it with its unit, such as ${example(data.example)}.`,
      };
  }
}
