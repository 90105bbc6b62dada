import { useEffect, useRef } from 'react';
import { BandScale, type ScaleMark } from '../../shared/ui/band-scale.tsx';
import { shownValue, typedEcho } from '../pad/typed-echo.ts';
import { useSession } from '../walk/use-session.ts';

/** The scale of the open step. What is typed stands on it as a draft; without a draft, what was entered as the reading. */
export function StepScale({ draft }: { readonly draft: string | undefined }) {
  const { view, gauge } = useSession();
  const { scale } = view;
  const place = useRef<HTMLDivElement>(null);
  const typing = draft !== undefined && draft !== '';
  useEffect(() => {
    // On a small screen the scale may lie under the pad; who types wants to see where the number lands.
    if (typing) place.current?.scrollIntoView({ block: 'nearest' });
  }, [typing]);
  if (!scale || !gauge) return null;
  const { takes, unit } = gauge.step;

  const typedMark = (text: string): ScaleMark | undefined => {
    const echo = typedEcho(text, takes, unit);
    return echo.ok ? { si: echo.si, text: echo.shown, draft: true } : undefined;
  };
  const judged = view.verdict?.judged;
  const readMark: ScaleMark | undefined = judged && { si: judged.si, text: shownValue(judged), halfWidth: judged.halfWidth };
  return (
    <div ref={place} className="step-scale">
      <BandScale bands={scale.bands} kind={takes} unit={unit} mark={draft === undefined ? readMark : typedMark(draft)} />
    </div>
  );
}
