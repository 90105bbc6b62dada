import { useId, useMemo, useState } from 'react';
import type { Bench } from '../../../engine/bench/index.ts';
import { describeLadder, readRungs } from './describe-ladder.ts';
import { LadderPicture } from './ladder-picture.tsx';
import { isLive, type LadderState, type MeterLeads } from './ladder-state.ts';
import { layoutLadder } from './layout-ladder.ts';
import { partName } from './part-words.ts';
import { useWidth } from './use-width.ts';
import './ladder.css';

export type LadderDrawingProps = {
  readonly bench: Bench;
  readonly state?: LadderState;
  /** Terminals, or names of lifted leads. */
  readonly leads?: MeterLeads | undefined;
  /** Draws what lies about these points first; the rest comes with a press. */
  readonly focus?: readonly string[] | undefined;
  /** Makes every terminal a target for finger and keyboard. */
  readonly onPickTerminal?: ((terminal: string) => void) | undefined;
  /** Lists the parts that carry no current, with their state. */
  readonly mechanical?: boolean;
  /** What `state` is of: the circuit now, or as it will be once it is set up for something. */
  readonly when?: 'now' | 'then';
  /** px; without it the drawing takes the width that it finds. */
  readonly width?: number;
};

const AT_REST: LadderState = {};

/** A bench as a ladder drawing, with what is done to it and what is live in it. */
export function LadderDrawing({ bench, state = AT_REST, leads, focus, onPickTerminal, mechanical = false, when = 'now', width }: LadderDrawingProps) {
  const [box, measured] = useWidth(width ?? 360);
  const [whole, setWhole] = useState(false);
  const id = useId();
  const room = width ?? measured;
  const pick = onPickTerminal !== undefined;
  const focusKey = focus?.join(' ');
  const asked = useMemo(() => (focusKey === undefined ? undefined : focusKey.split(' ')), [focusKey]);
  const [red, black] = [leads?.red, leads?.black];
  const { layout, narrowed } = useMemo(() => {
    const standing = red !== undefined && black !== undefined ? { red, black } : undefined;
    const options = { width: room, state, leads: standing, pick };
    const near = asked && layoutLadder(bench, { ...options, focus: asked });
    const narrowed = near?.undrawn.filter(({ why }) => why === 'out-of-focus').length ?? 0;
    return { layout: near && !whole ? near : layoutLadder(bench, options), narrowed };
  }, [bench, room, state, red, black, pick, asked, whole]);
  return (
    <div className="ladder" ref={box}>
      <div className="ladder-scroll">
        <LadderPicture
          layout={layout}
          state={state}
          description={describeLadder(bench, layout, state, leads)}
          describedBy={id}
          onPick={onPickTerminal}
        />
      </div>
      <p className="ladder-unseen" id={id}>
        {readRungs(bench, layout)}
      </p>
      {state.volts && <Legend live={layout.points.some(({ node }) => isLive(state, node))} when={when} />}
      {narrowed > 0 && (
        <button className="ladder-more" type="button" aria-expanded={whole} onClick={() => setWhole(!whole)}>
          {whole ? 'Show only the part that matters now' : 'Show the whole circuit'}
        </button>
      )}
      {mechanical && (
        <MechanicalParts bench={bench} parts={layout.undrawn.flatMap(({ part, why }) => (why === 'no-ends' ? [part] : []))} state={state} />
      )}
    </div>
  );
}

/** Says what the heavy lines are; where there are none, that this is so. */
function Legend({ live, when }: { readonly live: boolean; readonly when: 'now' | 'then' }) {
  return (
    <p className="ladder-legend" aria-hidden="true">
      {live && (
        <svg width="28" height="8" viewBox="0 0 28 8" aria-hidden="true">
          <path className="ladder-legend-line" d="M0 4H28" />
        </svg>
      )}
      {live ? `energised ${when}` : `nothing energised ${when}`}
    </p>
  );
}

type MechanicalPartsProps = { readonly bench: Bench; readonly parts: readonly string[]; readonly state: LadderState };

function MechanicalParts({ bench, parts, state }: MechanicalPartsProps) {
  if (parts.length === 0) return null;
  return (
    <dl className="ladder-mechanical">
      {parts.map((part) => {
        const spec = bench.parts[part];
        const now = state.parts?.[part] ?? (spec?.kind === 'state' ? spec.is : undefined);
        return (
          <div className="ladder-mechanical-part" key={part}>
            <dt>{spec ? partName(part, spec) : part}</dt>
            {now && <dd className="ladder-mechanical-state">{now.replaceAll('-', ' ')}</dd>}
          </div>
        );
      })}
    </dl>
  );
}
