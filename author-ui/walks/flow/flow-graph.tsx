import './flow.css';
import { memo, useEffect, useMemo, useRef, useState } from 'react';
import type { Tree } from '../../../engine/tree/index.ts';
import { KIND_WORDS } from '../../document/step-task.ts';
import { ROW_HEIGHT, SLIP_WIDTH, type Slip, slipsOf } from '../../edit/graph/graph-model.ts';
import { KindMark } from '../../edit/graph/kind-mark.tsx';
import { type GraphLayout, lineId } from '../../edit/graph/lay-out.ts';
import { useLayout } from '../../edit/graph/use-layout.ts';
import { wirePath } from '../../edit/graph/wire-line.tsx';
import type { FlowMarks } from './flow-marks.ts';

type FlowGraphProps = {
  readonly tree: Tree;
  readonly marks: FlowMarks;
  readonly label: string;
  /** Pressing a marked step. */
  readonly select?: (step: string) => void;
};

const SIZES = [0.5, 0.75, 1] as const;
const ROOM = 24;

/** A tree drawn to be read, with what walks did on it: marked steps stand out, a way is as wide as its share. */
export function FlowGraph({ tree, marks, label, select }: FlowGraphProps) {
  const slips = useMemo(() => slipsOf(tree), [tree]);
  const { layout, failed } = useLayout(slips);
  const [size, setSize] = useState<(typeof SIZES)[number]>(0.75);
  const pane = useRef<HTMLElement>(null);
  const extent = useMemo(() => layout && extentOf(slips, layout), [slips, layout]);
  // Where no step is stood at, the beginning is what one wants to see.
  useKeepHere(pane, layout, slips, marks.here ?? tree.steps[0]?.id, size);
  return (
    <div className="flow">
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what can be scrolled has to be reachable by keyboard. */}
      <section className="flow-pane" aria-label={label} ref={pane} tabIndex={0}>
        {!layout && <p className="pane-note">{failed === undefined ? 'Drawing the steps…' : `The steps could not be drawn: ${failed}`}</p>}
        {layout && extent && (
          <div className="flow-extent" style={{ width: extent.width * size, height: extent.height * size }}>
            <div className="flow-sheet" style={{ width: extent.width, height: extent.height, transform: `scale(${size})` }}>
              <FlowLines slips={slips} layout={layout} marks={marks} extent={extent} />
              {slips.map((slip) => {
                const at = layout.slips.get(slip.step.id);
                return at && <FlowSlip key={slip.step.id} slip={slip} x={at.x + ROOM} y={at.y + ROOM} marks={marks} select={select} />;
              })}
            </div>
          </div>
        )}
      </section>
      <div className="flow-sizes">
        {SIZES.map((one, at) => (
          <button key={one} type="button" className="button-plain" aria-pressed={size === one} onClick={() => setSize(one)}>
            {['Small', 'Middle', 'Large'][at]}
          </button>
        ))}
      </div>
    </div>
  );
}

type Extent = { readonly width: number; readonly height: number };

function extentOf(slips: readonly Slip[], layout: GraphLayout): Extent {
  const points = [...layout.lines.values()].flat();
  const right = slips.map(({ step }) => (layout.slips.get(step.id)?.x ?? 0) + SLIP_WIDTH);
  const bottom = slips.map(({ step, height }) => (layout.slips.get(step.id)?.y ?? 0) + height);
  return {
    width: Math.max(...right, ...points.map(({ x }) => x)) + 2 * ROOM,
    height: Math.max(...bottom, ...points.map(({ y }) => y)) + 2 * ROOM,
  };
}

type FlowLinesProps = { readonly slips: readonly Slip[]; readonly layout: GraphLayout; readonly marks: FlowMarks; readonly extent: Extent };

