import '@xyflow/react/dist/base.css';
import { type EdgeTypes, type NodeTypes, Position, ReactFlow, ReactFlowProvider, useReactFlow, useStore } from '@xyflow/react';
import { type KeyboardEvent, useCallback, useEffect, useMemo, useRef } from 'react';
import type { Problem } from '../../../engine/problem.ts';
import { type Tree, waysOf } from '../../../engine/tree/index.ts';
import { leadsTo } from '../step-edits.ts';
import { ROW_HEIGHT, SLIP_WIDTH, type Slip, slipsOf } from './graph-model.ts';
import { type GraphLayout, lineId } from './lay-out.ts';
import { type SlipNode, StepSlip } from './step-slip.tsx';
import { useLayout } from './use-layout.ts';
import { type WireEdge, WireLine } from './wire-line.tsx';

const NODE_TYPES: NodeTypes = { slip: StepSlip };
const EDGE_TYPES: EdgeTypes = { wire: WireLine };

type TreeGraphProps = {
  readonly tree: Tree;
  readonly problems: readonly Problem[];
  readonly shown: string;
  readonly select: (step: string) => void;
};

/** The tree drawn: where every step stands is computed from its ways, never stored. */
export function TreeGraph(props: TreeGraphProps) {
  return (
    <ReactFlowProvider>
      <Graph {...props} />
    </ReactFlowProvider>
  );
}

function Graph({ tree, problems, shown, select }: TreeGraphProps) {
  const slips = useMemo(() => slipsOf(tree), [tree]);
  const { layout, failed } = useLayout(slips);
  const pane = useRef<HTMLElement>(null);
  const counts = useMemo(() => {
    const found = new Map<string, number>();
    for (const { step } of problems) if (step !== undefined) found.set(step, (found.get(step) ?? 0) + 1);
    return found;
  }, [problems]);
  const nodes = useMemo(() => (layout ? slipNodes(slips, layout, counts, shown, select) : []), [slips, layout, counts, shown, select]);
  const edges = useMemo(() => (layout ? wireEdges(slips, layout, shown) : []), [slips, layout, shown]);
  useKeepInView(shown, slips, layout);

  const walk = useCallback(
    (event: KeyboardEvent) => {
      const to = stepTowards(tree, shown, event.key);
      if (to === undefined || !(event.target instanceof HTMLElement) || event.target.dataset.step === undefined) return;
      event.preventDefault();
      select(to);
      // The slip may not be drawn yet where it was out of view.
      setTimeout(() => pane.current?.querySelector<HTMLElement>(`[data-step="${to}"]`)?.focus({ preventScroll: true }), 60);
    },
    [tree, shown, select],
  );

  return (
    <section className="tree-graph" ref={pane} aria-label="Graph of the steps" onKeyDown={walk}>
      {!layout && <p className="pane-note">{failed === undefined ? 'Drawing the steps…' : `The steps could not be drawn: ${failed}`}</p>}
      <ReactFlow
        nodes={nodes}
        edges={edges}
        nodeTypes={NODE_TYPES}
        edgeTypes={EDGE_TYPES}
        nodesDraggable={false}
        nodesConnectable={false}
        nodesFocusable={false}
        edgesFocusable={false}
        elementsSelectable={false}
        deleteKeyCode={null}
        selectionKeyCode={null}
        multiSelectionKeyCode={null}
        disableKeyboardA11y
        onlyRenderVisibleElements
        minZoom={0.05}
        maxZoom={1.5}
        proOptions={{ hideAttribution: true }}
      />
      <GraphButtons slips={slips} layout={layout} />
    </section>
  );
}

type GraphButtonsProps = { readonly slips: readonly Slip[]; readonly layout: GraphLayout | undefined };

function GraphButtons({ slips, layout }: GraphButtonsProps) {
  const flow = useReactFlow();
  const showAll = (): void => {
    const places = slips.flatMap(({ step, height }) => {
      const at = layout?.slips.get(step.id);
      return at ? [{ left: at.x, top: at.y, right: at.x + SLIP_WIDTH, bottom: at.y + height }] : [];
    });
    const x = Math.min(...places.map(({ left }) => left));
    const y = Math.min(...places.map(({ top }) => top));
    const width = Math.max(...places.map(({ right }) => right)) - x;
    const height = Math.max(...places.map(({ bottom }) => bottom)) - y;
    if (places.length > 0) void flow.fitBounds({ x, y, width, height }, { padding: 0.05 });
  };
  return (
    <div className="graph-buttons">
      <button type="button" className="button-mark" aria-label="Draw smaller" title="Smaller" onClick={() => void flow.zoomOut()}>
        −
      </button>
      <button type="button" className="button-mark" aria-label="Draw larger" title="Larger" onClick={() => void flow.zoomIn()}>
        +
      </button>
      <button type="button" className="button-plain" onClick={showAll}>
        Show all
      </button>
    </div>
  );
}

