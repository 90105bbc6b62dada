import { useSession } from '../walk/use-session.ts';
import { SwitchList } from './switch-list.tsx';

/** Power and calls as they stand; a repair may need them otherwise, and the put-back list must know. */
export function SettingSwitches() {
  const { view, walk, send, writing } = useSession();
  const states = settingStates(walk.edition.compiled);
  const settings = Object.keys(view.settings).flatMap((setting): readonly (readonly [string, readonly string[]])[] => {
    const own = states.get(setting) ?? [];
    return own.length > 1 ? [[setting, own]] : [];
  });
  if (settings.length === 0) return null;
  return (
    <section aria-labelledby="switches-title">
      <h2 id="switches-title">Power and calls now</h2>
      <p className="section-note">If you switch one for the repair, say so here.</p>
      <SwitchList
        settings={settings}
        now={view.settings}
        disabled={writing}
        turn={(setting, state) => void send({ type: 'did', does: `turn ${setting} ${state}` })}
      />
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
