import { bandEdges, namesIn, readBand } from '../../engine/formula/index.ts';
import { TRADE_FUNCTIONS } from '../../engine/trade/index.ts';
import { type Caution, type FactSpec, isChoice, type Step, type Target, type Tree } from '../../engine/tree/index.ts';
import { usualNumbers } from '../document/band-numbers.ts';
import { stepNumbers, waysOut } from '../document/step-links.ts';
import { heldText } from '../document/step-task.ts';
import { usualComputed } from '../document/usual-computed.ts';
import { repairLine } from './repair-line.ts';
import { type CautionMark, cautionMarks, placeWords, settingWords, signs } from './sheet-words.ts';

type Facts = Readonly<Record<string, FactSpec>>;

/** Where a way on leads: a step's number on the sheet, or a step of another tree. */
export type SheetTarget = { readonly number?: number; readonly title: string; readonly tree?: string };

/** What a way on is taken on; `follows`: whether its numbers are those of the usual house, and others in another. */
export type SheetBand = { readonly text: string; readonly follows: boolean };

export type SheetWay = { readonly on: readonly SheetBand[]; readonly to: SheetTarget };

/** One step of the sheet's table, on which something is read, looked at, done or told. */
export type SheetRow = {
  readonly number: number;
  readonly step: Step;
  readonly setting: string;
  readonly place: string;
  readonly held?: string;
  readonly cautions: readonly CautionMark[];
  readonly computed: readonly { readonly shows: string; readonly text: string }[];
  readonly ways: readonly SheetWay[];
};

/** Where a walk ends, with its repair in a line. */
export type SheetEnd = { readonly number: number; readonly step: Step; readonly line: string; readonly cautions: readonly CautionMark[] };

export type Sheet = { readonly rows: readonly SheetRow[]; readonly ends: readonly SheetEnd[] };

/** A tree as its sheet has it, at the usual facts. `lineLength`: the most characters of a repair. */
export function sheetOf(tree: Tree, facts: Facts, lineLength: number): Sheet {
  const numbers = stepNumbers(tree);
  const numberOf = (step: Step): number => numbers.get(step.id) ?? 0;
  const target = (to: Target): SheetTarget => {
    if (to.tree !== undefined && to.tree !== tree.name) return { title: to.step, tree: to.tree };
    const step = tree.steps.find(({ id }) => id === to.step);
    return { title: step?.title ?? to.step, ...(step && { number: numberOf(step) }) };
  };
  const rows = tree.steps.filter(({ kind }) => kind !== 'finding' && kind !== 'handoff');
  const ends = tree.steps.filter(({ kind }) => kind === 'finding' || kind === 'handoff');
  return {
    rows: rows.map((step): SheetRow => {
      const held = heldText(step);
      return {
        number: numberOf(step),
        step,
        setting: settingWords(step),
        place: placeWords(step, facts),
        cautions: cautionMarks(step),
        computed: usualComputed(step, facts).flatMap(({ shows, text }) => (text === undefined ? [] : [{ shows, text }])),
        ways: joined(waysOut(step).map(({ on, to }) => ({ on: [bandOf(on, step, facts)], to: target(to) }))),
        ...(held !== undefined && { held: held.replaceAll('-', ' ') }),
      };
    }),
    ends: ends.map((step): SheetEnd => {
      const line = step.kind === 'finding' ? repairLine(step.repair, lineLength) : step.kind === 'handoff' ? `Stop, and call ${step.to}.` : '';
      return { number: numberOf(step), step, line, cautions: cautionMarks(step) };
    }),
  };
}

/** Ways that stand one after the other and lead to the same step, as one. */
function joined(ways: readonly SheetWay[]): readonly SheetWay[] {
  const done: SheetWay[] = [];
  for (const way of ways) {
    const last = done.at(-1);
    if (last?.to.number === undefined || last.to.number !== way.to.number) done.push(way);
    else done.splice(-1, 1, { ...last, on: [...last.on, ...way.on] });
  }
  return done;
}

/** A band by its numbers at the usual facts; its own words where it has none. */
function bandOf(on: string, step: Step, facts: Facts): SheetBand {
  const numbers = usualNumbers(on, step, facts);
  return numbers === undefined ? { text: signs(on), follows: false } : { text: numbers, follows: followsHouse(on, facts) };
}

/** Whether an edge of the band has a fact in it that differs from house to house. */
function followsHouse(on: string, facts: Facts): boolean {
  const band = readBand(on);
  if (!band.ok) return false;
  return Object.values(bandEdges(band.value)).some((edge) =>
    namesIn(edge, TRADE_FUNCTIONS).some((name) => {
      const fact = facts[name];
      return fact !== undefined && (isChoice(fact) || fact.from !== fact.to);
    }),
  );
}

/** A caution that single steps have, with the numbers of all those that have it in the same words. */
export type StepCaution = { readonly caution: Caution; readonly numbers: readonly number[] };

/** The cautions of single steps, each once. */
export function cautionsByStep(tree: Tree): readonly StepCaution[] {
  const numbers = stepNumbers(tree);
  const found = new Map<string, StepCaution>();
  for (const step of tree.steps) {
    for (const caution of step.cautions) {
      const key = JSON.stringify(caution);
      const before = found.get(key)?.numbers ?? [];
      found.set(key, { caution, numbers: [...before, numbers.get(step.id) ?? 0] });
    }
  }
  return [...found.values()];
}

/** Names of the facts that the sheet's numbers were worked out with. */
export function factsOnSheet(tree: Tree, facts: Facts): readonly string[] {
  const named = new Set<string>();
  for (const step of tree.steps) {
    if (step.kind === 'ask') named.add(step.fact);
    for (const { on } of waysOut(step)) {
      const band = readBand(on);
      if (band.ok) for (const edge of Object.values(bandEdges(band.value))) for (const name of namesIn(edge, TRADE_FUNCTIONS)) named.add(name);
    }
    for (const { given } of usualComputed(step, facts)) for (const { name } of given) named.add(name);
  }
  return Object.keys(facts).filter((name) => named.has(name));
}
