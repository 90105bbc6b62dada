import { useSession } from '../walk/use-session.ts';
import { plainWords } from '../words/plain-words.ts';

/** Power and calls as they stand; a repair may need them otherwise, and the put-back list must know. */
export function SettingSwitches() {
  const { view, walk, send, writing } = useSession();
  const states = settingStates(walk.edition.compiled);
  const settings = Object.entries(view.settings).filter(([setting]) => (states.get(setting)?.length ?? 0) > 1);
  if (settings.length === 0) return null;
  return (
    <section aria-labelledby="switches-title">
      <h2 id="switches-title">Power and calls now</h2>
      <p className="section-note">If you switch one for the repair, say so here.</p>
      <ul className="switch-list">
        {settings.map(([setting, now]) => (
          <li key={setting}>
            <span className="switch-name">{plainWords(setting)}</span>
            {/* biome-ignore lint/a11y/useSemanticElements: each is a press of its own, not a form that is sent. */}
            <span className="switch-states" role="group" aria-label={plainWords(setting)}>
              {states.get(setting)?.map((state) => (
                <button
                  key={state}
                  type="button"
                  className="switch-state"
                  aria-pressed={state === now}
                  disabled={writing}
                  onClick={() => {
                    if (state !== now) void send({ type: 'did', does: `turn ${setting} ${state}` });
                  }}
                >
                  {plainWords(state)}
                </button>
              ))}
            </span>
          </li>
        ))}
      </ul>
    </section>
  );
}

type Compiled = ReturnType<typeof useSession>['walk']['edition']['compiled'];

/** Every state of every setting that the trees and benches of an edition name, as found first. */
function settingStates({ edition }: Compiled): ReadonlyMap<string, readonly string[]> {
  const states = new Map<string, readonly string[]>();
  const benches = Object.values(edition.benches).map((bench) => (isRecord(bench) && isRecord(bench.settings) ? bench.settings : {}));
  for (const settings of [...Object.values(edition.trees).map((tree) => tree.settings), ...benches]) {
    for (const [setting, names] of Object.entries(settings)) {
      if (!states.has(setting) && Array.isArray(names))
        states.set(
          setting,
          names.filter((name) => typeof name === 'string'),
        );
    }
  }
  return states;
}

const isRecord = (value: unknown): value is Readonly<Record<string, unknown>> => typeof value === 'object' && value !== null;
