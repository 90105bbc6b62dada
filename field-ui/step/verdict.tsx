import { showIn, unitOf } from '../../engine/quantity/index.ts';
import type { Gauge, Judged } from '../../engine/walk/index.ts';
import { rangeWords } from '../../shared/ui/band-words.ts';
import { plainWords } from '../../shared/ui/words/plain-words.ts';
import { useArrival } from '../frame/use-arrival.ts';
import { shownValue } from '../pad/typed-echo.ts';
import { useSession } from '../walk/use-session.ts';

/** What an entry means, before the walk moves on. */
export function VerdictWords() {
  const { view, walk, gauge, lines } = useSession();
  const heading = useArrival(`verdict ${walk.length}`);
  const { verdict, step } = view;
  if (!verdict || !step) return null;
  const { judged } = verdict;
  const typed = lines.at(-1)?.event;
  const what = judged ? shownValue(judged) : typed?.type === 'told' ? typed.typed : plainWords(verdict.on);
  return (
    <section className="verdict" data-close={verdict.tooClose || undefined} aria-label="Verdict" role="status">
      <h2 ref={heading} tabIndex={-1} className={judged ? 'verdict-value' : 'verdict-words'}>
        {what}
      </h2>
      {verdict.tooClose && <TooClose />}
      <p className="verdict-leads">
        <span className="verdict-leads-word">{verdict.tooClose ? 'Taken as read, it leads to' : 'Leads to'}</span> {verdict.leadsTo}
      </p>
      {judged && gauge && <BandWords judged={judged} gauge={gauge} />}
    </section>
  );
}

function BandWords({ judged, gauge }: { readonly judged: Judged; readonly gauge: Gauge }) {
  if (judged.si === 'open') return <p className="verdict-band">Over-range: nothing conducts between the two points.</p>;
  const { takes, unit } = gauge.step;
  const band = judged.bands.find(({ on }) => on === judged.on);
  const inside = band && (band.low !== null || band.high !== null) ? rangeWords(band.low, band.high, takes, unit) : undefined;
  const shownIn = unitOf(judged.unit);
  // Sizes of intervals, not values: a unit with its own zero must not shift them.
  const size = (si: number): string => (shownIn ? unbroken(showIn(si, { ...shownIn, offset: 0 }, 2)) : '');
  return (
    <p className="verdict-band">
      {inside === undefined ? 'In none of the bands with numbers.' : `In the band ${unbroken(inside)}.`}
      {judged.margin !== null && ` ${size(judged.margin)} from its nearest edge; the meter is good to ±${size(judged.halfWidth)}.`}
    </p>
  );
}

/** Numbers stay in one line with their units. */
const unbroken = (text: string): string => text.replace(/(?<=\d) (?!to |and )/g, '\u00a0');

function TooClose() {
  const { view } = useSession();
  const reaches = view.verdict?.judged?.reaches ?? [];
  const others = [...new Set(reaches.flatMap((on) => view.scale?.bands.find((band) => band.on === on)?.leadsTo ?? []))];
  return (
    <p className="verdict-close">
      <strong>Too close to call.</strong> Within the meter’s accuracy it could also lead to {others.map((title) => `“${title}”`).join(' or ')}. Read
      again, if you can on a finer range.
    </p>
  );
}

export function VerdictDock({ onAgain }: { readonly onAgain: () => void }) {
  const { view, send, writing } = useSession();
  const tooClose = view.verdict?.tooClose === true;
  const isReading = view.step?.kind === 'reading';
  const goOn = (
    <button
      type="button"
      className={tooClose ? 'button button-line' : 'button button-main'}
      disabled={writing}
      onClick={() => void send({ type: 'went-on', ...(tooClose && { tooClose: true }) })}
    >
      {tooClose ? 'Go on all the same' : 'Go on'}
    </button>
  );
  const again = (
    <button type="button" className={tooClose ? 'button button-main' : 'button button-line'} disabled={writing} onClick={onAgain}>
      {isReading ? 'Read again' : 'Change it'}
    </button>
  );
  return (
    <div className="dock-row">
      {tooClose ? goOn : again}
      {tooClose ? again : goOn}
    </div>
  );
}
