import type { ReactNode } from 'react';
import type { Caution, CautionSubject, Signal } from '../../engine/tree/index.ts';
import { Prose } from './prose.tsx';
import './caution-plate.css';

/** What a caution is about, as people say it. */
export const CAUTION_WORDS: Readonly<Record<CautionSubject, string>> = {
  'line-voltage': 'line voltage',
  'control-circuit': 'control circuit',
  gas: 'gas',
  flame: 'flame',
  'hot-surface': 'hot surface',
  'moving-parts': 'moving parts',
  water: 'water',
  'combustion-products': 'combustion products',
  'sharp-edges': 'sharp edges',
  ladder: 'ladder',
  pressure: 'pressure',
  refrigerant: 'refrigerant',
};

type CautionPlateProps = {
  readonly caution: Caution;
  /** What the reader does about it, such as a button that says it is read. */
  readonly children?: ReactNode;
};

/** A safety notice with the signal word, color and alert symbol that ANSI Z535.4 and Z535.6 give it. */
export function CautionPlate({ caution, children }: CautionPlateProps) {
  return (
    <section className="caution-plate" data-signal={caution.signal} aria-label={cautionName(caution)}>
      <SignalPanel signal={caution.signal} about={caution.about} />
      <div className="caution-plate-message">
        <Prose prose={caution.prose} />
        {children}
      </div>
    </section>
  );
}

/** The same in one line, for a caution that has been read and still stands; opens to all of it. */
export function FoldedCaution({ caution }: { readonly caution: Caution }) {
  return (
    <details className="caution-plate caution-plate-folded" data-signal={caution.signal}>
      <summary>
        <SignalPanel signal={caution.signal} about={caution.about} />
      </summary>
      <div className="caution-plate-message">
        <Prose prose={caution.prose} />
      </div>
    </details>
  );
}

type CautionChipProps = { readonly signal: Signal; readonly count: number };

/** A signal word alone, small, for a row that stands for plates shown elsewhere; how many of them. */
export function CautionChip({ signal, count }: CautionChipProps) {
  return (
    <span className="caution-plate caution-plate-chip" data-signal={signal}>
      <span className="caution-plate-panel">
        {signal !== 'notice' && <AlertSymbol />}
        <span className="caution-plate-word">{signal}</span>
        {count > 1 && <span className="caution-plate-count">{count}</span>}
      </span>
    </span>
  );
}

export const cautionName = (caution: Caution): string =>
  `${caution.signal[0]?.toUpperCase()}${caution.signal.slice(1)}: ${CAUTION_WORDS[caution.about]}`;

function SignalPanel({ signal, about }: { readonly signal: Signal; readonly about: CautionSubject }) {
  return (
    <div className="caution-plate-panel">
      {signal !== 'notice' && <AlertSymbol />}
      <span className="caution-plate-word">{signal}</span>
      <span className="caution-plate-about">{CAUTION_WORDS[about]}</span>
    </div>
  );
}

// ANSI Z535: an exclamation mark in an equilateral triangle; a notice has none, since nobody is hurt by what it is about.
function AlertSymbol() {
  return (
    <svg className="caution-plate-alert" viewBox="0 0 24 22" aria-hidden="true">
      <path className="caution-plate-alert-field" d="M12 1.2 23.2 20.8H.8z" />
      <path className="caution-plate-alert-mark" d="M10.6 7h2.8l-.5 7.4h-1.8zM10.7 15.8h2.6v2.6h-2.6z" />
    </svg>
  );
}
