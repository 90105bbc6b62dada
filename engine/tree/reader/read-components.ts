import { readFormula, showFormula } from '../../formula/index.ts';
import { QUANTITY_KIND_NAMES, unitOf } from '../../quantity/index.ts';
import { readAction } from '../action-text.ts';
import { type TaskName, usualMinutes } from '../components.ts';
import {
  type Action,
  CAUTION_SUBJECTS,
  type CautionSubject,
  type Computed,
  type SettingHold,
  SIGNALS,
  type Signal,
  type Step,
  slugSchema,
  terminalSchema,
} from '../tree.ts';
import type { Attributes } from './read-attributes.ts';

type Unfinished<S> = S extends Step ? Omit<S, 'id' | 'title' | 'cautions' | 'prose' | 'computed' | 'photos' | 'cannot' | 'ways' | 'repair'> : never;

/** What a step's component says. */
export type Task = Unfinished<Step>;

const slugOf = (text: string): string | undefined => (slugSchema.safeParse(text).success ? text : undefined);

/** Reads the component that says what a step takes. What is wrong is reported, and stands in the task as if not written. */
export function readTask(name: TaskName, attributes: Attributes): Task {
  const common = { minutes: 0, while: holdsOf(attributes) };
  switch (name) {
    case 'Reading':
      return { kind: 'reading', ...common, minutes: minutesOf(attributes, 'reading'), ...readingOf(attributes) };
    case 'Look': {
      const at = attributes.text('at');
      const sign = attributes.as('sign', { form: 'name' }, slugOf);
      return {
        kind: 'look',
        ...common,
        minutes: minutesOf(attributes, 'look'),
        ...(at !== undefined && { at }),
        ...(sign !== undefined && { sign }),
      };
    }
    case 'Act':
      return { kind: 'act', ...common, minutes: minutesOf(attributes, 'act'), does: actionsOf(attributes) };
    case 'Ask': {
      attributes.needed('fact', { form: 'name' });
      return { kind: 'ask', ...common, minutes: minutesOf(attributes, 'ask'), fact: attributes.as('fact', { form: 'name' }, slugOf) ?? 'unknown' };
    }
    case 'Finding':
      return { kind: 'finding', ...common, minutes: minutesOf(attributes, 'finding'), faults: faultsOf(attributes) };
    case 'Handoff':
      return { kind: 'handoff', ...common, minutes: minutesOf(attributes, 'handoff'), to: attributes.needed('to', { form: 'text' }) ?? 'Not given' };
  }
}

function readingOf(attributes: Attributes) {
  attributes.needed('takes', { form: 'one-of', known: QUANTITY_KIND_NAMES });
  const takes = attributes.oneOf('takes', QUANTITY_KIND_NAMES) ?? 'number';
  const across = attributes.as('across', { form: 'points' }, pointsOf);
  const at = attributes.text('at');
  const unit = attributes.text('unit');
  const input = attributes.oneOf('input', ['low']);
  const sets = attributes.as('sets', { form: 'name' }, slugOf);
  const proves = attributes.oneOf('proves', ['dead']);
  return {
    takes,
    ...(across !== undefined && { across }),
    ...(at !== undefined && { at }),
    ...(unit !== undefined && { unit: unitOf(unit)?.symbol ?? unit }),
    ...(input !== undefined && { input }),
    ...(sets !== undefined && { sets }),
    ...(proves !== undefined && { proves }),
  };
}

function pointsOf(text: string): [string, string] | undefined {
  const [, red = '', black = ''] = /^(\S+) to (\S+)$/.exec(text) ?? [];
  return terminalSchema.safeParse(red).success && terminalSchema.safeParse(black).success ? [red, black] : undefined;
}

const MOST_MINUTES = 1440;

function minutesOf(attributes: Attributes, kind: Step['kind']): number {
  const read = attributes.as('minutes', { form: 'minutes' }, (text) => {
    const minutes = /^\d+(\.\d+)?(e[+-]?\d{1,3})?$/i.test(text) ? Number(text) : Number.NaN;
    return minutes <= MOST_MINUTES ? minutes : undefined;
  });
  return read ?? usualMinutes(kind);
}

/** The pieces of a list with commas. An empty piece is kept: it is a comma too many, and fits no form. */
const pieces = (text: string): readonly string[] => text.split(',').map((piece) => piece.trim());

function listOf<T>(attributes: Attributes, name: string, form: 'holds' | 'actions' | 'faults', read: (piece: string) => T | undefined): T[] {
  const text = attributes.text(name);
  if (text === undefined) return [];
  return pieces(text).flatMap((piece) => {
    const value = read(piece);
    if (value !== undefined) return [value];
    attributes.wrong(name, piece, { form });
    return [];
  });
}

const holdsOf = (attributes: Attributes): SettingHold[] =>
  listOf(attributes, 'while', 'holds', (piece) => {
    const [setting = '', state = '', ...more] = piece.split(' ');
    return more.length === 0 && slugOf(setting) && slugOf(state) ? { setting, state } : undefined;
  });

const actionsOf = (attributes: Attributes): Action[] => listOf(attributes, 'does', 'actions', readAction);

function faultsOf(attributes: Attributes): string[] {
  const text = attributes.needed('faults', { form: 'faults' });
  return text === undefined || text === 'none' ? [] : listOf(attributes, 'faults', 'faults', slugOf);
}

/** The signal word and subject of a caution; undefined, and reported, where either is none. */
export function readCautionHead(attributes: Attributes): { readonly signal: Signal; readonly about: CautionSubject } | undefined {
  attributes.needed('signal', { form: 'one-of', known: SIGNALS });
  attributes.needed('about', { form: 'one-of', known: CAUTION_SUBJECTS });
  const signal = attributes.oneOf('signal', SIGNALS);
  const about = attributes.oneOf('about', CAUTION_SUBJECTS);
  return signal && about && { signal, about };
}

/** A computed number; undefined, and reported, where its label or its formula is missing. A formula that cannot be read stays as written. */
export function readComputed(attributes: Attributes): Computed | undefined {
  const shows = attributes.needed('shows', { form: 'text' });
  const by = attributes.needed('by', { form: 'formula' });
  const unit = attributes.text('unit');
  if (shows === undefined || by === undefined) return undefined;
  const formula = readFormula(by);
  return { shows, by: formula.ok ? showFormula(formula.value) : by, ...(unit !== undefined && { unit: unitOf(unit)?.symbol ?? unit }) };
}
