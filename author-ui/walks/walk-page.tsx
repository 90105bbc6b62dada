import { useCallback, useEffect, useState } from 'react';
import type { Edition } from '../../engine/walk/index.ts';
import { HubAwayLine } from '../crew/hub-missing.tsx';
import { HubTrouble } from '../crew/hub-trouble.tsx';
import { useAgainWhenBack } from '../crew/use-again-when-back.ts';
import { walksAddress } from '../desk-route.ts';
import { Notice } from '../frame/notice.tsx';
import { useTitle } from '../frame/use-title.ts';
import { ExportMenu } from './export-menu.tsx';
import { WalkHead } from './replay/walk-head.tsx';
import { WalkReplayView } from './replay/walk-replay-view.tsx';
import { useLoaded } from './source/use-loaded.ts';
import { useQuery } from './source/use-query.ts';
import { useWalkSources } from './source/use-walk-sources.ts';
import type { WalkLog, WalkSource } from './source/walk-source.ts';
import { sourceProblemWords } from './walk-words.ts';
import './replay/replay.css';
import './review/review.css';
import './walks.css';

/** One call: replayed, measured, and its finding confirmed or not. `here=yes` in the address: one that was opened from a file. */
export function WalkPage({ walk }: { readonly walk: string }) {
  useTitle('Walk');
  const sources = useWalkSources();
  const here = new URLSearchParams(useQuery()).get('here') === 'yes';
  const source = here ? sources.here : sources.hub;
  if (!source && sources.looking) return <p className="loading">Looking for the crew’s hub…</p>;
  // Someone without the crew may have the same walk from a file.
  return <WalkOf key={source?.place ?? 'here'} walk={walk} source={source ?? sources.here} find={sources.find} />;
}

type WalkOfProps = { readonly walk: string; readonly source: WalkSource; readonly find: (hash: string) => Promise<Edition | undefined> };

function WalkOf({ walk, source, find }: WalkOfProps) {
  const loaded = useLoaded(useCallback(() => source.log(walk), [source, walk]));
  useAgainWhenBack(source.place === 'hub' && loaded.state === 'failed', loaded.again);
  if (loaded.problem && !loaded.value) {
    return (
      <div className="walks-page">
        <h1>Walk</h1>
        <HubTrouble {...sourceProblemWords(loaded.problem)} />
        <p className="walk-buttons">
          <button type="button" className="button" onClick={loaded.again}>
            Ask again
          </button>
          <a className="button button-quiet" href={walksAddress}>
            To the list of walks
          </a>
        </p>
      </div>
    );
  }
  if (!loaded.value) return <p className="loading">Fetching the walk…</p>;
  return <WithEdition log={loaded.value} source={source} find={find} again={loaded.again} />;
}

type WithEditionProps = { readonly log: WalkLog; readonly source: WalkSource; readonly find: WalkOfProps['find']; readonly again: () => void };

function WithEdition({ log, source, find, again }: WithEditionProps) {
  const { edition: hash } = log.summary;
  const [looked, setLooked] = useState<{ readonly hash: string; readonly edition: Edition | undefined }>();
  const known = looked?.hash === hash ? looked.edition : undefined;
  const isKnown = known !== undefined;
  useEffect(() => {
    // An edition is what its hash names: looked up by other ways it is the same one, and the walk need not be replayed again.
    if (isKnown) return;
    let left = false;
    void find(hash).then((edition) => !left && setLooked({ hash, edition }));
    return () => {
      left = true;
    };
  }, [find, hash, isKnown]);
  if (looked?.hash !== hash) return <p className="loading">Looking for the edition it was walked on…</p>;
  if (!known) {
    return (
      <Notice title="The edition of this walk is not here">
        <p>
          It was walked on edition <code>{hash.slice(0, 12)}</code>, and neither this desk nor the service has it. The log is safe, and can be
          replayed once the edition is here.
        </p>
        <p>Ask who published it for its .edition.json file, and open that file on the list of walks.</p>
        <a className="button" href={walksAddress}>
          To the list of walks
        </a>
      </Notice>
    );
  }
  return (
    <>
      {source.place === 'hub' && <HubAwayLine />}
      <div className="walks-page">
        <WalkHead summary={log.summary} place={source.place} />
        <WalkReplayView log={log} source={source} edition={known} again={again} />
        <ExportMenu walks={[{ edition: known, lines: log.lines, by: log.summary.by ?? log.summary.personName }]} />
      </div>
    </>
  );
}
