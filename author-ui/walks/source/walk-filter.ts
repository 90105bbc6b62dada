import type { WalkQuery, WalkSummary } from '../../../shared/sync/wire/walk-wire.ts';

/** Which walks a list shows. It stands in the address, so that a list can be given to someone else. */
const FILTER_FIELDS = ['tree', 'edition', 'person', 'outcome', 'flagged', 'drill', 'confirmed', 'finding', 'from', 'to'] as const;
export type FilterField = (typeof FILTER_FIELDS)[number];
export type WalkFilter = { readonly [F in FilterField]?: string };

/** What the forms offer; anything else in an address is as if it were not there. */
const CHOICES: Readonly<Partial<Record<FilterField, readonly string[]>>> = {
  outcome: ['fixed', 'nothing-wrong', 'not-repaired', 'not-fixed', 'handed-off'],
  flagged: ['yes', 'no'],
  drill: ['yes', 'no'],
  confirmed: ['yes', 'no', 'open'],
};

const SHAPES: Readonly<Partial<Record<FilterField, RegExp>>> = {
  edition: /^[0-9a-f]{64}$/,
  finding: /^[^/]+\/[^/]+$/,
  from: /^\d{4}-\d{2}-\d{2}$/,
  to: /^\d{4}-\d{2}-\d{2}$/,
};

/** The filter that an address asks for, from the text behind its `?`. */
export function readFilter(query: string): WalkFilter {
  const asked = new URLSearchParams(query);
  return Object.fromEntries(
    FILTER_FIELDS.flatMap((field) => {
      const value = asked.get(field)?.trim() ?? '';
      if (value === '' || value.length > 200) return [];
      return (CHOICES[field]?.includes(value) ?? true) && (SHAPES[field]?.test(value) ?? true) ? [[field, value]] : [];
    }),
  );
}

/** The text behind an address's `?`; empty where nothing is filtered. */
export const filterQuery = (filter: WalkFilter): string =>
  new URLSearchParams(FILTER_FIELDS.flatMap((field) => (filter[field] === undefined ? [] : [[field, filter[field]]]))).toString();

/** The filter with one field set; an empty value takes it out. */
export function withField(filter: WalkFilter, field: FilterField, value: string): WalkFilter {
  const { [field]: _before, ...rest } = filter;
  return value === '' ? rest : { ...rest, [field]: value };
}

const DAY = 86_400_000;

/** A day's end is the beginning of the next: a list to the 5th has the 5th in it. */
const dayAfter = (day: string): string => new Date(Date.parse(`${day}T00:00:00Z`) + DAY).toISOString().slice(0, 10);

export const hubQuery = ({ to, ...filter }: WalkFilter): WalkQuery => ({ ...filter, ...(to !== undefined && { to: dayAfter(to) }) }) as WalkQuery;

type Local = WalkSummary & { readonly findingAt?: string };

/** Whether a walk that is kept here is one of those asked for, as the hub would tell it. */
export function isAskedFor(walk: Local, filter: WalkFilter): boolean {
  const { tree, edition, person, outcome, flagged, drill, confirmed, finding, from, to } = filter;
  const opened = walk.opened === undefined ? undefined : Date.parse(walk.opened);
  return (
    (tree === undefined || walk.tree === tree) &&
    (edition === undefined || walk.edition === edition) &&
    (person === undefined || walk.person === person) &&
    (outcome === undefined || walk.outcome === outcome) &&
    (flagged === undefined || (flagged === 'yes') === walk.flags.length > 0) &&
    (drill === undefined || (drill === 'yes') === walk.drill) &&
    (finding === undefined || walk.findingAt === finding) &&
    (confirmed === undefined || confirmedAs(walk) === confirmed) &&
    (from === undefined || (opened !== undefined && opened >= Date.parse(from))) &&
    (to === undefined || (opened !== undefined && opened < Date.parse(dayAfter(to))))
  );
}

function confirmedAs({ confirmation, closed, finding }: Local): string | undefined {
  if (confirmation?.held !== undefined) return confirmation.held ? 'yes' : 'no';
  return closed && finding !== undefined ? 'open' : undefined;
}
