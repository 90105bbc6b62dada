import { structuredPatch } from 'diff';
import { stringify } from 'yaml';
import { type Caution, type Step, type Tree, waysOf, writeTree } from '../../engine/tree/index.ts';
import type { Edition } from '../../engine/walk/index.ts';
import { sameData } from '../data/same-data.ts';

const listed = (names: readonly string[]): string => names.map((name) => `“${name}”`).join(', ');

/** What differs between two editions, in words: one line a change, steps first, then what the trees are about, then the benches. */
export function changesInWords(before: Edition, now: Edition): readonly string[] {
  const names = [...new Set([...Object.keys(before.trees), ...Object.keys(now.trees)])];
  const several = names.length > 1;
  const trees = names.flatMap((name) => {
    const [old, fresh] = [before.trees[name], now.trees[name]];
    const where = several && name !== now.root ? ` in ${fresh?.title ?? old?.title ?? name}` : '';
    if (!old) return [`The tree ${listed([fresh?.title ?? name])} is new.`];
    if (!fresh) return [`The tree ${listed([old.title])} is gone.`];
    return treeChanges(old, fresh).map((text) => text.replace(/\.$/, `${where}.`));
  });
  const benches = [...new Set([...Object.keys(before.benches), ...Object.keys(now.benches)])].flatMap((name) => {
    const [old, fresh] = [before.benches[name], now.benches[name]];
    if (!old) return [`The bench ${listed([fresh?.title ?? name])} is new.`];
    if (!fresh) return [`The bench ${listed([old.title])} is no longer used.`];
    return [
      ...entryChanges('part', old.parts, fresh.parts),
      ...entryChanges('fault', old.faults, fresh.faults),
      ...entryChanges('setting', old.settings, fresh.settings),
      ...entryChanges('fact', old.facts, fresh.facts),
      ...entryChanges('sign', old.signs, fresh.signs),
      ...(sameData(old.terminals, fresh.terminals) ? [] : ['Its terminals changed.']),
    ].map((text) => `On the bench ${name}: ${text}`);
  });
  const figures = sameData(before.figures, now.figures) ? [] : ['The pictures changed.'];
  return [...trees, ...benches, ...figures];
}

function entryChanges(kind: string, before: Readonly<Record<string, unknown>>, now: Readonly<Record<string, unknown>>): readonly string[] {
  const added = Object.keys(now).filter((name) => !Object.hasOwn(before, name));
  const gone = Object.keys(before).filter((name) => !Object.hasOwn(now, name));
  const changed = Object.keys(now).filter((name) => Object.hasOwn(before, name) && !sameData(before[name], now[name]));
  const told = (names: readonly string[], word: string): readonly string[] =>
    names.length === 0 ? [] : [`${names.length === 1 ? kind : `${kind}s`} ${listed(names)} ${word}.`];
  return [...told(added, 'added'), ...told(gone, 'removed'), ...told(changed, 'changed')];
}

function treeChanges(before: Tree, now: Tree): readonly string[] {
  const old = new Map(before.steps.map((step) => [step.id, step]));
  const fresh = new Map(now.steps.map((step) => [step.id, step]));
  const added = now.steps.filter(({ id }) => !old.has(id)).map(({ title }) => `Step ${listed([title])} added.`);
  const gone = before.steps.filter(({ id }) => !fresh.has(id)).map(({ title }) => `Step ${listed([title])} removed.`);
  const changed = now.steps.flatMap((step) => {
    const was = old.get(step.id);
    return was && !sameData(was, step) ? stepChanges(was, step).map((what) => `Step ${listed([step.title])}: ${what}.`) : [];
  });
  const isMoved = sameData(
    before.steps.flatMap(({ id }) => (fresh.has(id) ? [id] : [])),
    now.steps.flatMap(({ id }) => (old.has(id) ? [id] : [])),
  );
  const head: readonly (readonly [boolean, string])[] = [
    [before.title !== now.title, `The title was “${before.title}”.`],
    [before.complaint !== now.complaint, `The complaint was “${before.complaint}”.`],
    [!sameData(before.benches, now.benches), `The benches are now ${now.benches.join(', ') || 'none'}.`],
    [!sameData(before.meter, now.meter), 'The accuracy of the meter changed.'],
    [!sameData(before.recheck, now.recheck), 'The recheck changed.'],
    [before.handoff !== now.handoff, 'Where ‘cannot’ leads changed.'],
    [!sameData(before.opening.cautions, now.opening.cautions), 'The cautions that stand on every step changed.'],
    [!sameData(before.opening.prose, now.opening.prose), 'What the tree covers was reworded.'],
    [!isMoved, 'The order of the steps changed.'],
  ];
  return [
    ...added,
    ...gone,
    ...changed,
    ...entryChanges('fact', before.facts, now.facts).map(upper),
    ...head.flatMap(([is, text]) => (is ? [text] : [])),
  ];
}