const FlowLines = memo(function FlowLines({ slips, layout, marks, extent }: FlowLinesProps) {
  const ids = slips.flatMap(({ step, rows }) => rows.map((_row, at) => lineId(step.id, at))).filter((id) => layout.lines.has(id));
  // What is marked is drawn over what is not.
  const ordered = [...ids.filter((id) => !marks.ways.has(id)), ...ids.filter((id) => marks.ways.has(id))];
  return (
    <svg className="flow-lines" width={extent.width} height={extent.height} aria-hidden="true">
      <g transform={`translate(${ROOM} ${ROOM})`}>
        {ordered.map((id) => {
          const points = layout.lines.get(id) ?? [];
          const mark = marks.ways.get(id);
          const end = points.at(-1);
          const width = mark ? 2.5 + 9 * mark.share : 1;
          return (
            <g key={id} className="flow-line" data-marked={mark ? 'yes' : undefined}>
              <path d={wirePath(points)} fill="none" strokeWidth={width} />
              {end && <path d={`M${end.x - 7} ${end.y - 4}L${end.x} ${end.y}L${end.x - 7} ${end.y + 4}`} fill="none" strokeWidth={mark ? 2.5 : 1} />}
            </g>
          );
        })}
      </g>
    </svg>
  );
});

type FlowSlipProps = {
  readonly slip: Slip;
  readonly x: number;
  readonly y: number;
  readonly marks: FlowMarks;
  readonly select: ((step: string) => void) | undefined;
};

function FlowSlip({ slip: { step, number, rows, rowsTop, height }, x, y, marks, select }: FlowSlipProps) {
  const mark = marks.steps.get(step.id);
  const isHere = marks.here === step.id;
  const head = (
    <>
      <span className="slip-kind">
        <KindMark kind={step.kind} />
        {KIND_WORDS[step.kind]}
        {mark?.text !== undefined && <strong className="flow-count">{mark.text}</strong>}
        <span className="slip-number">{number}</span>
      </span>
      <span className="slip-title">{step.title}</span>
      {mark?.words !== undefined && <span className="unseen">, {mark.words}</span>}
    </>
  );
  return (
    <div
      className={`slip slip-${step.kind} flow-slip`}
      data-shown={isHere || undefined}
      data-marked={mark ? 'yes' : undefined}
      style={{ left: x, top: y, height }}
    >
      {select && mark ? (
        <button
          type="button"
          className="slip-head"
          style={{ height: rowsTop }}
          aria-current={isHere ? 'step' : undefined}
          onClick={() => select(step.id)}
        >
          {head}
        </button>
      ) : (
        <div className="slip-head" style={{ height: rowsTop }}>
          {head}
        </div>
      )}
      {rows.map(({ on, isDrawn }, at) => {
        const way = marks.ways.get(lineId(step.id, at));
        return (
          // biome-ignore lint/suspicious/noArrayIndexKey: a way is known by its place, as its line is.
          <div key={at} className="slip-row" style={{ height: ROW_HEIGHT }} data-marked={way ? 'yes' : undefined}>
            <span className="slip-on" title={on}>
              {on}
            </span>
            <span className="slip-to" data-drawn={isDrawn || undefined}>
              {way?.text ?? (way ? '✓' : '')}
              {way?.words !== undefined && <span className="unseen"> {way.words}</span>}
            </span>
          </div>
        );
      })}
    </div>
  );
}

/** Scrolls the pane, and only the pane, so that the step stood at is in it. */
function useKeepHere(
  pane: React.RefObject<HTMLElement | null>,
  layout: GraphLayout | undefined,
  slips: readonly Slip[],
  here: string | undefined,
  size: number,
): void {
  useEffect(() => {
    const box = pane.current;
    const at = here === undefined ? undefined : layout?.slips.get(here);
    const slip = slips.find(({ step }) => step.id === here);
    if (!box || !at || !slip) return;
    const [left, top] = [(at.x + ROOM) * size, (at.y + ROOM) * size];
    const [right, bottom] = [left + SLIP_WIDTH * size, top + slip.height * size];
    const isIn =
      left >= box.scrollLeft && right <= box.scrollLeft + box.clientWidth && top >= box.scrollTop && bottom <= box.scrollTop + box.clientHeight;
    if (!isIn) box.scrollTo({ left: left - box.clientWidth / 3, top: top - (box.clientHeight - slip.height * size) / 2 });
  }, [pane, layout, slips, here, size]);
}
