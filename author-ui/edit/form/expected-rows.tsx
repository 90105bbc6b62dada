import { type QuantityKindName, showQuantity } from '../../../engine/quantity/index.ts';
import type { ExpectedReading, MeterValue } from '../../try/expected-values.ts';
import { UNTOLD_WORDS } from '../../try/try-words.ts';
import { type ExpectedNow, useExpectedNow } from '../../try/use-expected.ts';
import { byWays, type ExpectedGroup, groupExpected, groupNames, nameOf, namesIn, notReached, onAnEdge } from './group-expected.ts';
import { type Axis, alongAxis } from './reading-scale.ts';

type ExpectedRowsProps = {
  readonly stepKey: string;
  readonly axis: Axis | undefined;
  readonly kind: QuantityKindName;
  /** Fixes the unit of the numbers; without it they step by thousands as a meter does. */
  readonly unit: string | undefined;
};

/** What the benches show on this step, drawn along the scale of its bands and told in a table. */
export function ExpectedRows({ stepKey, axis, kind, unit }: ExpectedRowsProps) {
  const expected = useExpectedNow();
  const here = expected.values?.steps[stepKey];
  const readings = here?.readings ?? [];
  const show = (value: MeterValue): string => (value === 'open' ? 'OL' : showQuantity(value, kind, unit));
  const groups = axis ? groupExpected(readings, axis) : [];
  const names = groupNames(groups);
  const close = onAnEdge(readings);
  return (
    <div className="expected" data-state={expected.state}>
      {axis && groups.length > 0 && (
        <div className="expected-rows" aria-hidden="true">
          {groups.map((group, at) => (
            <Row key={`${group.value} ${names[at]?.join(' ')}`} group={group} names={names[at] ?? []} axis={axis} show={show} />
          ))}
        </div>
      )}
      {expected.state !== 'errors' && close.length > 0 && <OnAnEdge close={close} show={show} />}
      <p className="expected-state" role="status">
        {stateWords(expected, readings.length)}
      </p>
      {expected.values && readings.length + (here?.untold.length ?? 0) > 0 && (
        <details className="expected-list">
          <summary>Bench values as a table</summary>
          <Table readings={readings} show={show} />
          {(here?.untold ?? []).map(({ bench, fault, why }) => (
            <p key={`${bench} ${fault}`}>
              {nameOf({ fault })} on {bench}: {UNTOLD_WORDS[why]}
            </p>
          ))}
          <p>Not reached: {notReachedWords(expected, stepKey)}.</p>
        </details>
      )}
    </div>
  );
}

function stateWords({ state }: ExpectedNow, count: number): string {
  switch (state) {
    case 'errors':
      return 'What the benches show waits until the errors are put right.';
    case 'failed':
      return 'What the benches show could not be worked out here. Reload the page to try again.';
    case 'walking':
      return 'Walking the benches…';
    case 'now':
      return count === 0 ? 'No walk on a bench comes to a reading here.' : 'Dot: a usual house. Line: every house and the meter’s accuracy.';
  }
}

function notReachedWords({ values }: ExpectedNow, stepKey: string): string {
  const names = values ? [...new Set(notReached(values, stepKey).map(nameOf))] : [];
  return names.length === 0 ? 'none' : names.join(', ');
}

type Show = (value: MeterValue) => string;

type RowProps = { readonly group: ExpectedGroup; readonly names: readonly string[]; readonly axis: Axis; readonly show: Show };

function Row({ group, names, axis, show }: RowProps) {
  const along = (value: MeterValue): number => (value === 'open' ? 100 : 100 * alongAxis(axis, value));
  const [low, at, high] = [along(group.low), along(group.value), along(group.high)];
  const isClose = onAnEdge(group.readings).length > 0;
  // The words stand on the side that has more room.
  const isRight = 100 - high > low;
  // A name that needs its bench beside it is long, and stands behind the others.
  const ordered = [...names.filter((name) => !name.endsWith(')')), ...names.filter((name) => name.endsWith(')'))];
  const most = ordered[1]?.endsWith(')') ? 1 : 2;
  const words = `${show(group.value)} ${ordered.slice(0, most).join(', ')}${ordered.length > most ? ` +${ordered.length - most}` : ''}`;
  return (
    <div className="expected-row" data-close={isClose || undefined} title={`${show(group.low)} to ${show(group.high)}: ${names.join(', ')}`}>
      <span className="expected-whisker" style={{ left: `${low}%`, width: `${high - low}%` }} />
      <span className="expected-dot" data-open={group.value === 'open' || undefined} style={{ left: `${at}%` }} />
      <span
        className="expected-words"
        style={
          isRight
            ? { left: `calc(${high}% + 0.6rem)`, maxWidth: `calc(${100 - high}% - 0.6rem)` }
            : { right: `calc(${100 - low}% + 0.6rem)`, maxWidth: `calc(${low}% - 0.6rem)` }
        }
      >
        {words}
      </span>
    </div>
  );
}

/** Readings that could land on either side of a band's edge, those of the same bands together. */
function OnAnEdge({ close, show }: { readonly close: readonly ExpectedReading[]; readonly show: Show }) {
  return (
    <ul className="expected-close">
      {byWays(close).map((group) => (
        <li key={group.readings[0]?.ways.join(' ')}>
          A band’s edge lies within what {shortList(namesIn(group))} may read, {show(group.low)} to {show(group.high)}: it can take{' '}
          {group.readings[0]?.ways.map((way) => `“${way}”`).join(' or ')}.
        </li>
      ))}
    </ul>
  );
}

const shortList = (names: readonly string[]): string =>
  names.length <= 4 ? names.join(', ') : `${names.slice(0, 3).join(', ')} and ${names.length - 3} more`;

function Table({ readings, show }: { readonly readings: readonly ExpectedReading[]; readonly show: Show }) {
  const size = ({ value }: ExpectedReading): number => (value === 'open' ? Number.POSITIVE_INFINITY : value);
  return (
    <table>
      <thead>
        <tr>
          <th scope="col">Fault</th>
          <th scope="col">Reads</th>
          <th scope="col">Band</th>
        </tr>
      </thead>
      <tbody>
        {[...readings]
          .sort((a, b) => size(a) - size(b) || 0)
          .map(({ bench, fault, shown, low, high, ways, asIn }) => (
            <tr key={`${bench} ${fault}`}>
              <th scope="row">
                {nameOf({ fault })}
                <span>
                  {bench}
                  {asIn !== undefined && `, as in the walk of ${asIn}: its own ends before`}
                </span>
              </th>
              <td>
                {shown}
                {low !== high && (
                  <span>
                    {show(low)} to {show(high)}
                  </span>
                )}
              </td>
              <td>{ways.join(' or ')}</td>
            </tr>
          ))}
      </tbody>
    </table>
  );
}
