import { useId } from 'react';
import { percentWords, plainName } from '../walk-words.ts';
import type { FrameSuspects } from './replay-frame.ts';

const MOST = 6;

type SuspectsThenProps = { readonly suspects: FrameSuspects | undefined; readonly confirmed: string | undefined };

/** What the readings had left possible at that moment. */
export function SuspectsThen({ suspects, confirmed }: SuspectsThenProps) {
  const title = useId();
  return (
    <section className="walk-suspects" aria-labelledby={title} aria-busy={!suspects}>
      <h2 id={title}>Suspects then</h2>
      {suspects ? <SuspectRows suspects={suspects} confirmed={confirmed} /> : <p className="walk-hint">Being worked out…</p>}
    </section>
  );
}

function SuspectRows({ suspects, confirmed }: { readonly suspects: FrameSuspects; readonly confirmed: string | undefined }) {
  const shown = suspects.faults.slice(0, MOST);
  const isHidden = confirmed !== undefined && !shown.some(({ fault }) => fault === confirmed);
  const rest = suspects.faults.filter(({ fault }, at) => at >= MOST && !(isHidden && fault === confirmed));
  const rows = [...shown, ...(isHidden ? suspects.faults.filter(({ fault }) => fault === confirmed) : [])].map(({ fault, says, probability }) => ({
    key: fault,
    words: says ?? plainName(fault),
    probability,
    isIt: fault === confirmed,
  }));
  const others = [
    { key: ' rest', words: `${rest.length} others together`, probability: rest.reduce((sum, { probability }) => sum + probability, 0), isIt: false },
    { key: ' nothing', words: 'nothing wrong when tried', probability: suspects.nothingWrong, isIt: false },
    { key: ' unknown', words: 'something the bench does not know', probability: suspects.unknown, isIt: false },
  ].filter(({ key }) => key !== ' rest' || rest.length > 0);
  return (
    <ol className="walk-shares">
      {[...rows, ...others].map(({ key, words, probability, isIt }) => (
        <li key={key} data-it={isIt || undefined}>
          <span className="walk-share-words">
            {words}
            {isIt && <strong> what it was</strong>}
          </span>
          <span className="walk-share-bar" aria-hidden="true">
            <span style={{ inlineSize: `${probability * 100}%` }} />
          </span>
          <span className="walk-number">{percentWords(probability)}</span>
        </li>
      ))}
    </ol>
  );
}
