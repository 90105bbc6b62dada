import type { MdxJsxFlowElement, MdxJsxTextElement } from 'mdast-util-mdx-jsx';
import type { Place } from '../../problem.ts';
import { COMPONENTS, type ComponentName } from '../components.ts';
import { didYouMean } from '../did-you-mean.ts';
import type { Expected } from '../tree-problem.ts';
import { oneLine } from './one-line.ts';
import { nodePlace, type ReaderContext } from './reader-context.ts';

export type ComponentNode = MdxJsxFlowElement | MdxJsxTextElement;

/** The attributes of one component, and the words for what is wrong with them. */
export type Attributes = {
  readonly places: ReadonlyMap<string, Place>;
  /** The text of an attribute; undefined where it is not written. Empty text is reported, and is undefined. */
  readonly text: (name: string) => string | undefined;
  /** As `text`, and its absence is reported. */
  readonly needed: (name: string, expected: Expected) => string | undefined;
  /** One of a list of words. */
  readonly oneOf: <W extends string>(name: string, known: readonly W[]) => W | undefined;
  /** The value as `read` reads it; what it cannot read is reported as not being what is expected. */
  readonly as: <T>(name: string, expected: Expected, read: (text: string) => T | undefined) => T | undefined;
  readonly wrong: (name: string, got: string, expected: Expected) => void;
  /** Whether anything was wrong with this component so far. */
  readonly doubtful: () => boolean;
};

const NUMBER = /^\d+(?:\.\d+)?(?:e[+-]?\d{1,3})?$/i;

export function readAttributes(node: ComponentNode, name: ComponentName, context: ReaderContext): Attributes {
  const known: readonly string[] = COMPONENTS[name].attributes;
  const values = new Map<string, string>();
  const places = new Map<string, Place>();
  const whole = tagPlace(node, context);
  let doubtful = false;
  const report: ReaderContext['report'] = (problem) => {
    doubtful = true;
    context.report(problem);
  };
  const wrong = (attribute: string, got: string, expected: Expected): void =>
    report({ code: 'bad-attribute', owner: name, name: attribute, fault: 'wrong', got, expected, place: places.get(attribute) ?? whole });

  for (const attribute of node.attributes) {
    const place = attribute.position ? nodePlace(attribute, context) : whole;
    if (attribute.type === 'mdxJsxExpressionAttribute') {
      report({ code: 'code-in-prose', what: 'spread', text: attribute.value.slice(0, 60), place });
      continue;
    }
    if (!known.includes(attribute.name)) {
      report({ code: 'unknown-attribute', owner: name, name: attribute.name, known, suggestion: didYouMean(attribute.name, known), place });
      continue;
    }
    if (places.has(attribute.name)) {
      report({ code: 'bad-attribute', owner: name, name: attribute.name, fault: 'twice', place });
      continue;
    }
    places.set(attribute.name, place);
    const { value } = attribute;
    if (typeof value === 'string') values.set(attribute.name, value);
    else if (value === null || value === undefined) wrong(attribute.name, '', { form: 'quoted-text' });
    else if (NUMBER.test(value.value.trim())) values.set(attribute.name, value.value.trim());
    else report({ code: 'code-in-prose', what: 'attribute', text: `${attribute.name}={${value.value.slice(0, 60)}}`, place });
  }

  const text = (attribute: string): string | undefined => {
    const written = values.get(attribute);
    if (written === undefined) return undefined;
    const plain = oneLine(written);
    if (plain !== '') return plain;
    wrong(attribute, written, { form: 'text' });
    return undefined;
  };
  const needed = (attribute: string, expected: Expected): string | undefined => {
    if (!places.has(attribute)) report({ code: 'bad-attribute', owner: name, name: attribute, fault: 'missing', expected, place: whole });
    return text(attribute);
  };
  return {
    places,
    text,
    needed,
    oneOf: <W extends string>(attribute: string, words: readonly W[]) => {
      const written = text(attribute);
      if (written === undefined) return undefined;
      const word = words.find((w) => w === written);
      if (word === undefined) wrong(attribute, written, { form: 'one-of', known: words, suggestion: didYouMean(written, words) });
      return word;
    },
    as: (attribute, expected, read) => {
      const written = text(attribute);
      if (written === undefined) return undefined;
      const value = read(written);
      if (value === undefined) wrong(attribute, written, expected);
      return value;
    },
    wrong,
    doubtful: () => doubtful,
  };
}

/** The place of a component's opening tag. */
export function tagPlace(node: ComponentNode, context: ReaderContext): Place {
  const first = node.children[0];
  if (!first?.position) return nodePlace(node, context);
  const { text, placeAt } = context.source;
  const start = node.position?.start.offset ?? 0;
  const inner = first.position.start.offset ?? start;
  const close = text.lastIndexOf('>', inner - 1);
  return placeAt(start, close > start ? close + 1 : inner);
}
