import type { ELK, ElkNode } from 'elkjs/lib/elk-api.js';
import Elk from 'elkjs/lib/elk-api.js';
import workerAddress from 'elkjs/lib/elk-worker.min.js?url';
import { ROW_HEIGHT, SLIP_WIDTH, type Slip } from './graph-model.ts';

export type GraphPoint = { readonly x: number; readonly y: number };

/** Where everything of a graph stands, in pixels. A line is known by its step and the place of its way. */
export type GraphLayout = { readonly slips: ReadonlyMap<string, GraphPoint>; readonly lines: ReadonlyMap<string, readonly GraphPoint[]> };

export const lineId = (step: string, way: number): string => `${step} ${way}`;

const OPTIONS = {
  'elk.algorithm': 'layered',
  'elk.direction': 'RIGHT',
  'elk.edgeRouting': 'ORTHOGONAL',
  'elk.layered.considerModelOrder.strategy': 'NODES_AND_EDGES',
  'elk.layered.spacing.nodeNodeBetweenLayers': '56',
  'elk.layered.spacing.edgeNodeBetweenLayers': '16',
  'elk.layered.spacing.edgeEdgeBetweenLayers': '10',
  'elk.spacing.nodeNode': '22',
  'elk.spacing.edgeNode': '12',
  'elk.spacing.edgeEdge': '8',
};

let elk: ELK | undefined;

/** Computes where slips and lines stand, in a worker. */
export async function layOut(slips: readonly Slip[]): Promise<GraphLayout> {
  elk ??= new Elk({ workerFactory: () => new Worker(workerAddress, { name: 'layout' }) });
  const graph: ElkNode = {
    id: 'tree',
    layoutOptions: OPTIONS,
    children: slips.map(({ step, height, rowsTop, rows }) => ({
      id: step.id,
      width: SLIP_WIDTH,
      height,
      layoutOptions: { 'elk.portConstraints': 'FIXED_POS' },
      ports: [
        { id: `${step.id} in`, x: 0, y: 20, width: 0, height: 0, layoutOptions: { 'elk.port.side': 'WEST' } },
        ...rows.flatMap(({ isDrawn }, at) =>
          isDrawn
            ? [
                {
                  id: lineId(step.id, at),
                  x: SLIP_WIDTH,
                  y: rowsTop + (at + 0.5) * ROW_HEIGHT,
                  width: 0,
                  height: 0,
                  layoutOptions: { 'elk.port.side': 'EAST' },
                },
              ]
            : [],
        ),
      ],
    })),
    edges: slips.flatMap(({ step, rows }) =>
      rows.flatMap(({ to, isDrawn }, at) =>
        isDrawn ? [{ id: `line ${lineId(step.id, at)}`, sources: [lineId(step.id, at)], targets: [`${to.step} in`] }] : [],
      ),
    ),
  };
  const placed = await elk.layout(graph);
  const lines = (placed.edges ?? []).map((edge) => {
    const points = (edge.sections ?? []).flatMap(({ startPoint, bendPoints = [], endPoint }) => [startPoint, ...bendPoints, endPoint]);
    return [edge.id.slice('line '.length), points] as const;
  });
  return {
    slips: new Map((placed.children ?? []).map(({ id, x = 0, y = 0 }) => [id, { x, y }])),
    lines: new Map(lines),
  };
}
