import type { RootContent } from 'mdast';
import { toString as plainTextOf } from 'mdast-util-to-string';
import type { Place } from '../../problem.ts';
import { type ComponentName, isComponent, isTask, type TaskName } from '../components.ts';
import type { Prose } from '../prose.ts';
import { stepId } from '../step-id.ts';
import { type Caution, type Computed, type Step, slugSchema } from '../tree.ts';
import type { StepNote } from '../tree-draft.ts';
import type { ComputedPlaces, LinkPlace, StepPlaces } from '../tree-places.ts';
import type { TreeProblem } from '../tree-problem.ts';
import { isComponentPiece, piecesOf } from './component-nodes.ts';
import { oneLine } from './one-line.ts';
import type { Section } from './parse-document.ts';
import { type Attributes, type ComponentNode, readAttributes, tagPlace } from './read-attributes.ts';
import { readCautionHead, readComputed, readTask } from './read-components.ts';
import { componentMisfit, readBlocks } from './read-prose.ts';
import { NO_WAYS, type ReadWays, readWays } from './read-ways.ts';
import { nodePlace, type ReaderContext } from './reader-context.ts';

/** A step as far as it could be read. */
export type StepDraft = {
  readonly step: Step;
  readonly places: StepPlaces;
  readonly note: StepNote;
};

type Parts = { cautions: Caution[]; cautionPlaces: Place[]; prose: Prose; links: LinkPlace[]; cautionLost: boolean };

/** Reads a section of the document as a step. */
export function readSection(section: Section, outer: ReaderContext): StepDraft {
  const problems: TreeProblem[] = [];
  const context: ReaderContext = { ...outer, report: (problem) => problems.push(problem) };
  const { title, place: heading } = headingOf(section, context);
  const pieces = piecesOf(section.nodes);
  const tasks = pieces.filter(isComponentPiece).filter((piece) => isTask(piece.component));
  const first = tasks[0];
  for (const extra of tasks.slice(1))
    context.report({ code: 'misplaced-component', name: extra.component, why: 'second-task', place: tagPlace(extra.node, context) });

  const name = (first?.component ?? 'Act') as TaskName;
  const attributes = first && readAttributes(first.node, name, context);
  if (first?.children.length) reportInner(first.component, first.children, context);
  const id = section.idHint ?? idOf(title, attributes, heading, section.readable, context);
  const task = attributes ? readTask(name, attributes) : { kind: 'act' as const, minutes: 1, while: [], does: [] };
  // A component with a slip in its name is reported as that.
  const unknown = section.nodes.some((node) => node.type === 'mdxJsxFlowElement' && !isComponent(node.name ?? ''));
  if (!first && section.readable && !unknown) context.report({ code: 'no-task', title, place: heading });

  const parts: Parts = { cautions: [], cautionPlaces: [], prose: [], links: [], cautionLost: false };
  const photos: string[] = [];
  const computed: Computed[] = [];
  const computedPlaces: ComputedPlaces[] = [];
  let repair: Prose | undefined;
  let ways: ReadWays | undefined;
  let lostNext = false;
  const prose: RootContent[] = [];
  const ends = task.kind === 'finding' || task.kind === 'handoff';
  for (const piece of pieces) {
    if (!isComponentPiece(piece)) {
      prose.push(piece);
      continue;
    }
    const place = tagPlace(piece.node, context);
    const misplaced = (why: 'second-next' | 'next-on-end' | 'second-repair' | 'repair-outside-finding'): void =>
      context.report({ code: 'misplaced-component', name: piece.component, why, place });
    switch (piece.component) {
      case 'Caution':
        readCaution(piece.node, piece.children, parts, context);
        break;
      case 'Computed': {
        const written = readAttributes(piece.node, 'Computed', context);
        const number = readComputed(written);
        if (piece.children.length > 0) reportInner('Computed', piece.children, context);
        if (!number) break;
        computed.push(number);
        computedPlaces.push({ whole: place, by: written.places.get('by') ?? place, unit: written.places.get('unit') ?? place });
        break;
      }
      case 'Photo': {
        const ask = readAttributes(piece.node, 'Photo', context).needed('ask', { form: 'text' });
        if (piece.children.length > 0) reportInner('Photo', piece.children, context);
        if (ask !== undefined) photos.push(ask);
        break;
      }
      case 'Repair':
        readAttributes(piece.node, 'Repair', context);
        if (first && task.kind !== 'finding') misplaced('repair-outside-finding');
        else if (repair) misplaced('second-repair');
        else repair = readBlocks(inner(piece.children, context), context, parts.links);
        break;
      case 'Next':
        readAttributes(piece.node, 'Next', context);
        if (ends) misplaced('next-on-end');
        else if (ways) {
          misplaced('second-next');
          lostNext = true;
        } else ways = readWays(piece.children, task.kind, context);
        break;
      default:
        break;
    }
  }
  parts.prose = readBlocks(prose, context, parts.links);
  const { ways: waysOn, places: wayPlaces, bands, doubtful, cannot, cannotPlaces } = ways ?? NO_WAYS;
  const common = { id, title, cautions: parts.cautions, prose: parts.prose, computed, photos, ...(cannot && { cannot }) };
  for (const problem of problems) outer.report({ step: id, ...problem });
  return {
    step: finished(task, common, waysOn, repair ?? []),
    places: {
      heading,
      task: first ? tagPlace(first.node, context) : heading,
      attributes: attributes?.places ?? new Map(),
      ways: wayPlaces,
      cautions: parts.cautionPlaces,
      computed: computedPlaces,
      links: parts.links,
      ...(cannotPlaces && { cannot: cannotPlaces }),
    },
    note: {
      bands,
      doubtfulTask: !first || !section.readable || (attributes?.doubtful() ?? true),
      doubtfulWays: !first || !section.readable || doubtful || lostNext,
      doubtfulCautions: !section.readable || parts.cautionLost,
    },
  };
}

