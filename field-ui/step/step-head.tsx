import { proseText } from '../../shared/ui/prose-text.ts';
import { useArrival } from '../frame/use-arrival.ts';
import { useSession } from '../walk/use-session.ts';
import { useWalkControls } from '../walk/walk-controls.ts';
import { leadWords, taskWords } from '../words/task-words.ts';

const KIND_WORDS = { reading: 'Reading', look: 'Look', act: 'Do', ask: 'Tell', finding: 'Finding', handoff: 'Hand over' } as const;

/** The task in one line, and where the walk stands. */
export function StepHead({ kicker }: { readonly kicker?: string }) {
  const { view, walk } = useSession();
  const { step } = view;
  const heading = useArrival(`${walk.snapshot.context.at} ${view.phase} ${view.path.length}`);
  if (!step) return null;
  const minutes = step.minutes > 0 ? ` · about ${step.minutes} min` : '';
  const task = taskWords(step, view.facts);
  return (
    <div className="step-head">
      <p className="kicker">{kicker ?? `Step ${view.path.length} · ${KIND_WORDS[step.kind]}${minutes}`}</p>
      <h1 ref={heading} tabIndex={-1}>
        {step.title}
      </h1>
      <p className="step-task">
        {task}
        <ReadAloud text={[step.title, task, leadWords(step), proseText(step.prose)].filter((part) => part !== '').join('. ')} />
      </p>
    </div>
  );
}

/** A button that reads the step, after its cautions, to hands that are in a cabinet. */
function ReadAloud({ text }: { readonly text: string }) {
  const { view } = useSession();
  const { speech } = useWalkControls();
  if (!speech) return null;
  const cautions = view.cautions.filter(({ read }) => !read).map(({ caution }) => `${caution.signal}. ${proseText(caution.prose)}`);
  return (
    <button
      type="button"
      className="read-aloud"
      aria-pressed={speech.speaking}
      onClick={() => (speech.speaking ? speech.stop() : speech.say([...cautions, text].join(' ')))}
    >
      {speech.speaking ? 'Stop reading' : 'Read aloud'}
    </button>
  );
}
