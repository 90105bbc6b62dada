import type { CSSProperties } from 'react';
import { type QuantityKindName, showQuantity } from '../../engine/quantity/index.ts';
import type { ScaleBand } from '../../engine/walk/index.ts';
import { rangeWords } from './band-words.ts';
import { placeOnScale, type Segment, scaleSegments } from './scale-segments.ts';
import './band-scale.css';

/** A value on the scale. `draft`: typed and not entered. `halfWidth` is SI: half the interval that the true value lies in. */
export type ScaleMark = { readonly si: number | 'open'; readonly text: string; readonly halfWidth?: number; readonly draft?: boolean };

type BandScaleProps = {
  readonly bands: readonly ScaleBand[];
  readonly kind: QuantityKindName;
  /** Fixes the unit of the numbers; without it they step by thousands as a meter does. */
  readonly unit?: string | undefined;
  readonly mark?: ScaleMark | undefined;
};

/**
 * The bands of a reading as one upright line, least value at the foot: numbers for this house at the edges, where each band leads, and
 * where a value lands. Bands are drawn of one size; the numbers say how wide they are.
 */
export function BandScale({ bands, kind, unit, mark }: BandScaleProps) {
  const segments = scaleSegments(bands, kind);
  const place = mark && placeOnScale(segments, mark.si, kind);
  const top = segments.length - 1;
  const fromTop = (index: number, along: number): string => `${((top - index + 1 - along) / segments.length) * 100}%`;
  const reach = mark && reachOf(mark, segments, kind);
  const edges = segments.flatMap(({ low, high }) => [low, high]).flatMap((si) => (si === null ? [] : showQuantity(si, kind, unit).length));
  return (
    // Room for the longest number, in widths of a figure.
    <div className="band-scale" style={{ '--lane-figures': Math.max(3, ...edges) } as CSSProperties}>
      <ol className="band-scale-bands" reversed>
        {segments.toReversed().map((segment) => {
          const landed = place !== undefined && segments[place.index] === segment;
          return (
            <li
              key={`${segment.kind} ${segment.band.on} ${segment.low}`}
              className="band-scale-band"
              data-kind={segment.kind}
              data-landed={landed ? (mark?.draft ? 'draft' : 'entered') : undefined}
            >
              <Edges segment={segment} kind={kind} unit={unit} isTop={segments.at(-1) === segment} />
              <span className="band-scale-line" aria-hidden="true" />
              <span className="unseen">{landed && mark && (mark.draft ? `${mark.text}, typed, lies in ` : `${mark.text} lies in `)}</span>
              <span className="unseen">{segment.kind === 'open' ? 'OL' : rangeWords(segment.low, segment.high, kind, unit)} leads to </span>
              <span className="band-scale-leads">{segment.band.leadsTo}</span>
              {landed && mark && !mark.draft && (
                <span className="band-scale-value" aria-hidden="true">
                  {mark.text}
                </span>
              )}
            </li>
          );
        })}
      </ol>
      {place && mark && (
        <div className="band-scale-overlay" aria-hidden="true">
          {reach && (
            <span
              className="band-scale-reach"
              style={{ top: fromTop(reach.high.index, reach.high.along), bottom: `calc(100% - ${fromTop(reach.low.index, reach.low.along)})` }}
            />
          )}
          <span className="band-scale-needle" data-draft={mark.draft || undefined} style={{ top: fromTop(place.index, place.along) }} />
        </div>
      )}
    </div>
  );
}

function reachOf({ si, halfWidth }: ScaleMark, segments: readonly Segment[], kind: QuantityKindName) {
  if (si === 'open' || halfWidth === undefined || halfWidth <= 0) return undefined;
  const high = placeOnScale(segments, si + halfWidth, kind);
  // Below the least value that can be read there is nothing to reach into.
  const low = placeOnScale(segments, si - halfWidth, kind) ?? { index: 0, along: 0 };
  return high && { low, high };
}

type EdgesProps = { readonly segment: Segment; readonly kind: QuantityKindName; readonly unit: string | undefined; readonly isTop: boolean };

function Edges({ segment, kind, unit, isTop }: EdgesProps) {
  const show = (si: number): string => showQuantity(si, kind, unit);
  if (segment.kind === 'open') return <span className="band-scale-word">OL</span>;
  if (segment.low === null && segment.high === null) return <span className="band-scale-word">else</span>;
  return (
    <span className="band-scale-edges" aria-hidden="true">
      {isTop && segment.high !== null && <span className="band-scale-edge band-scale-edge-high">{show(segment.high)}</span>}
      {segment.low !== null && <span className="band-scale-edge">{show(segment.low)}</span>}
    </span>
  );
}
