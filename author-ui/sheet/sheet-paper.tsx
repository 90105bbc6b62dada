import { type Ref, useMemo } from 'react';
import { handoffOf, type Tree } from '../../engine/tree/index.ts';
import { CautionPlate } from '../../shared/ui/caution-plate.tsx';
import { LadderDrawing } from '../../shared/ui/ladder/index.ts';
import type { Shelf, ShelfTree } from '../data/read-shelf.ts';
import { sheetEdition } from './sheet-edition.ts';
import { SheetEnds } from './sheet-ends.tsx';
import { factsOnSheet, sheetOf } from './sheet-rows.ts';
import { SheetTable } from './sheet-table.tsx';
import { editionWords, SHEET_WORDS, usualWords } from './sheet-words.ts';
import { StepCautions } from './step-cautions.tsx';
import type { SheetSize } from './use-fitting-size.ts';

/** Repairs are told in so many characters: two lines of half a page. */
const REPAIR_LENGTH = 130;

/** px of the drawing: the whole width of the paper, 190 mm. */
const DRAWING_WIDTH = 718;

type SheetPaperProps = {
  readonly ref: Ref<HTMLElement>;
  readonly tree: Tree;
  readonly shelved: ShelfTree;
  readonly shelf: Shelf;
  readonly size: SheetSize;
};

/** All that is printed, 190 mm wide: what letter and A4 both have room for. */
export function SheetPaper({ ref, tree, shelved, shelf, size }: SheetPaperProps) {
  const { facts } = shelved;
  // The size changes until it fits; what stands on the sheet does not.
  const { rows, ends } = useMemo(() => sheetOf(tree, facts, REPAIR_LENGTH), [tree, facts]);
  const usual = factsOnSheet(tree, facts).flatMap((name) => (facts[name] ? [[name, facts[name]] as const] : []));
  const edition = useMemo(() => editionWords(sheetEdition(shelved, shelf)), [shelved, shelf]);
  const handoff = tree.steps.find(({ id }) => id === handoffOf(tree));
  const recheck = tree.recheck && tree.steps.find(({ id }) => id === tree.recheck?.step);
  const bench = shelf.benches.find(({ name }) => name === tree.benches[0])?.bench;
  return (
    <article ref={ref} className="sheet" style={{ fontSize: `${size.points}pt` }}>
      <header className="sheet-head">
        <p className="sheet-title">{tree.title}</p>
        <p>{tree.complaint}</p>
        <p className="sheet-edition">
          {edition} · {shelved.file} · printed {today()}
        </p>
      </header>
      <div className="sheet-cautions">
        {tree.opening.cautions.map((caution, index) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: a tree may have two cautions of one kind, and their order is theirs.
          <CautionPlate key={index} caution={caution} />
        ))}
      </div>
      {usual.length > 0 && (
        <p className="sheet-usual">
          <b>{SHEET_WORDS.usual}</b>{' '}
          {usual.map(([name, fact], index) => (
            <span key={name}>
              {index > 0 && '; '}
              {fact.ask} <b>{usualWords(fact)}</b>
            </span>
          ))}
          .
        </p>
      )}
      {rows.some(({ ways, computed }) => computed.length > 0 || ways.some(({ on }) => on.some(({ follows }) => follows))) && (
        <p className="sheet-usual">
          <b className="sheet-mark">*</b> {SHEET_WORDS.marked}
        </p>
      )}
      {handoff && (
        <p className="sheet-usual">
          <b>{SHEET_WORDS.noFit}</b> {SHEET_WORDS.thenCall(handoff.title)}
        </p>
      )}
      <SheetTable rows={rows} shelf={shelf} />
      {size.cautions && <StepCautions tree={tree} />}
      <SheetEnds title={`${tree.title} · ${edition}`} ends={ends} />
      <p className="sheet-usual">
        {SHEET_WORDS.practice} {tree.recheck && recheck && SHEET_WORDS.recheck(recheck.title, tree.recheck.passes)}
      </p>
      {size.drawing && bench && (
        <figure className="sheet-ladder">
          <figcaption>
            {SHEET_WORDS.ladder} {bench.title}
          </figcaption>
          <LadderDrawing bench={bench} width={DRAWING_WIDTH} />
        </figure>
      )}
    </article>
  );
}

/** The day as it is written on paper everywhere: year, month, day. */
function today(): string {
  const now = new Date();
  const two = (part: number): string => String(part).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}
