import { useMemo } from 'react';
import { failure, success } from '../../engine/result.ts';
import type { WalkEvent } from '../../engine/walk/index.ts';
import { StandInContext, type StandIns } from '../step/stand-ins.ts';
import { SessionContext } from '../walk/use-session.ts';
import { WalkScreen } from '../walk/walk-screen.tsx';
import { WalkSession } from '../walk/walk-session.ts';
import type { DrillSession } from './drill-session.ts';
import { DrillSight, TreeMeter } from './tree-meter.tsx';

const STAND_INS: StandIns = { Meter: TreeMeter, Sight: DrillSight };

/** A drill along the tree: the walk's own screens, with a simulated meter where the tech would hold a real one. */
export function TreeDrill({ session, reload }: { readonly session: DrillSession; readonly reload: () => void }) {
  const walk = useMemo(() => walkSessionOf(session), [session]);
  return (
    <SessionContext value={walk}>
      <StandInContext value={STAND_INS}>
        <WalkScreen reload={reload} />
      </StandInContext>
    </SessionContext>
  );
}

/** The walk of a drill: each of its events is a move of the drill, and is kept as such. */
function walkSessionOf(session: DrillSession): WalkSession {
  const { run } = session.state();
  return new WalkSession(run.ground.edition, run.walkLines, {
    stamp: session.stamp,
    store: {
      append: async (_walk, { event }) => {
        if (await session.send({ do: 'walk', event: bare(event) })) return success(undefined);
        const { trouble } = session.state();
        return failure(trouble?.kind === 'not-stored' ? trouble.problem : { code: 'not-available', detail: trouble?.refusal.code ?? 'busy' });
      },
    },
    refused: (event) => void session.send({ do: 'walk', event: bare(event) }),
  });
}

/** As the tech entered it; the drill's walk judges it anew. */
function bare(event: WalkEvent): WalkEvent {
  if (event.type !== 'read' && event.type !== 'rechecked') return event;
  const { judged: _, ...rest } = event;
  return rest;
}