const upper = (text: string): string => `${text[0]?.toUpperCase() ?? ''}${text.slice(1)}`;

function stepChanges(before: Step, now: Step): readonly string[] {
  if (before.kind !== now.kind) return [`was ${before.kind}, is ${now.kind}`];
  const ways = (step: Step): ReadonlyMap<string, string> => new Map(waysOf(step).map(({ on, to }) => [on, `${to.tree ?? ''}#${to.step}`]));
  const [old, fresh] = [ways(before), ways(now)];
  const one = now.kind === 'reading' ? 'band' : 'way on';
  const added = [...fresh.keys()].filter((on) => !old.has(on));
  const gone = [...old.keys()].filter((on) => !fresh.has(on));
  const turned = [...fresh].filter(([on, to]) => old.has(on) && old.get(on) !== to).map(([on]) => on);
  const found = (step: Step): readonly string[] => (step.kind === 'finding' ? step.faults : []);
  const without = (step: Step): unknown => ({ ...step, next: 0, ways: 0, title: '', prose: 0, repair: 0, cautions: 0, faults: 0, minutes: 0 });
  const changes: readonly (readonly [boolean, string])[] = [
    [before.title !== now.title, `its title was “${before.title}”`],
    [added.length > 0, `${one} ${listed(added)} added`],
    [gone.length > 0, `${one} ${listed(gone)} removed`],
    [turned.length > 0, `${listed(turned)} leads elsewhere`],
    [!sameData(found(before), found(now)), `it names ${found(now).join(', ') || 'no fault'} now, was ${found(before).join(', ') || 'no fault'}`],
    [!sameData(before.cautions, now.cautions), cautionWords(before.cautions, now.cautions)],
    [before.minutes !== now.minutes, `${now.minutes} min, was ${before.minutes}`],
    [!sameData(before.prose, now.prose), 'its text was reworded'],
    [before.kind === 'finding' && now.kind === 'finding' && !sameData(before.repair, now.repair), 'its repair was reworded'],
    [
      !sameData(without({ ...before, cannot: undefined } as Step), without({ ...now, cannot: undefined } as Step)) &&
        added.length + gone.length + turned.length === 0,
      'what it takes or does changed',
    ],
    [
      !sameData(
        before.kind === 'finding' || before.kind === 'handoff' ? 0 : before.cannot,
        now.kind === 'finding' || now.kind === 'handoff' ? 0 : now.cannot,
      ),
      'where ‘cannot’ leads changed',
    ],
  ];
  const told = changes.flatMap(([is, text]) => (is ? [text] : []));
  return told.length > 0 ? told : ['changed'];
}

function cautionWords(before: readonly Caution[], now: readonly Caution[]): string {
  const name = ({ signal, about }: Caution): string => `${signal} of ${about}`;
  const [old, fresh] = [before.map(name), now.map(name)];
  const added = fresh.filter((one) => !old.includes(one));
  const gone = old.filter((one) => !fresh.includes(one));
  const told = [...(added.length > 0 ? [`caution ${listed(added)} added`] : []), ...(gone.length > 0 ? [`caution ${listed(gone)} removed`] : [])];
  return told.length > 0 ? told.join(', ') : 'a caution was reworded';
}

/** Lines of one file of an edition that differ, in the usual form: ` ` stays, `-` goes, `+` comes. */
export type ChangedLines = { readonly file: string; readonly lines: readonly string[] };

/** What differs line by line, each tree and bench in its canonical writing. */
export function changesInLines(before: Edition, now: Edition): readonly ChangedLines[] {
  const [old, fresh] = [textsOf(before), textsOf(now)];
  return [...new Set([...Object.keys(old), ...Object.keys(fresh)])].flatMap((file) => {
    const [was, is] = [old[file] ?? '', fresh[file] ?? ''];
    if (was === is) return [];
    const { hunks } = structuredPatch(file, file, was, is, '', '', { context: 2 });
    return [{ file, lines: hunks.flatMap(({ newStart, lines }) => [`@ line ${newStart}`, ...lines]) }];
  });
}

const textsOf = ({ trees, benches }: Edition): Readonly<Record<string, string>> =>
  Object.fromEntries([
    ...Object.entries(trees).map(([name, tree]) => [`${name}.tree.mdx`, writeTree(tree)]),
    ...Object.entries(benches).map(([name, bench]) => [`benches/${name}.bench.yaml`, stringify(bench, { lineWidth: 0 })]),
  ]);
