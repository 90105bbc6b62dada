import type { Step } from '../../engine/tree/index.ts';
import { usualNumbers } from './band-numbers.ts';
import { useDocument } from './document-context.ts';
import { StepLink } from './step-link.tsx';
import { type WayIn, waysOut } from './step-links.ts';

/** Where each outcome of a step leads. */
export function WaysOn({ step }: { readonly step: Step }) {
  const { facts } = useDocument();
  const ways = waysOut(step);
  if (ways.length === 0) return null;
  return (
    <table className="ways">
      <caption className="unseen">Ways on from {step.title}</caption>
      <thead className="unseen">
        <tr>
          <th scope="col">On</th>
          <th scope="col">Go to</th>
        </tr>
      </thead>
      <tbody>
        {ways.map(({ on, to }) => {
          const numbers = usualNumbers(on, step, facts);
          return (
            <tr key={on} className={on === 'cannot' ? 'way-cannot' : undefined}>
              <th scope="row">
                {on}
                {numbers !== undefined && <span className="way-numbers">usually {numbers}</span>}
              </th>
              <td>
                <StepLink to={to} />
              </td>
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}

/** From where, and on what, a walk comes to a step. The first step says that walks start there. */
export function WaysInto({ step, ways }: { readonly step: Step; readonly ways: readonly WayIn[] }) {
  const { tree } = useDocument();
  const starts = tree.steps[0]?.id === step.id;
  if (ways.length === 0) return starts ? <p className="ways-in">Walks start here.</p> : null;
  return (
    <p className="ways-in">
      {starts ? 'Walks start here. Also reached from ' : 'Reached from '}
      {ways.map(({ from, on }, index) => (
        <span key={`${from.id} ${on}`}>
          {index > 0 && '; '}
          <StepLink to={{ step: from.id }} /> on {on}
        </span>
      ))}
      .
    </p>
  );
}
