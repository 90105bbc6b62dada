import { setImmediate } from 'node:timers/promises';
import { type SelectQueryBuilder, sql } from 'kysely';
import type { z } from 'zod';
import {
  added,
  addTo,
  type CrewPicture,
  type EditionPicture,
  emptyPicture,
  emptyPictureStep,
  type OpenPicture,
  type OpenPictureStep,
} from '../../../engine/review/index.ts';
import type { pictureQuerySchema } from '../../sync/wire/review-wire.ts';
import type { HubTables } from './hub-tables.ts';
import type { HubStore } from './open-store.ts';
import { utcText } from './utc-text.ts';

export type PictureSpan = z.output<typeof pictureQuerySchema>;

/** A part of a span: calls that were opened after one moment and not after the other. */
type Slice = PictureSpan & { readonly after?: string; readonly upTo?: string };

/** SQLite answers nothing else while it counts: so many calls at once take it some tens of milliseconds. PostgreSQL counts elsewhere, and all of them. */
const CALLS_AT_ONCE = { sqlite: 1000, postgres: Number.POSITIVE_INFINITY } as const;

/** Calls of a tree, drills left out. */
function calls<Q extends SelectQueryBuilder<HubTables, 'walk', object>>(query: Q, tree: string, { edition, from, to, after, upTo }: Slice): Q {
  const isPart = after !== undefined || upTo !== undefined;
  // The sign keeps SQLite from reading all calls of the tree by an index that has their drills, for each part anew.
  let some = query.where('walk.tree', '=', tree).where(isPart ? sql`+walk.drill` : 'walk.drill', '=', 0) as Q;
  if (edition !== undefined) some = some.where('walk.edition', '=', edition) as Q;
  if (from !== undefined) some = some.where('walk.opened', '>=', utcText(from)) as Q;
  if (to !== undefined) some = some.where('walk.opened', '<', utcText(to)) as Q;
  if (after !== undefined) some = some.where('walk.opened', '>', after) as Q;
  if (upTo !== undefined) some = some.where('walk.opened', '<=', upTo) as Q;
  return some;
}

/** A span in parts of so many calls that follow each other, with a pause after each for whatever else the hub has to do. */
async function* slicesOf(store: HubStore, tree: string, span: PictureSpan, atOnce: number): AsyncGenerator<Slice> {
  let slice: Slice = span;
  while (atOnce < Number.POSITIVE_INFINITY) {
    const last = await calls(store.db.selectFrom('walk'), tree, slice)
      .select('walk.opened')
      .orderBy('walk.opened')
      .limit(1)
      .offset(atOnce - 1)
      .executeTakeFirst();
    if (!last) break;
    yield { ...slice, upTo: last.opened };
    await setImmediate();
    slice = { ...slice, after: last.opened };
  }
  yield slice;
}

/**
 * Where the crew's calls of a tree go, edition by edition. `walks` counts every call; all the rest is of those that are closed. It is counted
 * by the database, and what comes from there is small however many calls there are. A call that changes meanwhile is counted as it was or as it is.
 */
export async function crewPicture(
  store: HubStore,
  tree: string,
  span: PictureSpan,
  atOnce: number = CALLS_AT_ONCE[store.dialect],
): Promise<CrewPicture> {
  const count = new Count();
  for await (const slice of slicesOf(store, tree, span, atOnce)) {
    count.addWalks(await walksCounted(store, tree, slice));
    count.addFindings(await findingsCounted(store, tree, slice));
    count.addSteps(await stepsCounted(store, tree, slice));
  }
  return { tree, editions: await oldestFirst(store, count.pictures()) };
}

type Rows<Q extends (...args: never) => Promise<unknown>> = Awaited<ReturnType<Q>>;

/** Pictures of editions while rows are added up. The database gives its numbers as text where they may be large. */
class Count {
  readonly #editions = new Map<string, OpenPicture>();
  readonly #findings = new Map<string, OpenPicture['findings'][number]>();
  readonly #steps = new Map<string, OpenPictureStep>();

