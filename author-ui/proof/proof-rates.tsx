import type { ProofReport } from './proof-report.ts';

const percent = (share: number): string => `${Math.round(1000 * share) / 10} %`;
const minutes = (value: number): string => `${(Math.round(10 * value) / 10).toFixed(1)} min`;

/** The figures of a proof, each with what it says. */
export function ProofRates({ report }: { readonly report: ProofReport }) {
  const { rates, healthy, safety, faults, cut } = report;
  if (Object.keys(report.minutesByBench).length === 0) {
    return (
      <section className="proof-state">
        <h2>No bench to prove it on</h2>
        <p>
          The tree names no bench, so what it finds and misses cannot be told. Its paths were searched:{' '}
          {safety.length === 0 ? 'nothing that its own text shows to be unsafe.' : `${safety.length} safety findings, below.`} Give it a bench to
          prove it.
        </p>
      </section>
    );
  }
  const right = faults.filter((fault) => fault.right).length;
  const unsound = healthy.filter((row) => !row.right);
  const figures: readonly (readonly [name: string, value: string, about: string])[] = [
    ['Detected', percent(rates.detected), 'of the faults met, by weight, it sees that something is wrong'],
    ['To one fault', percent(rates.isolated1), 'of those detected, it names that fault alone'],
    ['To two', percent(rates.isolated2), 'or with one other'],
    ['To three', percent(rates.isolated3), 'or with two others'],
    ['Expected time', minutes(report.expectedMinutes), 'to the finding, over the weights, benches counted alike'],
    [
      'Sound circuit',
      unsound.length === 0 ? 'found sound' : 'NOT found sound',
      unsound.length === 0 ? 'on every bench' : `on ${unsound.map(({ bench }) => bench).join(', ')}`,
    ],
    [
      'Safety',
      safety.length === 0 ? (cut ? 'not proved' : 'nothing found') : `${safety.length} found`,
      cut ? 'there are more paths than were searched' : 'on every path',
    ],
  ];
  return (
    <section className="proof-rates" aria-label="Figures">
      <p className="proof-verdict">
        {right === faults.length && unsound.length === 0
          ? `All ${faults.length} faults end on a finding that names them, in every house and at both ends of the meter's accuracy.`
          : `${right} of ${faults.length} faults always end on a finding that names them.`}
      </p>
      <dl>
        {figures.map(([name, value, about]) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd>
              <strong>{value}</strong> <span>{about}</span>
            </dd>
          </div>
        ))}
      </dl>
    </section>
  );
}
