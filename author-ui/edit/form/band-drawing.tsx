import { type KeyboardEvent, type PointerEvent, useRef, useState } from 'react';
import { bandInterval, readBand } from '../../../engine/formula/index.ts';
import { quantityKind, showQuantity } from '../../../engine/quantity/index.ts';
import type { Step, Way } from '../../../engine/tree/index.ts';
import { useExpectedNow } from '../../try/use-expected.ts';
import { type DrawnEdge, draggedEdge, drawnEdges, moveEdge } from '../band-form.ts';
import { useEditing } from '../page/edit-context.ts';
import { ExpectedRows } from './expected-rows.tsx';
import { type Axis, alongAxis, axisOf, onAxis, scaleOf, usualSite } from './reading-scale.ts';

type BandDrawingProps = { readonly step: Step; readonly ways: readonly Way[]; readonly commit: (ways: readonly Way[]) => void };

/** Percent of the line that a letter of a number takes, in the narrowest form. */
const LETTER = 2.4;

/** Numbers in as many rows as keep them from running into each other, each in the first that has room. */
function inRows<T extends { readonly at: number; readonly text: string }>(numbers: readonly T[]): readonly (T & { readonly row: number })[] {
  const ends: number[] = [];
  return numbers.map((number) => {
    const half = (number.text.length * LETTER) / 2;
    const free = ends.findIndex((end) => end < number.at - half);
    const row = free === -1 ? ends.length : free;
    ends[row] = number.at + half;
    return { ...number, row };
  });
}

/** The bands drawn along their scale, with the numbers of a usual site. An edge is dragged, or moved with the arrow keys; bands that meet there stay together. */
export function BandDrawing({ step, ways, commit }: BandDrawingProps) {
  const { tree, facts, numbers } = useEditing();
  const { values } = useExpectedNow();
  const line = useRef<HTMLDivElement>(null);
  // While an edge is held the axis stays, or it would run away from under the pointer.
  const [held, setHeld] = useState<{ readonly text: string; readonly axis: Axis }>();
  const scale = scaleOf(step, facts);
  if (!scale) return null;
  const env = usualSite(facts);
  const edges = drawnEdges(ways, env);
  const { floor } = quantityKind(scale.kind);
  const stepKey = `${tree.name}/${step.id}`;
  const shown = (values?.steps[stepKey]?.readings ?? []).flatMap(({ value }) => (value === 'open' ? [] : [value]));
  const axis =
    held?.axis ??
    (edges.length + shown.length === 0
      ? undefined
      : axisOf(
          edges.map(({ si }) => si),
          floor,
          shown,
        ));
  const expected = step.kind === 'reading' && tree.benches.length > 0 && (
    <ExpectedRows stepKey={stepKey} axis={axis} kind={scale.kind} unit={step.unit} />
  );
  if (!axis || edges.length === 0) return expected || null;
  const place = (si: number): string => `${100 * alongAxis(axis, si)}%`;
  const bands = ways.flatMap(({ on, to }, index) => {
    const band = readBand(on);
    const interval = band.ok ? bandInterval(band.value, env) : undefined;
    return interval && interval.low < interval.high
      ? [{ on, to, index, low: Math.max(interval.low, axis.from), high: Math.min(interval.high, axis.to) }]
      : [];
  });

  const shownIn = step.kind === 'reading' ? step.unit : scale.unit;
  const numbered = inRows(edges.map((edge) => ({ edge, at: 100 * alongAxis(axis, edge.si), text: showQuantity(edge.si, scale.kind, shownIn) })));

  function moveTo(edge: DrawnEdge, si: number): void {
    const text = draggedEdge(edge.text, si, env, scale?.kind ?? 'number');
    if (text === edge.text) return;
    const next = moveEdge(ways, edge.text, text);
    // An edge stops at its neighbors: no band is turned inside out.
    const order = drawnEdges(next, env);
    if (order.length !== edges.length || order.some((one, at) => one.text !== (edges[at]?.text === edge.text ? text : edges[at]?.text))) return;
    setHeld((now) => now && { ...now, text });
    commit(next);
  }

  function drag(event: PointerEvent, edge: DrawnEdge): void {
    const box = line.current?.getBoundingClientRect();
    if (!box || !axis || held?.text !== edge.text) return;
    moveTo(edge, onAxis(axis, Math.min(1, Math.max(0, (event.clientX - box.left) / box.width))));
  }

  function key(event: KeyboardEvent, edge: DrawnEdge): void {
    const by = { ArrowRight: 1, ArrowUp: 1, ArrowLeft: -1, ArrowDown: -1, PageUp: 5, PageDown: -5 }[event.key];
    if (by === undefined || !axis) return;
    event.preventDefault();
    // The least that changes what is written: one of its own steps, however the edge is written.
    for (let reach = 1; reach <= 64; reach *= 2) {
      const si = axis.isLog ? edge.si * (1 + 0.005 * by * reach) : edge.si + ((axis.to - axis.from) / 400) * by * reach;
      if (draggedEdge(edge.text, si, env, scale?.kind ?? 'number') !== edge.text) {
        moveTo(edge, si);
        return;
      }
    }
  }

  return (
    <div className="band-drawing-with-expected">
      <div className="band-drawing">
        <div className="band-drawing-line" ref={line}>
          {bands.map(({ on, to, index, low, high }) => (
            <div
              key={on}
              className="band-drawing-band"
              data-odd={index % 2 === 1 || undefined}
              title={on}
              style={{ left: place(low), width: `${100 * (alongAxis(axis, high) - alongAxis(axis, low))}%` }}
            >
              <span aria-hidden="true">{to.tree === undefined ? (numbers.get(to.step) ?? '?') : '↗'}</span>
            </div>
          ))}
          {edges.map((edge) => (
            <div
              key={edge.text}
              role="slider"
              tabIndex={edge.isFree ? 0 : -1}
              className="band-drawing-edge"
              aria-label={`Edge ${edge.text}`}
              aria-valuenow={edge.si}
              aria-valuemin={axis.from}
              aria-valuemax={axis.to}
              aria-valuetext={`${edge.text}, ${showQuantity(edge.si, scale.kind, scale.unit)}`}
              aria-disabled={!edge.isFree}
              style={{ left: place(edge.si) }}
              onPointerDown={(event) => {
                if (!edge.isFree) return;
                event.currentTarget.setPointerCapture(event.pointerId);
                setHeld({ text: edge.text, axis });
              }}
              onPointerMove={(event) => drag(event, edge)}
              onPointerUp={() => setHeld(undefined)}
              onPointerCancel={() => setHeld(undefined)}
              onKeyDown={(event) => key(event, edge)}
            />
          ))}
        </div>
        <div
          className="band-drawing-numbers"
          aria-hidden="true"
          style={{ height: `${0.5 + 1.1 * Math.max(1, ...numbered.map(({ row }) => row + 1))}rem` }}
        >
          {numbered.map(({ edge, text, row }) => (
            <span key={edge.text} style={{ left: place(edge.si), top: `${0.45 + 1.1 * row}rem` }}>
              {text}
            </span>
          ))}
        </div>
      </div>
      {expected}
    </div>
  );
}