  #of(edition: string): OpenPicture {
    const there = this.#editions.get(edition) ?? emptyPicture(edition);
    this.#editions.set(edition, there);
    return there;
  }

  addWalks(rows: Rows<typeof walksCounted>): void {
    for (const { edition, closed, outcome, minutes_bin, walks, minutes } of rows) {
      const picture = this.#of(edition);
      picture.walks += Number(walks);
      if (closed === 0) continue;
      picture.closed += Number(walks);
      if (outcome !== null) addTo(picture.outcomes, outcome, Number(walks));
      if (minutes_bin !== null) addTo(picture.minutes, minutes_bin, Number(walks));
      picture.minutesSum += Number(minutes ?? 0);
    }
  }

  addFindings(rows: Rows<typeof findingsCounted>): void {
    for (const { edition, finding_tree, finding_step, walks, known, held } of rows) {
      const finding = added(this.#findings, `${edition} ${finding_tree} ${finding_step}`, this.#of(edition).findings, () => ({
        tree: finding_tree ?? '',
        step: finding_step ?? '',
        walks: 0,
        held: 0,
        cameBack: 0,
      }));
      finding.walks += Number(walks);
      finding.held += Number(held ?? 0);
      finding.cameBack += Number(known) - Number(held ?? 0);
    }
  }

  addSteps(rows: Rows<typeof stepsCounted>): void {
    for (const row of rows) {
      const step = added(this.#steps, `${row.edition} ${row.tree} ${row.step}`, this.#of(row.edition).steps, () =>
        emptyPictureStep(row.tree, row.step),
      );
      const stays = Number(row.stays);
      step.stays += stays;
      step.minutesSum += Number(row.minutes);
      addTo(step.minutes, row.bin, stays);
      if (row.way !== null) addTo(step.ways, row.way, stays);
      step.couldNot += Number(row.could_not);
      step.tooClose += Number(row.too_close);
      step.acceptedTooClose += Number(row.accepted);
      step.jumpedTo += Number(row.jumped);
      step.steppedBack += Number(row.stepped_back);
    }
  }

  /** Steps in the order of their names, findings by how often they were met. */
  pictures(): readonly EditionPicture[] {
    const name = ({ tree, step }: { readonly tree: string; readonly step: string }): string => `${tree} ${step}`;
    for (const { steps, findings } of this.#editions.values()) {
      steps.sort((a, b) => (name(a) < name(b) ? -1 : 1));
      findings.sort((a, b) => b.walks - a.walks || (name(a) < name(b) ? -1 : 1));
    }
    return [...this.#editions.values()];
  }
}

const walksCounted = ({ db }: HubStore, tree: string, slice: Slice) =>
  calls(db.selectFrom('walk'), tree, slice)
    .select(({ fn }) => [
      'walk.edition',
      'walk.closed',
      'walk.outcome',
      'walk.minutes_bin',
      fn.countAll<number>().as('walks'),
      fn.sum<number | null>('walk.minutes').as('minutes'),
    ])
    .groupBy(['walk.edition', 'walk.closed', 'walk.outcome', 'walk.minutes_bin'])
    .execute();

const findingsCounted = ({ db }: HubStore, tree: string, slice: Slice) =>
  calls(db.selectFrom('walk'), tree, slice)
    .where('walk.closed', '=', 1)
    .where('walk.finding_step', 'is not', null)
    .select(({ fn }) => [
      'walk.edition',
      'walk.finding_tree',
      'walk.finding_step',
      fn.countAll<number>().as('walks'),
      fn.count<number>('walk.held').as('known'),
      fn.sum<number | null>('walk.held').as('held'),
    ])
    .groupBy(['walk.edition', 'walk.finding_tree', 'walk.finding_step'])
    .execute();

const stepsCounted = ({ db }: HubStore, tree: string, slice: Slice) =>
  calls(db.selectFrom('walk'), tree, slice)
    .innerJoin('walk_step', 'walk_step.walk', 'walk.id')
    .where('walk.closed', '=', 1)
    .select(({ fn }) => [
      'walk.edition',
      'walk_step.tree',
      'walk_step.step',
      'walk_step.way',
      'walk_step.bin',
      fn.countAll<number>().as('stays'),
      fn.sum<number>('walk_step.minutes').as('minutes'),
      fn.sum<number>('walk_step.could_not').as('could_not'),
      fn.sum<number>('walk_step.too_close').as('too_close'),
      fn.sum<number>('walk_step.accepted').as('accepted'),
      fn.sum<number>('walk_step.jumped').as('jumped'),
      fn.sum<number>('walk_step.stepped_back').as('stepped_back'),
    ])
    .groupBy(['walk.edition', 'walk_step.tree', 'walk_step.step', 'walk_step.way', 'walk_step.bin'])
    .execute();

async function oldestFirst({ db }: HubStore, pictures: readonly EditionPicture[]): Promise<readonly EditionPicture[]> {
  if (pictures.length === 0) return [];
  const rows = await db
    .selectFrom('edition')
    .select(['hash', 'since'])
    .where(
      'hash',
      'in',
      pictures.map(({ edition }) => edition),
    )
    .execute();
  const since = new Map(rows.map((row) => [row.hash, row.since]));
  const place = ({ edition }: EditionPicture): string => `${since.get(edition) ?? ''} ${edition}`;
  return [...pictures].sort((a, b) => (place(a) < place(b) ? -1 : 1));
}
