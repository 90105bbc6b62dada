import { ComputedNumbers } from '../../shared/ui/computed-numbers.tsx';
import { EntryPad } from '../pad/entry-pad.tsx';
import { StandingCautions } from '../step/cautions.tsx';
import { Choices } from '../step/choices.tsx';
import { LeadTags } from '../step/lead-tags.tsx';
import { StepHead } from '../step/step-head.tsx';
import { StepProse } from '../step/step-prose.tsx';
import { StepScale } from '../step/step-scale.tsx';
import { UnmetSettings } from '../step/unmet-settings.tsx';
import { useDraft } from '../step/use-draft.ts';
import { useSession } from '../walk/use-session.ts';
import { WalkPage } from '../walk/walk-page.tsx';
import { RitualSteps } from './ritual-steps.tsx';
import './ritual.css';
import '../step/step.css';

/** The complaint tried again, on the step that shows it. */
export function RecheckScreen() {
  const { view } = useSession();
  const [draft, setDraft] = useDraft();
  return (
    <WalkPage dock={view.unmet.length === 0 && <RecheckDock draft={draft} onDraft={setDraft} />}>
      <StandingCautions folded={false} />
      <RitualSteps now="recheck" />
      <StepHead kicker="Try the complaint again" />
      <LeadTags />
      <UnmetSettings />
      <StepScale draft={draft} />
      <ComputedNumbers numbers={view.computed} />
      <StepProse folded={view.step?.kind === 'reading'} />
    </WalkPage>
  );
}

function RecheckDock({ draft, onDraft }: { readonly draft: string; readonly onDraft: (text: string) => void }) {
  const { view, walk, answers, send } = useSession();
  const { step } = view;
  const passes = walk.edition.compiled.recheck?.passes;
  if (step?.kind === 'reading') {
    return (
      <EntryPad
        label="Reading"
        kind={step.takes}
        unit={step.unit}
        text={draft}
        onText={onDraft}
        onEnter={async (typed) => {
          if (await send({ type: 'rechecked', typed })) onDraft('');
        }}
      />
    );
  }
  return (
    <Choices
      label="What you find"
      choices={answers.map(({ on }) => ({ value: on, words: on, leadsTo: on === passes ? 'the complaint is gone' : 'the complaint is still there' }))}
      onChoose={(saw) => void send({ type: 'rechecked', saw })}
    />
  );
}
