import { unitSign } from '../../engine/quantity/index.ts';
import type { ComputedNumber, FactState } from '../../engine/walk/index.ts';
import './computed-numbers.css';

type ComputedNumbersProps = {
  readonly numbers: readonly ComputedNumber[];
  /** Whether the formulas and their sources are shown at once, as on paper, and not folded. */
  readonly open?: boolean;
};

/** The computed numbers of a step: each with its value, then the facts they were computed from, their formulas and where these come from. */
export function ComputedNumbers({ numbers, open = false }: ComputedNumbersProps) {
  if (numbers.length === 0) return null;
  const given = [...new Map(numbers.flatMap((number) => number.given).map((fact) => [fact.name, fact])).values()];
  return (
    <section className="computed" aria-label="Computed for this house">
      <dl className="computed-values">
        {numbers.map(({ shows, text, why, by, given: own }) => (
          <div key={`${shows} ${by}`}>
            <dt>{shows}</dt>
            {text === undefined ? (
              <dd className="computed-why">No value. {why}</dd>
            ) : !open && isAllUsual(own) ? (
              <dd className="computed-value computed-usual">
                <small>if as usual</small> {text}
              </dd>
            ) : (
              <dd className="computed-value">{text}</dd>
            )}
          </div>
        ))}
      </dl>
      {open ? (
        <Given lead="At the usual facts: " facts={given} />
      ) : (
        <>
          <Given lead="With " facts={given.filter(({ source }) => source !== 'usual')} />
          <Given lead="Not told yet, so taken as usual: " facts={given.filter(({ source }) => source === 'usual')} />
        </>
      )}
      {open ? (
        <Workings numbers={numbers} />
      ) : (
        <details>
          <summary>Formula and source</summary>
          <Workings numbers={numbers} />
        </details>
      )}
    </section>
  );
}

// Nothing of this house is in such a number yet: it must not look measured.
const isAllUsual = (given: readonly FactState[]): boolean => given.length > 0 && given.every(({ source }) => source === 'usual');

// Squares and cubes as people write them; files have plain digits.
const shownText = (text: string): string =>
  unitSign(text).replace(/\b(ft|in|m)([23])\b/g, (_, unit: string, power: string) => unit + (power === '2' ? '²' : '³'));

function Given({ lead, facts }: { readonly lead: string; readonly facts: readonly FactState[] }) {
  if (facts.length === 0) return null;
  return (
    <p className="computed-given">
      {lead}
      {facts.map(({ name, text }, i) => (
        <span key={name}>
          {i > 0 && ', '}
          {name.replaceAll('-', ' ')} <b>{shownText(text)}</b>
        </span>
      ))}
      .
    </p>
  );
}

function Workings({ numbers }: Pick<ComputedNumbersProps, 'numbers'>) {
  const sources = [...new Set(numbers.flatMap((number) => number.sources))];
  return (
    <div className="computed-workings">
      {numbers.map(({ shows, by }) => (
        <p key={`${shows} ${by}`}>
          {numbers.length > 1 && `${shows}: `}
          <code>{by}</code>
        </p>
      ))}
      {sources.map((source) => (
        <p key={source}>Source: {source}.</p>
      ))}
    </div>
  );
}
