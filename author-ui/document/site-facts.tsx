import { quantityKind } from '../../engine/quantity/index.ts';
import { type FactSpec, handoffOf, isChoice } from '../../engine/tree/index.ts';
import { useDocument } from './document-context.ts';
import { StepLink } from './step-link.tsx';

const rangeText = (fact: FactSpec): string =>
  isChoice(fact) ? fact.choices.join(', ') : fact.from === fact.to ? fact.usual : `${fact.from} to ${fact.to}`;

const kindText = (fact: FactSpec): string => (isChoice(fact) ? 'Choice' : quantityKind(fact.quantity).label);

/** What the tree takes as given and what it is judged by: facts of the site, settings, the meter, the recheck. */
export function SiteFacts() {
  const document = useDocument();
  const { tree } = document;
  const facts = Object.entries(document.facts);
  const handoff = handoffOf(tree);
  const settings = Object.entries(tree.settings);
  return (
    <div className="givens">
      {facts.length > 0 && (
        <table className="facts">
          <caption>Facts of the site</caption>
          <thead>
            <tr>
              <th scope="col">Fact</th>
              <th scope="col">Asked as</th>
              <th scope="col">Usual</th>
              <th scope="col">Made for</th>
            </tr>
          </thead>
          <tbody>
            {facts.map(([name, fact]) => (
              <tr key={name}>
                <th scope="row">
                  <code>{name}</code>
                  <span className="fact-kind">{kindText(fact)}</span>
                </th>
                <td>{fact.ask}</td>
                <td className={isChoice(fact) ? undefined : 'value'} data-label="usual">
                  {fact.usual}
                </td>
                <td className={isChoice(fact) ? undefined : 'value'} data-label="made for">
                  {rangeText(fact)}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      <dl className="terms">
        {settings.map(([name, states]) => (
          <div key={name}>
            <dt>
              <code>{name}</code>
            </dt>
            <dd>{states.map((state, index) => (index === 0 ? `${state} as found` : state)).join(', ')}</dd>
          </div>
        ))}
        {tree.benches.length > 0 && (
          <div>
            <dt>{tree.benches.length === 1 ? 'Bench' : 'Benches'}</dt>
            <dd>{tree.benches.join(', ')}</dd>
          </div>
        )}
        <div>
          <dt>Meter accuracy</dt>
          <dd>{tree.meter}</dd>
        </div>
        {tree.recheck && (
          <div>
            <dt>Recheck</dt>
            <dd>
              <StepLink to={{ step: tree.recheck.step }} /> shows {tree.recheck.passes}
            </dd>
          </div>
        )}
        {handoff !== undefined && (
          <div>
            <dt>Cannot</dt>
            <dd>
              leads to <StepLink to={{ step: handoff }} />, where a step names no other way
            </dd>
          </div>
        )}
      </dl>
    </div>
  );
}
