import type { LadderLayout, PlacedPoint } from './ladder-layout.ts';
import { Flag, GroundMark, JumperArch, Label, Lift, Probe } from './ladder-marks.tsx';
import { isLive, type LadderState } from './ladder-state.ts';
import { PartSymbol } from './part-symbol.tsx';
import { TerminalTargets } from './terminal-targets.tsx';

type LadderPictureProps = {
  readonly layout: LadderLayout;
  readonly state: LadderState;
  /** Names the picture. */
  readonly description: string;
  readonly describedBy: string;
  readonly onPick: ((terminal: string) => void) | undefined;
};

/** A placed ladder as SVG, one px to a unit. What is live is drawn over what is not. */
export function LadderPicture({ layout, state, description, describedBy, onPick }: LadderPictureProps) {
  const { width, height, lines, symbols, points, texts, flags, grounds, lifts, probes, jumpers } = layout;
  const ordered = lines.map((line) => ({ line, live: isLive(state, line.node) })).toSorted((a, b) => Number(a.live) - Number(b.live));
  return (
    <svg
      className="ladder-picture"
      width={width}
      height={height}
      viewBox={`0 0 ${width} ${height}`}
      // Inside a picture nothing could be focused, so with targets it is a group.
      role={onPick ? 'group' : 'img'}
      aria-label={description}
      aria-describedby={describedBy}
    >
      {/* biome-ignore lint/a11y/noAriaHiddenOnFocusable: nothing in this group can be focused. */}
      <g aria-hidden="true">
        <g>
          {ordered.map(({ line: { node, x1, y1, x2, y2 }, live }) => (
            <path
              key={`${node} ${x1} ${y1} ${x2} ${y2}`}
              className={live ? 'ladder-line ladder-line-live' : 'ladder-line'}
              d={`M${x1} ${y1}L${x2} ${y2}`}
            />
          ))}
          {grounds.map((ground) => (
            <GroundMark key={`${ground.node} ${ground.x} ${ground.y}`} ground={ground} />
          ))}
        </g>
        {symbols.map((symbol) => (
          <PartSymbol key={`${symbol.part} ${symbol.piece}`} symbol={symbol} state={state} />
        ))}
        {flags.map((flag) => (
          <Flag key={`${flag.node} ${flag.x} ${flag.y}`} flag={flag} />
        ))}
        {lifts.map((lift) => (
          <Lift key={lift.lead} lift={lift} />
        ))}
        {points
          .filter(({ role }) => role !== 'hidden')
          .map(({ node, x, y, role }) => (
            <circle key={`${node} ${x} ${y}`} className={pointClass(role, isLive(state, node))} cx={x} cy={y} r={role === 'inner' ? 2 : 4} />
          ))}
        {probes.map((probe) => (
          <Probe key={probe.color} probe={probe} />
        ))}
        {jumpers.map((jumper) => (
          <JumperArch key={`${jumper.from} ${jumper.to}`} jumper={jumper} />
        ))}
        {texts.map((text) => (
          <Label key={`${text.kind} ${text.of} ${text.x} ${text.y}`} text={text} />
        ))}
      </g>
      {onPick && <TerminalTargets points={points} onPick={onPick} />}
    </svg>
  );
}

function pointClass(role: PlacedPoint['role'], live: boolean): string {
  if (role === 'inner') return 'ladder-point ladder-point-inner';
  return live ? 'ladder-point ladder-point-live' : 'ladder-point';
}
