import { plainWords } from '../../shared/ui/words/plain-words.ts';

type SwitchListProps = {
  /** Settings with their states, in order. */
  readonly settings: readonly (readonly [setting: string, states: readonly string[]])[];
  readonly now: Readonly<Record<string, string>>;
  readonly disabled: boolean;
  /** A state was pressed that does not hold yet. */
  readonly turn: (setting: string, state: string) => void;
};

/** Settings as they stand, each state a press of its own. */
export function SwitchList({ settings, now, disabled, turn }: SwitchListProps) {
  return (
    <ul className="switch-list">
      {settings.map(([setting, states]) => (
        <li key={setting}>
          <span className="switch-name">{plainWords(setting)}</span>
          {/* biome-ignore lint/a11y/useSemanticElements: each is a press of its own, not a form that is sent. */}
          <span className="switch-states" role="group" aria-label={plainWords(setting)}>
            {states.map((state) => (
              <button
                key={state}
                type="button"
                className="switch-state"
                aria-pressed={now[setting] === state}
                disabled={disabled}
                onClick={() => {
                  if (now[setting] !== state) turn(setting, state);
                }}
              >
                {plainWords(state)}
              </button>
            ))}
          </span>
        </li>
      ))}
    </ul>
  );
}
