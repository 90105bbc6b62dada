import { MiniScale } from '../../shared/ui/mini-scale.tsx';
import { editAddress } from '../desk-route.ts';
import type { TryState } from './try-state.ts';
import { trailWords } from './try-words.ts';

type TryTrailProps = { readonly state: TryState; readonly name: string; readonly shown: string; readonly select: (step: string) => void };

/** The steps so far, each with what was found; pressing one selects it on the page. */
export function TryTrail({ state, name, shown, select }: TryTrailProps) {
  return (
    <section className="try-trail" aria-labelledby="try-trail">
      <h3 id="try-trail">The way so far</h3>
      <ol>
        {state.path.map((entry, at) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: a walk may come to one step twice, and its order is its own.
          <li key={at} data-shown={(entry.tree === name && entry.step === shown) || undefined}>
            {entry.tree === name ? (
              <button type="button" className="button-plain" aria-pressed={entry.step === shown} onClick={() => select(entry.step)}>
                {entry.title}
              </button>
            ) : (
              <a href={editAddress(entry.tree, entry.step)}>{entry.title}</a>
            )}
            <span className="try-trail-found">
              {entry.judged && entry.takes && <MiniScale bands={entry.judged.bands} kind={entry.takes} si={entry.judged.si} />}
              {trailWords(entry)}
            </span>
          </li>
        ))}
      </ol>
    </section>
  );
}
