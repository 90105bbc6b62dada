import { useMemo } from 'react';
import { type DrillRecord, recordProblemWords, replayDrill, scoreDrill } from '../../engine/review/index.ts';
import type { WalkableEdition } from '../../engine/walk/index.ts';
import { DrillComparison } from '../../shared/ui/drill/drill-comparison.tsx';
import { useBestPath } from '../../shared/ui/drill/use-best-path.ts';
import { useDeskHub } from '../crew/desk-hub.tsx';
import { drillsAddress } from '../desk-route.ts';
import { useLoadedEdition } from './use-drill-editions.ts';

type DrillResultProps = {
  readonly record: DrillRecord;
  readonly who: string | undefined;
  /** Goes back to the list, where the result came from a file. */
  readonly onClose?: () => void;
};

/** One drill as it was done, beside the best way. */
export function DrillResult({ record, who, onClose }: DrillResultProps) {
  const hub = useDeskHub();
  const loaded = useLoadedEdition(record.task.edition, hub);
  return (
    <article className="crew-page drill-result">
      <p>
        {onClose ? (
          <button type="button" className="button-plain" onClick={onClose}>
            All drills
          </button>
        ) : (
          <a href={drillsAddress}>All drills</a>
        )}
      </p>
      {loaded.state === 'there' ? (
        <Compared edition={loaded.edition} record={record} who={who ?? record.by ?? 'The tech'} />
      ) : (
        <>
          <h1>Drill</h1>
          <p role="status">
            {loaded.state === 'missing'
              ? 'The edition that this drill was done on is not here. Open it where the crew’s hub is, or where the tree was published.'
              : 'Reading the tree…'}
          </p>
        </>
      )}
    </article>
  );
}

function Compared({ edition, record, who }: { readonly edition: WalkableEdition; readonly record: DrillRecord; readonly who: string }) {
  const replayed = useMemo(() => replayDrill(edition, record), [edition, record]);
  const answer = useBestPath(edition, record.task);
  const best = answer && 'best' in answer ? answer.best : undefined;
  const score = useMemo(() => (best && replayed.ok ? scoreDrill(replayed.value.run, best) : undefined), [best, replayed]);
  const problem = replayed.ok ? replayed.value.problem : replayed.problem;
  const words = problem && recordProblemWords(problem);
  return (
    <>
      <h1>
        {edition.compiled.root.title}: {who}
      </h1>
      {replayed.ok && <p className="crew-hint">{replayed.value.run.ground.bench.title}</p>}
      {words && (
        <p className="drill-wrong" role="alert">
          {words.message} {words.fix}
        </p>
      )}
      {replayed.ok && score ? (
        <DrillComparison bench={replayed.value.run.ground.bench} score={score} whose={who} />
      ) : (
        replayed.ok && (
          <p role="status">
            {answer ? 'The best way could not be worked out. The drill is as it was; open it again.' : 'Working out the best way to the same fault…'}
          </p>
        )
      )}
    </>
  );
}
