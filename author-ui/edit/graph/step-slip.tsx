import { Handle, type Node, type NodeProps, Position } from '@xyflow/react';
import { memo } from 'react';
import { KIND_WORDS } from '../../document/step-task.ts';
import type { Slip } from './graph-model.ts';
import { ROW_HEIGHT } from './graph-model.ts';
import { KindMark } from './kind-mark.tsx';

export type SlipNode = Node<
  {
    readonly slip: Slip;
    readonly problems: number;
    readonly isShown: boolean;
    /** The number of the step that each row leads to; undefined where it is not in this tree. */
    readonly numbers: readonly (number | undefined)[];
    readonly select: (step: string) => void;
  },
  'slip'
>;

/** A step as a slip of a service sheet: what it is, and a line for each way on. */
export const StepSlip = memo(function StepSlip({ data: { slip, problems, isShown, numbers, select } }: NodeProps<SlipNode>) {
  const { step, number, rows, rowsTop } = slip;
  return (
    <div className={`slip slip-${step.kind}`} data-shown={isShown || undefined} style={{ height: slip.height }}>
      <Handle type="target" position={Position.Left} id="in" isConnectable={false} style={{ top: 20 }} />
      <button
        type="button"
        className="slip-head nodrag nopan"
        data-step={step.id}
        style={{ height: rowsTop }}
        aria-current={isShown ? 'true' : undefined}
        onClick={() => select(step.id)}
      >
        <span className="slip-kind">
          <KindMark kind={step.kind} />
          {KIND_WORDS[step.kind]}
          {problems > 0 && <strong className="slip-problems">{problems === 1 ? '1 problem' : `${problems} problems`}</strong>}
          <span className="slip-number">{number}</span>
        </span>
        <span className="slip-title">{step.title}</span>
      </button>
      {rows.map(({ on, to, isDrawn }, at) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a way is known by its place, as its line is.
        <div key={at} className="slip-row" style={{ height: ROW_HEIGHT }}>
          <span className="slip-on" title={on}>
            {on}
          </span>
          <span className="slip-to" data-drawn={isDrawn || undefined}>
            {numbers[at] ?? (to.tree === undefined ? '?' : '↗')}
          </span>
          {isDrawn && (
            <Handle
              type="source"
              position={Position.Right}
              id={String(at)}
              isConnectable={false}
              style={{ top: rowsTop + (at + 0.5) * ROW_HEIGHT }}
            />
          )}
        </div>
      ))}
    </div>
  );
});
