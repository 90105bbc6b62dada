import { useCallback, useEffect, useMemo, useState } from 'react';
import { type CrewPicture, crewPicture } from '../../../engine/review/index.ts';
import { useDeskHub } from '../../crew/desk-hub.tsx';
import { useAgainWhenBack } from '../../crew/use-again-when-back.ts';
import { type Gathering, useGathering } from '../crew/use-gathering.ts';
import { useLoaded } from '../source/use-loaded.ts';
import type { WalkSources } from '../source/use-walk-sources.ts';
import type { SourceProblem } from '../source/walk-source.ts';

export type PictureNow = {
  readonly state: 'loading' | 'ready' | 'failed';
  readonly picture?: CrewPicture;
  readonly problem?: SourceProblem;
  readonly gathering?: Gathering;
};

/** The picture of a tree as the crew's hub counts it. */
export function useHubPicture(tree: string, wanted: boolean): PictureNow {
  const { client } = useDeskHub();
  const ask = useCallback(() => client.picture(tree), [client, tree]);
  const { state, value, problem, again } = useLoaded(wanted ? ask : undefined);
  useAgainWhenBack(wanted && state === 'failed', again);
  return { state, ...(value && { picture: value }), ...(problem && { problem }) };
}

/** The picture of a tree from the walks that were opened in this browser. */
export function useLocalPicture(tree: string, sources: WalkSources, wanted: boolean): PictureNow {
  const gathering = useGathering(sources);
  const { start, stop } = gathering;
  const [begun, setBegun] = useState(false);
  useEffect(() => {
    if (!wanted) return;
    start({ tree }, [sources.here]);
    setBegun(true);
    return stop;
  }, [wanted, tree, sources.here, start, stop]);
  const { reviewed } = gathering.now;
  const picture = useMemo(() => {
    const walks = reviewed.map(({ review }) => {
      const minutes = review.measures.find(({ code }) => code === 'minutes');
      return { ...review, minutes: minutes && 'value' in minutes ? minutes.value : 0 };
    });
    const oldest = walks.sort((a, b) => ((a.opened ?? '') < (b.opened ?? '') ? -1 : 1));
    return crewPicture(tree, oldest);
  }, [tree, reviewed]);
  const isDone = begun && gathering.state !== 'running';
  return { state: isDone ? 'ready' : 'loading', picture, gathering };
}
