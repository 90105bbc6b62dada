import type { List, ListItem, PhrasingContent, RootContent } from 'mdast';
import { toString as plainTextOf } from 'mdast-util-to-string';
import { type Band, type FormulaProblem, readBand, type Span, showBand } from '../../formula/index.ts';
import type { Place } from '../../problem.ts';
import type { Result } from '../../result.ts';
import { stepId } from '../step-id.ts';
import { type StepKind, slugSchema, type Target, type Way } from '../tree.ts';
import type { WayPlaces } from '../tree-places.ts';
import type { BadWayWhy } from '../tree-problem.ts';
import { oneLine } from './one-line.ts';
import { nodePlace, nodeStart, type ReaderContext } from './reader-context.ts';

/** What is known of a way's band beside its text. */
export type BandNote = {
  readonly band: Result<Band, FormulaProblem>;
  /** The place of a piece of the band, by its span in the text that the band was read from. */
  readonly placeOf: (span: Span) => Place;
};

export type ReadWays = {
  readonly ways: readonly Way[];
  readonly places: readonly WayPlaces[];
  /** As `ways`; undefined where the way is no band. */
  readonly bands: readonly (BandNote | undefined)[];
  readonly cannot?: Target;
  readonly cannotPlaces?: WayPlaces;
  /** Whether some way could not be read. */
  readonly doubtful: boolean;
};

export const NO_WAYS: ReadWays = { ways: [], places: [], bands: [], doubtful: false };

type OneWay = { readonly on: string; readonly to: Target; readonly places: WayPlaces; readonly band: BandNote | undefined };

/** Reads the list of ways on in `<Next>`. */
export function readWays(nodes: readonly RootContent[], kind: StepKind, context: ReaderContext): ReadWays {
  const ways: OneWay[] = [];
  let cannot: OneWay | undefined;
  let doubtful = false;
  const bad = (why: BadWayWhy, text: string, place: Place): undefined => {
    doubtful = true;
    context.report({ code: 'bad-way', why, text, place });
    return undefined;
  };
  for (const node of nodes) {
    if (node.type !== 'list') {
      bad('not-a-list', firstLine(plainTextOf(node)), nodePlace(node, context));
      continue;
    }
    if (node.ordered) bad('numbered', '', nodePlace(node, context));
    for (const item of (node as List).children) {
      const way = readWay(item, kind, context, bad);
      if (!way) continue;
      if (way.on === 'cannot' ? cannot : ways.some((other) => other.on === way.on && !way.band)) bad('twice', way.on, way.places.on);
      else if (way.on === 'cannot') cannot = way;
      else ways.push(way);
    }
  }
  return {
    ways: ways.map(({ on, to }) => ({ on, to })),
    places: ways.map((way) => way.places),
    bands: ways.map((way) => way.band),
    doubtful,
    ...(cannot && { cannot: cannot.to, cannotPlaces: cannot.places }),
  };
}

const firstLine = (text: string): string => (text.split('\n')[0] ?? '').slice(0, 60);

type Bad = (why: BadWayWhy, text: string, place: Place) => undefined;

function readWay(item: ListItem, kind: StepKind, context: ReaderContext, bad: Bad): OneWay | undefined {
  const whole = nodePlace(item, context);
  const [paragraph, ...more] = item.children;
  const shown = firstLine(plainTextOf(item));
  if (paragraph?.type !== 'paragraph') return bad('no-link', shown, whole);
  if (more.length > 0) return bad('more-than-a-line', shown, whole);
  const at = paragraph.children.findIndex((child) => child.type === 'link');
  const link = paragraph.children[at];
  if (link?.type !== 'link') return bad('no-link', shown, whole);
  const after = paragraph.children.slice(at + 1);
  if (plainTextOf({ type: 'paragraph', children: after }).trim() !== '' || after.some((n) => n.type !== 'text')) {
    return bad('text-after-link', shown, whole);
  }
  const before = paragraph.children.slice(0, at);
  const start = before[0] ? nodeStart(before[0]) : nodeStart(link);
  const { text } = context.source;
  const raw = text.slice(start, nodeStart(link)).replace(/\s*:?\s*$/, '');
  const onPlace = context.source.placeAt(start, start + Math.max(raw.length, 1));
  if (raw.trim() === '') return bad('no-on', shown, whole);
  if (link.title) context.report({ code: 'not-kept', what: 'link-title', text: link.title, place: nodePlace(link, context) });
  const to = targetOf(link.url, context);
  if (!to) return bad('link-form', link.url, nodePlace(link, context));
  const on = readOn(before, raw, start, kind, context);
  if (!on) return bad('not-plain', firstLine(raw), onPlace);
  return { on: on.on, to, band: on.band, places: { whole, on: onPlace, to: nodePlace(link, context) } };
}

type On = { readonly on: string; readonly band: BandNote | undefined };

const WORDS: Partial<Record<StepKind, readonly string[]>> = { act: ['done'], ask: ['known'] };

/** What a way is taken on. A band is a formula, not Markdown: it is read from the source, so that `2 * coil-rated` is a product. */
function readOn(nodes: readonly PhrasingContent[], raw: string, start: number, kind: StepKind, context: ReaderContext): On | undefined {
  const plain = nodes.every((node) => node.type === 'text');
  const decoded = oneLine(plainTextOf({ type: 'paragraph', children: [...nodes] }).replace(/\s*:?\s*$/, ''));
  if (decoded === '') return undefined;
  const word = decoded.toLowerCase();
  if (plain && (word === 'cannot' || WORDS[kind]?.includes(word))) return { on: word, band: undefined };
  if (kind === 'look' || kind === 'act') return plain ? { on: decoded, band: undefined } : undefined;
  const exact = !/[\\&\n]/.test(raw);
  const written = exact ? raw : decoded;
  const band = readBand(written);
  const placeOf = ([from, to]: Span): Place =>
    exact ? context.source.placeAt(start + from, start + Math.max(to, from + 1)) : context.source.placeAt(start, start + raw.length);
  if (band.ok) return { on: showBand(band.value), band: { band, placeOf } };
  if (kind === 'ask' && slugSchema.safeParse(decoded).success) return { on: decoded, band: undefined };
  return { on: oneLine(written), band: { band, placeOf } };
}

const TARGET = /^(?:([a-z0-9-]+)\.tree\.mdx)?(?:#(.+))?$/;

/** The step that a link leads to; another tree's first step where the link names none. */
export function targetOf(url: string, context: Pick<ReaderContext, 'tree' | 'surroundings'>): Target | undefined {
  const match = TARGET.exec(url);
  if (!match) return undefined;
  const [, tree, fragment] = match;
  if (tree !== undefined && !slugSchema.safeParse(tree).success) return undefined;
  const elsewhere = tree !== undefined && tree !== context.tree ? tree : undefined;
  if (fragment === undefined) {
    if (elsewhere === undefined) return undefined;
    const { trees } = context.surroundings;
    // A tree that is not there has no first step; its own name stands for one until the missing tree is reported.
    return { tree: elsewhere, step: (Object.hasOwn(trees, elsewhere) ? trees[elsewhere]?.first : undefined) ?? elsewhere };
  }
  const step = stepId(fragment);
  if (step === '') return undefined;
  return { ...(elsewhere !== undefined && { tree: elsewhere }), step };
}
