import { failure, success } from '../../engine/result.ts';
import type { WalkEvent } from '../../engine/walk/index.ts';
import { WalkSession } from '../walk/walk-session.ts';
import { whenWritten } from '../walk/when-written.ts';
import type { DrillSession } from './drill-session.ts';

/** The walk of a drill: each of its events is a move of the drill, and is kept as such. */
export function walkOfDrill(session: DrillSession): WalkSession {
  const { run } = session.state();
  const move = async (event: WalkEvent): Promise<boolean> => {
    // The meter's own readings are moves too: one that is still being written is no reason to refuse a press beside it.
    while (session.state().writing) await whenWritten(session);
    return session.send({ do: 'walk', event: bare(event) });
  };
  return new WalkSession(run.ground.edition, run.walkLines, {
    stamp: session.stamp,
    store: {
      append: async (_walk, { event }) => {
        if (await move(event)) return success(undefined);
        const { trouble } = session.state();
        return failure(trouble?.kind === 'not-stored' ? trouble.problem : { code: 'not-available', detail: trouble?.refusal.code ?? 'busy' });
      },
    },
    refused: (event) => void move(event),
  });
}

/** As the tech entered it; the drill's walk judges it anew. */
function bare(event: WalkEvent): WalkEvent {
  if (event.type !== 'read' && event.type !== 'rechecked') return event;
  const { judged: _, ...rest } = event;
  return rest;
}
