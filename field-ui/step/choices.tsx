import { useSession } from '../walk/use-session.ts';

export type Choice = { readonly value: string; readonly words: string; readonly leadsTo: string };

type ChoicesProps = { readonly label: string; readonly choices: readonly Choice[]; readonly onChoose: (value: string) => void };

/** Everything that can be found on a step, each as one large press with where it leads. */
export function Choices({ label, choices, onChoose }: ChoicesProps) {
  const { writing } = useSession();
  return (
    // biome-ignore lint/a11y/useSemanticElements: a fieldset is for a form that is sent; each of these is a press of its own.
    <div className="choices" role="group" aria-label={label}>
      {choices.map(({ value, words, leadsTo }) => (
        <button key={value} type="button" className="choice" disabled={writing} onClick={() => onChoose(value)}>
          <span className="choice-words">{words}</span>
          {leadsTo !== '' && (
            <span className="choice-leads">
              <span className="unseen">leads to </span>
              {leadsTo}
            </span>
          )}
        </button>
      ))}
    </div>
  );
}
