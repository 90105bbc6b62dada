import { useCallback, useEffect, useState } from 'react';
import { CallOpening } from '../call/call-opening.tsx';
import { useSpeech } from '../device/use-speech.ts';
import { useWakeLock } from '../device/use-wake-lock.ts';
import { vibrate } from '../device/vibrate.ts';
import { ClosingScreen } from '../ritual/closing-screen.tsx';
import { FindingScreen } from '../ritual/finding-screen.tsx';
import { HandoffScreen } from '../ritual/handoff-screen.tsx';
import { PutBackScreen } from '../ritual/put-back-screen.tsx';
import { RecheckScreen } from '../ritual/recheck-screen.tsx';
import { RepairScreen } from '../ritual/repair-screen.tsx';
import { CannotSheet } from '../sheets/cannot-sheet.tsx';
import { CautionsSheet } from '../sheets/cautions-sheet.tsx';
import { FactsSheet } from '../sheets/facts-sheet.tsx';
import { MoreSheet } from '../sheets/more-sheet.tsx';
import { NoteSheet } from '../sheets/note-sheet.tsx';
import { PathSheet } from '../sheets/path-sheet.tsx';
import { PhotoSheet } from '../sheets/photo-sheet.tsx';
import { PutBackSheet } from '../sheets/put-back-sheet.tsx';
import { StepScreen } from '../step/step-screen.tsx';
import { SuspectsSheet } from '../suspects/suspects-sheet.tsx';
import { SuspectsContext, useSuspectsAside } from '../suspects/use-suspects.ts';
import { PausedScreen } from './paused-screen.tsx';
import { useSession } from './use-session.ts';
import { WalkBar } from './walk-bar.tsx';
import { type SheetName, WalkControls } from './walk-controls.ts';
import { useWalkNotices, WalkNoticesContext } from './walk-notices.tsx';
import './walk.css';

/** A walk in work: the bar that is always there, the screen of where it stands, and whichever sheet is open over it. */
export function WalkScreen({ reload }: { readonly reload: () => void }) {
  const { view, walk } = useSession();
  const [sheet, setSheet] = useState<SheetName>();
  const close = useCallback(() => setSheet(undefined), []);
  const speech = useSpeech();
  const suspects = useSuspectsAside();
  const notices = useWalkNotices();
  useWakeLock();
  const stop = speech?.stop;
  const step = `${walk.snapshot.context.at} ${view.path.length}`;
  // biome-ignore lint/correctness/useExhaustiveDependencies: what is read aloud is of the step; the next one must not be worked by it.
  useEffect(() => () => stop?.(), [stop, step]);
  useEffect(() => {
    document.title = `${view.step?.title ?? view.tree.title} · Ohmward`;
    if (view.phase === 'verdict') vibrate(view.verdict?.tooClose ? [60, 80, 60] : 60);
  }, [view]);
  return (
    <WalkControls value={{ openSheet: setSheet, reload, speech }}>
      <SuspectsContext value={suspects}>
        <div className="walk">
          <WalkBar />
          <WalkNoticesContext value={notices}>{view.paused ? <PausedScreen /> : <PhaseScreen />}</WalkNoticesContext>
        </div>
        {sheet && <OpenSheet sheet={sheet} onClose={close} />}
      </SuspectsContext>
    </WalkControls>
  );
}

function PhaseScreen() {
  const { view } = useSession();
  switch (view.phase) {
    case 'opening':
      return <CallOpening />;
    case 'finding':
      return <FindingScreen />;
    case 'repair':
      return <RepairScreen />;
    case 'put-back':
      return <PutBackScreen />;
    case 'recheck':
      return <RecheckScreen />;
    case 'handoff':
      return <HandoffScreen />;
    case 'closing':
    case 'closed':
      return <ClosingScreen />;
    default:
      return <StepScreen />;
  }
}

function OpenSheet({ sheet, onClose }: { readonly sheet: SheetName; readonly onClose: () => void }) {
  switch (sheet) {
    case 'path':
      return <PathSheet onClose={onClose} />;
    case 'suspects':
      return <SuspectsSheet onClose={onClose} />;
    case 'put-back':
      return <PutBackSheet onClose={onClose} />;
    case 'more':
      return <MoreSheet onClose={onClose} />;
    case 'facts':
      return <FactsSheet onClose={onClose} />;
    case 'note':
      return <NoteSheet onClose={onClose} />;
    case 'photo':
      return <PhotoSheet onClose={onClose} />;
    case 'cannot':
      return <CannotSheet onClose={onClose} />;
    case 'cautions':
      return <CautionsSheet onClose={onClose} />;
  }
}
