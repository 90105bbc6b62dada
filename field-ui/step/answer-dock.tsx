import { isChoice } from '../../engine/tree/index.ts';
import { factUnit } from '../../engine/walk/index.ts';
import { plainWords } from '../../shared/ui/words/plain-words.ts';
import { EntryPad } from '../pad/entry-pad.tsx';
import { useSession } from '../walk/use-session.ts';
import { Choices } from './choices.tsx';
import { CouldNotButton } from './could-not-button.tsx';
import { useStandIns } from './stand-ins.ts';

type AnswerDockProps = { readonly draft: string; readonly onDraft: (text: string) => void };

/** What the open step is answered with: a pad, choices, or done. */
export function AnswerDock({ draft, onDraft }: AnswerDockProps) {
  const { view, gauge, answers, send, writing } = useSession();
  const { step } = view;
  const { Meter, Sight } = useStandIns();
  switch (step?.kind) {
    case 'reading':
      if (!gauge) return <CouldNotButton />;
      if (Meter) return <Meter step={step} />;
      return (
        <EntryPad
          label="Reading"
          kind={step.takes}
          unit={step.unit}
          text={draft}
          onText={onDraft}
          onEnter={async (typed) => {
            if (await send({ type: 'read', typed })) onDraft('');
          }}
        />
      );
    case 'look':
      return (
        <>
          {Sight && <Sight step={step} />}
          <Choices
            label="What you find"
            choices={answers.map(({ on, leadsTo }) => ({ value: on, words: on, leadsTo }))}
            onChoose={(saw) => void send({ type: 'looked', saw })}
          />
          <CouldNotButton />
        </>
      );
    case 'act':
      return (
        <div className="dock-row">
          <CouldNotButton words="Cannot" />
          <button type="button" className="button button-main" disabled={writing} onClick={() => void send({ type: 'did' })}>
            Done
          </button>
        </div>
      );
    case 'ask': {
      const fact = view.facts.find(({ name }) => name === step.fact);
      if (!fact) return <CouldNotButton />;
      if (isChoice(fact.spec)) {
        const leadsTo = (choice: string): string => answers.find(({ on }) => on === choice || on === 'known')?.leadsTo ?? '';
        return (
          <>
            <Choices
              label={fact.spec.ask}
              choices={fact.spec.choices.map((choice) => ({ value: choice, words: plainWords(choice), leadsTo: leadsTo(choice) }))}
              onChoose={(typed) => void send({ type: 'told', fact: step.fact, typed })}
            />
            <CouldNotButton />
          </>
        );
      }
      return (
        <EntryPad
          label={fact.spec.ask}
          kind={fact.spec.quantity}
          unit={gauge?.step.unit ?? factUnit(fact.spec)}
          told
          text={draft}
          onText={onDraft}
          onEnter={async (typed) => {
            if (await send({ type: 'told', fact: step.fact, typed })) onDraft('');
          }}
        />
      );
    }
    default:
      return null;
  }
}