type Finished = Pick<Step, 'id' | 'title' | 'cautions' | 'prose' | 'photos'> & { computed: Computed[]; cannot?: Step['cannot'] };

function finished(task: ReturnType<typeof readTask>, common: Finished, ways: ReadWays['ways'], repair: Prose): Step {
  const { cannot, computed, ...rest } = common;
  const shared = { ...rest, ...(computed.length > 0 && { computed }), ...(cannot && { cannot }) };
  switch (task.kind) {
    case 'finding':
      return { ...task, ...shared, repair: [...repair] };
    case 'handoff':
      return { ...task, ...shared };
    default:
      return { ...task, ...shared, ways: [...ways] };
  }
}

/** A section's or the opening's caution, added to its parts. */
export function readCaution(
  node: ComponentNode,
  children: readonly RootContent[],
  parts: Pick<Parts, 'cautions' | 'cautionPlaces' | 'links' | 'cautionLost'>,
  context: ReaderContext,
): void {
  const head = readCautionHead(readAttributes(node, 'Caution', context));
  const prose = readBlocks(inner(children, context), context, parts.links);
  if (!head) {
    parts.cautionLost = true;
    return;
  }
  parts.cautions.push({ ...head, prose });
  parts.cautionPlaces.push(nodePlace(node, context));
}

/** The prose inside a component; components inside it are reported. */
function inner(children: readonly RootContent[], context: ReaderContext): readonly RootContent[] {
  return piecesOf(children).flatMap((piece) => {
    if (!isComponentPiece(piece)) return [piece];
    context.report({ ...componentMisfit(piece.component, 'inside-component'), place: tagPlace(piece.node, context) });
    return [];
  });
}

function reportInner(name: ComponentName, children: readonly RootContent[], context: ReaderContext): void {
  const [first] = children;
  const last = children.at(-1);
  if (!first || !last) return;
  const place = context.source.placeAt(first.position?.start.offset ?? 0, last.position?.end.offset ?? 0);
  context.report({ code: 'not-kept', what: 'text-in-component', text: name, place });
}

function headingOf(section: Section, context: ReaderContext): { title: string; place: Place } {
  const { heading } = section;
  const place = context.source.placeAt(section.start, section.end);
  if (!heading) return { title: oneLine(section.headingText.replace(/^\s*##/, '').replace(/#+\s*$/, '')) || 'Step', place };
  const title = oneLine(plainTextOf(heading));
  if (heading.children.some((child) => child.type !== 'text')) context.report({ code: 'bad-heading', why: 'not-plain', title, place });
  else if (title === '') context.report({ code: 'bad-heading', why: 'empty', title, place });
  return { title: title || 'Step', place };
}

function idOf(title: string, attributes: Attributes | undefined, heading: Place, readable: boolean, context: ReaderContext): string {
  const named = attributes?.as('id', { form: 'name' }, (text) => (slugSchema.safeParse(text).success ? text : undefined));
  if (named !== undefined) return named;
  const id = stepId(title);
  if (id !== '') return id;
  if (readable && !attributes?.places.has('id')) context.report({ code: 'bad-heading', why: 'no-id', title, place: heading });
  return 'step';
}
