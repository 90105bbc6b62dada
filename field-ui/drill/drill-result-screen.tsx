import { useEffect, useMemo } from 'react';
import { scoreDrill } from '../../engine/review/index.ts';
import { DrillComparison } from '../../shared/ui/drill/drill-comparison.tsx';
import { useBestPath } from '../../shared/ui/drill/use-best-path.ts';
import { saveFile } from '../device/save-file.ts';
import { PageBack } from '../frame/page-back.tsx';
import { useArrival } from '../frame/use-arrival.ts';
import { drillFileName, drillFileText } from './drill-file.ts';
import { useDrill } from './use-drill.ts';

/** The end of a drill: the answer, and the path beside the best one. */
export function DrillResultScreen() {
  const { run } = useDrill();
  const { ground, record } = run;
  const { title } = ground.edition.compiled.root;
  const answer = useBestPath(ground.edition, ground.task);
  const heading = useArrival('drill result');
  const best = answer && 'best' in answer ? answer.best : undefined;
  const score = useMemo(() => best && scoreDrill(run, best), [run, best]);
  useEffect(() => {
    document.title = `Drill: ${title} · Ohmward`;
  }, [title]);
  return (
    <main className="page drill-result">
      <PageBack href="#/drills">All drills</PageBack>
      <div>
        <p className="kicker">Drill, {ground.bench.title}</p>
        <h1 ref={heading} tabIndex={-1}>
          {title}
        </h1>
      </div>
      {score ? (
        <DrillComparison bench={ground.bench} score={score} whose="Your way" />
      ) : (
        <p role="status" aria-busy={!answer}>
          {answer
            ? 'The best way could not be worked out here. The drill is stored; open it again later.'
            : 'Working out the best way to the same fault…'}
        </p>
      )}
      <button
        type="button"
        className="button button-line"
        onClick={() => saveFile(drillFileName(record.id), 'application/json', drillFileText(record))}
      >
        Save the drill as a file
      </button>
    </main>
  );
}
