import { useCallback, useMemo, useState } from 'react';
import type { Edition } from '../../../engine/walk/index.ts';
import { FlowGraph } from '../flow/flow-graph.tsx';
import { pathMarks } from '../flow/flow-marks.ts';
import { ConfirmFinding } from '../review/confirm-finding.tsx';
import { confirmationOf } from '../review/review-key.ts';
import { useReview, WalkMeasures } from '../review/walk-measures.tsx';
import type { WalkLog, WalkSource } from '../source/walk-source.ts';
import { CircuitView, type DrawnFault } from './circuit-view.tsx';
import { findingIn } from './finding-in.ts';
import { LineList } from './line-list.tsx';
import { LineSlider } from './line-slider.tsx';
import { ReadingThen } from './reading-then.tsx';
import { SuspectsThen } from './suspects-then.tsx';
import { TrustedPart } from './trusted-part.tsx';
import { useLine } from './use-line.ts';
import { useReplay } from './use-replay.ts';
import { photosOf, WalkPhotos } from './walk-photos.tsx';

type WalkReplayViewProps = { readonly log: WalkLog; readonly source: WalkSource; readonly edition: Edition; readonly again: () => void };

/** Lines that were fetched again and are the same are the same: they are not replayed anew. */
function useSameLines(lines: WalkLog['lines']): WalkLog['lines'] {
  const text = useMemo(() => JSON.stringify(lines), [lines]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the text stands for the lines.
  return useMemo(() => lines, [text]);
}

/** A call line by line: everything as it stood then, what the measures make of it, and whether its finding held. */
export function WalkReplayView({ log, source, edition, again }: WalkReplayViewProps) {
  const { summary, aside } = log;
  const lines = useSameLines(log.lines);
  const { walk } = summary;
  const { held, bench: heldBench, fault: heldFault } = summary.confirmation ?? {};
  const confirmation = useMemo(() => confirmationOf({ held, bench: heldBench, fault: heldFault }), [held, heldBench, heldFault]);
  const { line, goTo } = useLine(walk, source.place);
  const { replayed, suspects, failed, look } = useReplay(edition, lines, line);
  const review = useReview(walk, edition, summary.edition, lines, confirmation);
  const [drawn, draw] = useState<DrawnFault>('sound');
  const frames = replayed?.frames ?? [];
  const at = Math.min(line, Math.max(0, frames.length - 1));
  const frame = frames[at];
  const go = useCallback(
    (to: number) => {
      goTo(to);
      look(to);
    },
    [goTo, look],
  );
  const tree = frame && edition.trees[frame.tree];
  const marks = useMemo(() => tree && frame && pathMarks(tree, frame.path, frame.step?.id), [tree, frame]);
  const goToStep = (step: string): void => {
    const to = frames.findIndex((one) => one.tree === frame?.tree && one.step?.id === step);
    if (to >= 0) go(to);
  };
  if (failed !== undefined) return <p role="alert">The walk could not be replayed: {failed}. The log is not touched by that; load the page again.</p>;
  if (!replayed) return <p className="walk-hint walk-replaying">Replaying the log…</p>;
  const then = suspects.get(at);
  const finding = findingIn(frames, edition);
  const photos = photosOf(frames);
  return (
    <>
      <TrustedPart problems={replayed.problems} trusted={frames.length} lines={lines} aside={aside} />
      {frame && (
        <>
          <LineSlider frames={frames} at={at} go={go} />
          <div className="walk-then">
            <div className="walk-graph">
              {tree && marks && <FlowGraph tree={tree} marks={marks} label={`Path so far through ${tree.title}`} select={goToStep} />}
            </div>
            <div className="walk-beside">
              <ReadingThen frame={frame} />
              <SuspectsThen suspects={then} confirmed={confirmation?.fault} />
            </div>
            <CircuitView
              frame={frame}
              benches={edition.benches}
              likeliest={then?.faults[0]?.fault}
              confirmed={confirmation?.fault}
              drawn={drawn}
              draw={draw}
            />
            <LineList frames={frames} at={at} go={go} />
          </div>
          <WalkPhotos walk={walk} source={source} photos={photos} go={go} />
        </>
      )}
      <div className="walk-judged">
        <WalkMeasures now={review} go={go} />
        {finding && (
          <ConfirmFinding
            walk={walk}
            source={source}
            finding={finding}
            benches={edition.benches}
            bench={frames.at(-1)?.circuit?.bench}
            changed={again}
          />
        )}
      </div>
    </>
  );
}
