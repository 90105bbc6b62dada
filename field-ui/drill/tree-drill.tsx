import { useMemo } from 'react';
import { StandInContext, type StandIns } from '../step/stand-ins.ts';
import { SessionContext } from '../walk/use-session.ts';
import { WalkScreen } from '../walk/walk-screen.tsx';
import type { DrillSession } from './drill-session.ts';
import { DrillSight, TreeMeter } from './tree-meter.tsx';
import { walkOfDrill } from './walk-of-drill.ts';

const STAND_INS: StandIns = { Meter: TreeMeter, Sight: DrillSight };

/** A drill along the tree: the walk's own screens, with a simulated meter where the tech would hold a real one. */
export function TreeDrill({ session, reload }: { readonly session: DrillSession; readonly reload: () => void }) {
  const walk = useMemo(() => walkOfDrill(session), [session]);
  return (
    <SessionContext value={walk}>
      <StandInContext value={STAND_INS}>
        <WalkScreen reload={reload} />
      </StandInContext>
    </SessionContext>
  );
}
