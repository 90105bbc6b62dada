import { useState } from 'react';
import { ComputedNumbers } from '../../shared/ui/computed-numbers.tsx';
import { BackToOrder } from '../suspects/back-to-order.tsx';
import { useSession } from '../walk/use-session.ts';
import { WalkPage } from '../walk/walk-page.tsx';
import { AnswerDock } from './answer-dock.tsx';
import { CautionsToRead, StandingCautions } from './cautions.tsx';
import { CouldNotButton } from './could-not-button.tsx';
import { LeadTags } from './lead-tags.tsx';
import { PhotoAsks } from './photo-asks.tsx';
import { RecheckFailed } from './recheck-failed.tsx';
import { StepHead } from './step-head.tsx';
import { StepLadder } from './step-ladder.tsx';
import { StepProse } from './step-prose.tsx';
import { StepScale } from './step-scale.tsx';
import { UnmetSettings } from './unmet-settings.tsx';
import { useDraft } from './use-draft.ts';
import { VerdictDock, VerdictWords } from './verdict.tsx';
import './step.css';

/** One step: its cautions first, then the work, then the verdict. */
export function StepScreen() {
  const { view } = useSession();
  return view.phase === 'cautions' ? <CautionsFirst /> : <StepWork />;
}

function CautionsFirst() {
  return (
    <WalkPage dock={<CouldNotButton />}>
      <RecheckFailed />
      <StepHead />
      <CautionsToRead />
      <BackToOrder />
    </WalkPage>
  );
}

function StepWork() {
  const { view, walk } = useSession();
  // Holds for one entry: any move of the walk shows its verdict again.
  const [againAt, setAgainAt] = useState(-1);
  const [draft, setDraft] = useDraft();
  const told = view.phase === 'verdict' && againAt !== walk.length;
  const held = view.unmet.length === 0;
  return (
    <WalkPage
      dock={
        told ? <VerdictDock onAgain={() => setAgainAt(walk.length)} /> : held ? <AnswerDock draft={draft} onDraft={setDraft} /> : <CouldNotButton />
      }
    >
      <StandingCautions folded={told} />
      <RecheckFailed />
      <StepHead />
      <LeadTags />
      {!told && <UnmetSettings />}
      {told && <VerdictWords />}
      <StepScale draft={told ? undefined : draft} />
      <StepLadder />
      <ComputedNumbers numbers={view.computed} />
      <StepProse folded={view.step?.kind === 'reading' || told} />
      <BackToOrder />
      <PhotoAsks />
    </WalkPage>
  );
}
