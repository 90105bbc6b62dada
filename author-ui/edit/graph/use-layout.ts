import { useEffect, useMemo, useRef, useState } from 'react';
import type { Slip } from './graph-model.ts';
import { shapeOf } from './graph-model.ts';
import { type GraphLayout, layOut } from './lay-out.ts';

export type LayoutNow = { readonly layout?: GraphLayout; readonly failed?: string };

/** The layout of the slips; the one before while a new one is computed. */
export function useLayout(slips: readonly Slip[]): LayoutNow {
  const [now, setNow] = useState<LayoutNow>({});
  const shape = useMemo(() => shapeOf(slips), [slips]);
  const latest = useRef(slips);
  latest.current = slips;
  // biome-ignore lint/correctness/useExhaustiveDependencies: a new layout only for a new shape.
  useEffect(() => {
    let isLatest = true;
    layOut(latest.current).then(
      (layout) => isLatest && setNow({ layout }),
      (error: unknown) => isLatest && setNow((before) => ({ ...before, failed: error instanceof Error ? error.message : String(error) })),
    );
    return () => {
      isLatest = false;
    };
  }, [shape]);
  return now;
}
