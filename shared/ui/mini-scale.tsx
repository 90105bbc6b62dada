import type { QuantityKindName } from '../../engine/quantity/index.ts';
import { type BandNumbers, placeOnScale, scaleSegments } from './scale-segments.ts';
import './mini-scale.css';

type MiniScaleProps = { readonly bands: readonly BandNumbers[]; readonly kind: QuantityKindName; readonly si: number | 'open' };

/** A reading's scale in one short line, least value at the start: which stretch it landed on, and where. Says nothing to a screen reader. */
export function MiniScale({ bands, kind, si }: MiniScaleProps) {
  const segments = scaleSegments(bands, kind);
  const place = placeOnScale(segments, si, kind);
  const count = segments.length;
  if (count === 0) return null;
  const step = 100 / count;
  return (
    <svg className="mini-scale" viewBox="0 0 100 12" preserveAspectRatio="none" aria-hidden="true">
      {segments.map((segment, index) => (
        <rect
          key={`${segment.band.on} ${segment.low}`}
          className={index === place?.index ? 'mini-scale-landed' : 'mini-scale-band'}
          x={index * step + 0.4}
          y="3"
          width={step - 0.8}
          height="6"
        />
      ))}
      {place && <rect className="mini-scale-needle" x={(place.index + place.along) * step - 0.9} y="0" width="1.8" height="12" />}
    </svg>
  );
}
