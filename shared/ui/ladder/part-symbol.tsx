import type { PlacedSymbol } from './ladder-layout.ts';
import { isLive, type LadderState } from './ladder-state.ts';
import { type Standing, symbolPaths } from './symbol-paths.ts';

/** Words for a part that lets current through, and for one that does not. */
const CONDUCTING: Readonly<Record<string, boolean>> = { closed: true, good: true, open: false, blown: false };

/** Parts whose own symbol shows that nothing passes. */
const SHOWS_OPEN: ReadonlySet<string> = new Set(['contact', 'switch', 'limit']);

/** One part's symbol, heavier where it is energised, crossed where it is known to be broken. */
export function PartSymbol({ symbol, state }: { readonly symbol: PlacedSymbol; readonly state: LadderState }) {
  const { part, name, shape, x, y, ports } = symbol;
  const live = isEnergised(symbol, state);
  const standing: Standing = { conducts: CONDUCTING[state.parts?.[part] ?? ''], live };
  const { strokes, fine, filled, dots } = symbolPaths(symbol, standing);
  const broken = state.faults?.some((fault) => fault.part === part && fault.breaks) && !SHOWS_OPEN.has(shape);
  // A battery's plates tell its ends apart, so it turns with them.
  const turned = shape === 'dc-source' && ports[0].x > ports[1].x ? ' scale(-1 1)' : '';
  const word = state.parts?.[part];
  return (
    <g
      className={live ? 'ladder-part ladder-part-live' : 'ladder-part'}
      data-part={part}
      data-shape={shape}
      data-state={word}
      transform={`translate(${x} ${y})${turned}`}
    >
      <title>{name}</title>
      {filled && <path className="ladder-body" d={filled} />}
      {strokes && <path d={strokes} />}
      {fine && <path className="ladder-fine" d={fine} />}
      {dots?.map(([dx, dy]) => (
        <circle key={dx} className="ladder-contact-point" cx={dx} cy={dy} r={3} />
      ))}
      {broken && (
        <>
          <path className="ladder-cross-halo" d="M-7 -7L7 7M7 -7L-7 7" />
          <path className="ladder-cross" d="M-7 -7L7 7M7 -7L-7 7" />
        </>
      )}
    </g>
  );
}

/** A wire is as live as what it joins; any other part is what the solved circuit says. */
function isEnergised({ part, shape, ports }: PlacedSymbol, state: LadderState): boolean {
  if (state.energisedParts?.includes(part)) return true;
  return shape === 'wire' && ports.every(({ node }) => isLive(state, node));
}
