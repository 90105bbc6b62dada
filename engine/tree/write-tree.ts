import { showAction, showHold } from './action-text.ts';
import { COMPONENTS, type ComponentName, taskName, usualMinutes } from './components.ts';
import { anchorOf, stepId } from './step-id.ts';
import { NO_SURROUNDINGS, type Surroundings } from './surroundings.ts';
import { type Caution, type Step, type Target, type Tree, waysOf } from './tree.ts';
import { writeFrontMatter } from './writer/write-front-matter.ts';
import { writeHeading, writeProse, writeWay } from './writer/write-prose.ts';

/**
 * The canonical text of a tree. Reading it gives the same tree, and an edit changes only the lines that it is about.
 * Surroundings give the titles of steps in other trees; without them their ids stand for titles.
 */
export function writeTree(tree: Tree, surroundings: Surroundings = NO_SURROUNDINGS): string {
  const write = writeTreeParts(tree, surroundings);
  return `${[write.head(), ...tree.steps.map(write.step)].join('\n\n')}\n`;
}

/** The canonical text of a tree by its parts, for whoever replaces one part of a file. Parts are joined with an empty line. */
export type TreeParts = {
  /** Front matter and opening. */
  head(): string;
  /** The opening alone; empty where there is none. */
  opening(): string;
  /** One step of the tree, heading first. */
  step(step: Step): string;
};

export function writeTreeParts(tree: Tree, surroundings: Surroundings = NO_SURROUNDINGS): TreeParts {
  const line = wayLine(new Map(tree.steps.map((step) => [step.id, step.title])), surroundings);
  const opening = (): string[] => [...proseBlocks(tree.opening.prose), ...tree.opening.cautions.map(cautionBlock)];
  return {
    head: () => [writeFrontMatter(tree).trimEnd(), ...opening()].join('\n\n'),
    opening: () => opening().join('\n\n'),
    step: (step) => stepBlocks(step, line).join('\n\n'),
  };
}

type WayLine = (on: string, to: Target) => string;

function wayLine(titles: ReadonlyMap<string, string>, surroundings: Surroundings): WayLine {
  return (on, to) => {
    const other = to.tree !== undefined && Object.hasOwn(surroundings.trees, to.tree) ? surroundings.trees[to.tree] : undefined;
    const elsewhere = other && Object.hasOwn(other.steps, to.step) ? other.steps[to.step] : undefined;
    const title = (to.tree === undefined ? titles.get(to.step) : elsewhere) ?? to.step.replaceAll('-', ' ');
    const url = `${to.tree === undefined ? '' : `${to.tree}.tree.mdx`}#${anchorOf(to.step, title)}`;
    return `- ${writeWay(on, title, url)}`;
  };
}

const proseBlocks = (prose: Tree['opening']['prose']): string[] => (prose.length === 0 ? [] : [writeProse(prose)]);

function stepBlocks(step: Step, line: WayLine): string[] {
  const ways = [...waysOf(step).map((way) => line(way.on, way.to)), ...(step.cannot ? [line('cannot', step.cannot)] : [])];
  return [
    writeHeading(step.title),
    tag(taskName(step.kind), taskAttributes(step)),
    ...step.cautions.map(cautionBlock),
    ...proseBlocks(step.prose),
    ...(step.computed ?? []).map(({ shows, by, unit }) => tag('Computed', { shows, by, unit })),
    ...step.photos.map((ask) => tag('Photo', { ask })),
    ...(step.kind === 'finding' && step.repair.length > 0 ? [holding('Repair', {}, writeProse(step.repair))] : []),
    ...(ways.length > 0 ? [holding('Next', {}, ways.join('\n'))] : []),
  ];
}

const cautionBlock = ({ signal, about, prose }: Caution): string =>
  prose.length === 0 ? tag('Caution', { signal, about }) : holding('Caution', { signal, about }, writeProse(prose));

type AttributeValues = Readonly<Record<string, string | number | undefined>>;

function taskAttributes(step: Step): AttributeValues {
  const common = {
    while: step.while.map(showHold).join(', ') || undefined,
    minutes: step.minutes === usualMinutes(step.kind) ? undefined : step.minutes,
    id: stepId(step.title) === step.id ? undefined : step.id,
  };
  switch (step.kind) {
    case 'reading':
      return {
        ...common,
        takes: step.takes,
        across: step.across?.join(' to '),
        at: step.at,
        input: step.input,
        unit: step.unit,
        sets: step.sets,
        proves: step.proves,
      };
    case 'look':
      return { ...common, at: step.at, sign: step.sign };
    case 'act':
      return { ...common, does: step.does.map(showAction).join(', ') || undefined };
    case 'ask':
      return { ...common, fact: step.fact };
    case 'finding':
      return { ...common, faults: step.faults.join(', ') || 'none' };
    case 'handoff':
      return { ...common, to: step.to };
  }
}

function attributeText(name: ComponentName, values: AttributeValues): string {
  return COMPONENTS[name].attributes
    .flatMap((attribute) => {
      const value = Object.hasOwn(values, attribute) ? values[attribute] : undefined;
      if (value === undefined) return [];
      return typeof value === 'number'
        ? [` ${attribute}={${value}}`]
        : [` ${attribute}="${value.replaceAll('&', '&amp;').replaceAll('"', '&quot;')}"`];
    })
    .join('');
}

const tag = (name: ComponentName, values: AttributeValues): string => `<${name}${attributeText(name, values)} />`;

const holding = (name: ComponentName, values: AttributeValues, inside: string): string =>
  `<${name}${attributeText(name, values)}>\n\n${inside}\n\n</${name}>`;