function slipNodes(
  slips: readonly Slip[],
  layout: GraphLayout,
  counts: ReadonlyMap<string, number>,
  shown: string,
  select: (step: string) => void,
): SlipNode[] {
  const numbers = new Map(slips.map(({ step, number }) => [step.id, number]));
  return slips.flatMap((slip): SlipNode[] => {
    const { step, rows, rowsTop, height } = slip;
    const position = layout.slips.get(step.id);
    if (!position) return [];
    const handle = { width: 1, height: 1 };
    return [
      {
        id: step.id,
        type: 'slip',
        position: { ...position },
        width: SLIP_WIDTH,
        height,
        // Given, so that a line is drawn also where one of its slips is out of view and never measured.
        handles: [
          { ...handle, type: 'target', id: 'in', position: Position.Left, x: 0, y: 20 },
          ...rows.flatMap(({ isDrawn }, at) =>
            isDrawn
              ? [
                  {
                    ...handle,
                    type: 'source' as const,
                    id: String(at),
                    position: Position.Right,
                    x: SLIP_WIDTH,
                    y: rowsTop + (at + 0.5) * ROW_HEIGHT,
                  },
                ]
              : [],
          ),
        ],
        data: {
          slip,
          select,
          problems: counts.get(step.id) ?? 0,
          isShown: step.id === shown,
          numbers: rows.map(({ to }) => (to.tree === undefined ? numbers.get(to.step) : undefined)),
        },
      },
    ];
  });
}

function wireEdges(slips: readonly Slip[], layout: GraphLayout, shown: string): WireEdge[] {
  return slips.flatMap(({ step, rows }) =>
    rows.flatMap(({ to, isDrawn }, at): WireEdge[] => {
      const points = layout.lines.get(lineId(step.id, at));
      if (!isDrawn || !points || !layout.slips.has(to.step)) return [];
      const isShown = step.id === shown || to.step === shown;
      return [
        {
          id: lineId(step.id, at),
          type: 'wire',
          source: step.id,
          sourceHandle: String(at),
          target: to.step,
          targetHandle: 'in',
          zIndex: isShown ? 1 : 0,
          data: { points, isShown },
        },
      ];
    }),
  );
}

/** Where an arrow key leads: along the first way on, back where it came from, or to the neighbor in the document. */
function stepTowards(tree: Tree, shown: string, key: string): string | undefined {
  const at = tree.steps.findIndex(({ id }) => id === shown);
  const step = tree.steps[at];
  if (!step) return undefined;
  switch (key) {
    case 'ArrowDown':
      return tree.steps[at + 1]?.id;
    case 'ArrowUp':
      return tree.steps[at - 1]?.id;
    case 'ArrowRight':
      return waysOf(step).find(({ to }) => to.tree === undefined && tree.steps.some(({ id }) => id === to.step))?.to.step;
    case 'ArrowLeft':
      return leadsTo(tree, shown)[0]?.id;
    default:
      return undefined;
  }
}

/** Brings the shown step into view where it is not, at a size that can be read. */
function useKeepInView(shown: string, slips: readonly Slip[], layout: GraphLayout | undefined): void {
  const flow = useReactFlow();
  const width = useStore((state) => state.width);
  const height = useStore((state) => state.height);
  const first = useRef(true);
  useEffect(() => {
    const slip = slips.find(({ step }) => step.id === shown) ?? slips[0];
    const at = slip && layout?.slips.get(slip.step.id);
    if (!slip || !at || width === 0 || height === 0) return;
    const { x, y, zoom } = flow.getViewport();
    const left = at.x * zoom + x;
    const top = at.y * zoom + y;
    const isInView = left > 8 && top > 8 && left + SLIP_WIDTH * zoom < width - 8 && top + slip.height * zoom < height - 8;
    if (isInView && !first.current && zoom > 0.5) return;
    // On arrival the step stands at the left, since what follows is to its right.
    const scale = first.current ? 0.85 : Math.max(zoom, 0.6);
    const room = first.current ? 24 : Math.max(24, width * 0.25);
    void flow.setViewport({ x: room - at.x * scale, y: Math.max(24, (height - slip.height * scale) / 2) - at.y * scale, zoom: scale });
    first.current = false;
  }, [shown, slips, layout, flow, width, height]);
}
