import type { Step } from '../../engine/tree/index.ts';
import { CautionPlate } from '../../shared/ui/caution-plate.tsx';
import { ComputedNumbers } from '../../shared/ui/computed-numbers.tsx';
import { tryAddress } from '../desk-route.ts';
import { useDocument } from './document-context.ts';
import { DocumentProse } from './document-prose.tsx';
import { stepElementId } from './step-element.ts';
import type { WayIn } from './step-links.ts';
import { heldText, KIND_WORDS, minutesText, readingNotes, taskLines } from './step-task.ts';
import { WaysInto, WaysOn } from './step-ways.tsx';
import { usualComputed } from './usual-computed.ts';

type StepSectionProps = { readonly step: Step; readonly waysIn: readonly WayIn[]; readonly problems: number };

export function StepSection({ step, waysIn, problems }: StepSectionProps) {
  const { tree, facts, numbers } = useDocument();
  const number = numbers.get(step.id);
  const held = heldText(step);
  return (
    <section id={stepElementId(step.id)} className={`step step-${step.kind}`} tabIndex={-1} aria-labelledby={`title-${step.id}`}>
      <p className="step-kind">
        <span>{KIND_WORDS[step.kind]}</span>
        {step.minutes > 0 && <span>{minutesText(step.minutes)}</span>}
        {held !== undefined && <span>with {held}</span>}
        <a className="step-try" href={tryAddress(tree.name, step.id)}>
          Try from here<span className="unseen">: {step.title}</span>
        </a>
        {problems > 0 && (
          <button type="button" className="button-plain step-problems" onClick={toProblems}>
            {problems === 1 ? '1 problem' : `${problems} problems`}
          </button>
        )}
      </p>
      <h2 id={`title-${step.id}`}>
        <span className="step-number">{number}</span> {step.title}
      </h2>
      {step.cautions.length > 0 && (
        <div className="cautions">
          {step.cautions.map((caution, index) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: a step may have two cautions of one kind, and their order is theirs.
            <CautionPlate key={index} caution={caution} />
          ))}
        </div>
      )}
      <ul className="task">
        {taskLines(step, facts).map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
      {readingNotes(step).map((note) => (
        <p key={note} className="task-note">
          {note}
        </p>
      ))}
      <DocumentProse prose={step.prose} />
      <ComputedNumbers numbers={usualComputed(step, facts)} open />
      {step.photos.length > 0 && (
        <ul className="photos">
          {step.photos.map((ask) => (
            <li key={ask}>Photo: {ask}</li>
          ))}
        </ul>
      )}
      {step.kind === 'finding' && step.repair.length > 0 && (
        <div className="repair">
          <h3>Repair</h3>
          <DocumentProse prose={step.repair} />
        </div>
      )}
      <WaysOn step={step} />
      <WaysInto step={step} ways={waysIn} />
    </section>
  );
}

function toProblems(): void {
  document.getElementById('problems-title')?.scrollIntoView({ block: 'start' });
}
