import type { Measure, MeasureCode, MeasureEvidence } from './walk-review.ts';

/** A measure in words. */
export type MeasureWords = {
  readonly name: string;
  readonly definition: string;
  readonly unit: 'min' | 'times' | 'yes or no';
  /** What a line of evidence says. */
  readonly says: (evidence: MeasureEvidence) => string;
};

const value = ({ values }: MeasureEvidence, name: string): string => {
  const given = values?.[name];
  return given === undefined ? '' : typeof given === 'number' ? String(Math.round(given * 10) / 10) : given;
};

const plain = (name: string): string => name.replaceAll('-', ' ');

const count = (evidence: MeasureEvidence, name: string, one: string, many: string): string => {
  const given = value(evidence, name);
  return `${given} ${given === '1' ? one : many}`;
};

export const MEASURES: Readonly<Record<MeasureCode, MeasureWords>> = {
  minutes: {
    name: 'Minutes',
    definition: 'From opening the call to closing it, by the clock. Pauses are taken out.',
    unit: 'min',
    says: (evidence) => (value(evidence, 'paused') === '0' ? 'Closed here.' : `Closed here; paused for ${value(evidence, 'paused')} min.`),
  },
  regret: {
    name: 'Minutes over the best',
    definition:
      'What the walk took up to its finding, counted with the tree’s own minutes for each step and change, less what the best known order takes to the fault that it was. Asking for facts is left out of both. Below 0 where it got there by luck.',
    unit: 'min',
    says: (evidence) =>
      value(evidence, 'best') === ''
        ? `${value(evidence, 'minutes')} min.`
        : `${value(evidence, 'minutes')} min: ${value(evidence, 'spent')} in all; the best order takes ${value(evidence, 'best')}.`,
  },
  redundant: {
    name: 'Readings that told nothing',
    definition:
      'Readings and looks after which the same was possible whatever they showed. Seeing the complaint first, or anew after a repair that did not help, proving points dead, trying the meter and readings that learn a fact are not counted.',
    unit: 'times',
    says: (evidence) =>
      value(evidence, 'left') === '1'
        ? `Only ${plain(value(evidence, 'favourite'))} was left before it.`
        : `${count(evidence, 'left', 'thing was', 'things were')} possible before it and after it, ${plain(value(evidence, 'favourite'))} first.`,
  },
  premature: {
    name: 'Finding too early',
    definition:
      'The finding was accepted while something else was left that was likelier than 1 in 20 and that a reading could still have told from it.',
    unit: 'yes or no',
    says: (evidence) => `${plain(value(evidence, 'left'))} was still possible; ${value(evidence, 'could')} would have told.`,
  },
  streak: {
    name: 'Readings that only confirmed',
    definition:
      'The longest run of two or more readings that 9 in 10 of what was possible would have answered as the favourite does, while another reading that safety allowed told at least twice as much a minute.',
    unit: 'times',
    says: (evidence) => `It could only confirm ${plain(value(evidence, 'favourite'))}; ${value(evidence, 'could')} told more a minute.`,
  },
  skipped: {
    name: 'Steps passed over',
    definition: 'Steps left without an answer: by a jump that was not proposed, or as “cannot” without a word why.',
    unit: 'times',
    says: (evidence) =>
      value(evidence, 'how') === 'jumped' ? `Jumped to ${plain(value(evidence, 'to'))}.` : 'Passed over as “cannot”, with no reason.',
  },
  'fast-caution': {
    name: 'Cautions read fast',
    definition:
      'Cautions acknowledged before their words could have been read, at three times the usual reading speed (3 × 238 words a minute). A caution that was read before on the same call is not counted.',
    unit: 'times',
    says: (evidence) => `${count(evidence, 'words', 'word', 'words')} in ${value(evidence, 'seconds')} s.`,
  },
  'accepted-too-close': {
    name: 'Too close, gone on',
    definition: 'Readings so near the edge of a band that the meter cannot tell the side, and the walk went on all the same.',
    unit: 'times',
    says: (evidence) => `Went on as ${value(evidence, 'on')}.`,
  },
  'could-not': {
    name: 'Could not',
    definition: 'Steps that were answered with “cannot”, with a reason or without.',
    unit: 'times',
    says: (evidence) => value(evidence, 'why') || 'No reason given.',
  },
  'not-rechecked': {
    name: 'Not rechecked',
    definition: 'Something was repaired and the complaint was not tried again, or the call was left open there.',
    unit: 'yes or no',
    says: () => 'Repaired here; no recheck after it.',
  },
  'put-back-late': {
    name: 'Put back late',
    definition: 'Jumpers, lifted leads and settings that were put back only in the closing list though the last steps before it did not need them.',
    unit: 'times',
    says: (evidence) => `${value(evidence, 'item')} was in place for ${count(evidence, 'steps', 'step', 'steps')} that did not need it.`,
  },
};

const MISSING: Readonly<Record<Extract<Measure, { missing: unknown }>['missing'], string>> = {
  'no-bench': 'The tree has no bench to judge by.',
  'not-closed': 'The call is not closed.',
  'no-finding': 'No finding was accepted.',
  'fault-not-known': 'What it really was is not known.',
  'not-applicable': 'It does not come up on this call.',
};

export const measureWords = (code: MeasureCode): MeasureWords => MEASURES[code];

export const missingWords = (missing: keyof typeof MISSING): string => MISSING[missing];
