import { useEffect, useMemo, useState } from 'react';
import type { CrewPicture } from '../../engine/review/index.ts';
import type { Edition } from '../../engine/walk/index.ts';
import { HubTrouble } from '../crew/hub-trouble.tsx';
import { treeAddress, walksAddress } from '../desk-route.ts';
import { useTitle } from '../frame/use-title.ts';
import { GatheringProgress } from './crew/gathering-progress.tsx';
import { FlowGraph } from './flow/flow-graph.tsx';
import { EditionTable } from './picture/edition-table.tsx';
import { FindingTable } from './picture/finding-table.tsx';
import { LearntWeights } from './picture/learnt-weights-table.tsx';
import { pictureMarks } from './picture/picture-marks.ts';
import { StepTimes } from './picture/step-times.tsx';
import { useHubPicture, useLocalPicture } from './picture/use-picture.ts';
import { useLoaded } from './source/use-loaded.ts';
import { useWalkSources, type WalkSources } from './source/use-walk-sources.ts';
import type { WalkSource } from './source/walk-source.ts';
import { plainName, sourceProblemWords } from './walk-words.ts';
import './crew/crew-measures.css';
import './picture/picture.css';
import './replay/replay.css';
import './review/review.css';
import './walks.css';

/** Where walks of a tree go: as the crew's hub counts them, or those opened in this browser. */
export function PicturePage({ name }: { readonly name: string }) {
  useTitle('What walks show');
  const sources = useWalkSources();
  const [place, setPlace] = useState<'hub' | 'here'>();
  // What the editions that were walked call it: the tree need not be on this desk.
  const [titled, setTitled] = useState<Titled>();
  const from = place ?? (sources.hub ? 'hub' : 'here');
  const hub = useHubPicture(name, from === 'hub' && sources.hub !== undefined);
  const local = useLocalPicture(name, sources, from === 'here' && !sources.looking);
  const now = from === 'hub' ? hub : local;
  return (
    <div className="walks-page picture-page">
      <p className="walk-back">
        <a href={treeAddress(name)}>The tree</a>
        {' · '}
        <a href={`${walksAddress}?tree=${name}`}>Its walks</a>
      </p>
      <h1>What walks show of {titled?.name === name ? titled.title : plainName(name)}</h1>
      {sources.hub && (
        <label className="walk-drawn picture-from">
          Counted are{' '}
          <select value={from} onChange={(event) => setPlace(event.target.value === 'hub' ? 'hub' : 'here')}>
            <option value="hub">the crew’s calls</option>
            <option value="here">walks opened in this browser</option>
          </select>
        </label>
      )}
      {now.gathering && <GatheringProgress gathering={now.gathering} />}
      {now.problem && <HubTrouble {...sourceProblemWords(now.problem)} />}
      {now.state === 'loading' && <p className="walk-hint">Counting…</p>}
      {now.state === 'ready' && now.picture && (
        <PictureOf
          name={name}
          picture={now.picture}
          source={(from === 'hub' && sources.hub) || sources.here}
          find={sources.find}
          onTitle={setTitled}
        />
      )}
    </div>
  );
}

type Titled = { readonly name: string; readonly title: string };

type PictureOfProps = {
  readonly name: string;
  readonly picture: CrewPicture;
  readonly source: WalkSource;
  readonly find: WalkSources['find'];
  readonly onTitle: (titled: Titled) => void;
};

function PictureOf({ name, picture: { editions }, source, find, onTitle }: PictureOfProps) {
  const confirmed = useLoaded(source.confirmedFaults);
  const [asked, choose] = useState<string>();
  const chosen = editions.find(({ edition }) => edition === asked) ?? editions.at(-1);
  const hash = chosen?.edition;
  const [edition, setEdition] = useState<Edition>();
  const [treeAsked, setTree] = useState(name);
  const [step, setStep] = useState<string>();
  useEffect(() => {
    if (hash === undefined) return;
    let left = false;
    void find(hash).then((found) => !left && setEdition(found));
    return () => {
      left = true;
    };
  }, [find, hash]);
  const title = edition?.trees[name]?.title;
  useEffect(() => {
    if (title !== undefined) onTitle({ name, title });
  }, [name, title, onTitle]);
  const trees = [...new Set(chosen?.steps.map(({ tree }) => tree) ?? [])].filter((tree) => edition?.trees[tree]);
  const tree = edition?.trees[trees.includes(treeAsked) ? treeAsked : name];
  const marks = useMemo(() => tree && chosen && pictureMarks(tree, chosen, step), [tree, chosen, step]);
  if (!chosen)
    return (
      <section className="walks-empty">
        <h2>No call of this tree yet</h2>
        <p>
          Once techs have walked it, this page shows which ways they went, how long each step took, and which findings held. Drills are not counted.
          Walks from files are opened on <a href={walksAddress}>the list of walks</a>.
        </p>
      </section>
    );
  const titleOf = (at: { readonly tree: string; readonly step: string }): string =>
    edition?.trees[at.tree]?.steps.find(({ id }) => id === at.step)?.title ?? plainName(at.step);
  const benches = edition ? Object.keys(edition.benches) : [];
  return (
    <>
      <EditionTable editions={editions} chosen={chosen.edition} choose={choose} />
      <section className="picture-flow" aria-label="Where walks go">
        <h2>Where walks go, on edition {chosen.edition.slice(0, 12)}</h2>
        {trees.length > 1 && (
          <label className="walk-drawn">
            Tree{' '}
            <select value={tree?.name ?? name} onChange={(event) => setTree(event.target.value)}>
              {trees.map((one) => (
                <option key={one} value={one}>
                  {edition?.trees[one]?.title ?? one}
                </option>
              ))}
            </select>
          </label>
        )}
        <p className="walk-hint">A way is as wide as it was often taken; the number at its row says how often.</p>
        {!edition && <p className="walk-hint">The edition is not here, so its steps cannot be drawn; the tables below name them.</p>}
        {tree && marks && (
          <div className="walk-graph">
            <FlowGraph tree={tree} marks={marks} label={`Where walks go through ${tree.title}`} select={setStep} />
          </div>
        )}
      </section>
      <StepTimes
        steps={chosen.steps}
        titleOf={titleOf}
        shown={step}
        show={(id) => {
          setStep(id);
          const of = chosen.steps.find((one) => one.step === id)?.tree;
          if (of !== undefined) setTree(of);
        }}
      />
      <FindingTable findings={chosen.findings} titleOf={titleOf} />
      {confirmed.state === 'loading' && <p className="walk-hint">Asking which findings were confirmed, for the weights of faults…</p>}
      {confirmed.problem && <HubTrouble {...sourceProblemWords(confirmed.problem)} />}
      {confirmed.value && benches.map((bench) => <LearntWeights key={bench} name={bench} confirmed={confirmed.value ?? []} />)}
    </>
  );
}
