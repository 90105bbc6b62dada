import { type PutBackItem, putBackItems, puttingBack } from '../../engine/walk/index.ts';
import { capital, plainWords } from '../../shared/ui/words/plain-words.ts';
import { Sheet } from '../frame/sheet.tsx';
import { SwitchList } from '../ritual/switch-list.tsx';
import { putBackWords } from '../words/put-back-words.ts';
import { DrillTrouble } from './drill-trouble.tsx';
import { useDrill } from './use-drill.ts';

/** What can be changed on the circuit, and what is to be put back. */
export function CircuitSheet({ onClose, onJumper }: { readonly onClose: () => void; readonly onJumper: () => void }) {
  const { run, send, writing } = useDrill();
  const { ground, circuit } = run;
  const items = putBackItems(circuit, ground.found.settings);
  return (
    <Sheet title="Change the circuit" onClose={onClose}>
      <DrillTrouble />
      {items.length > 0 && <PutBack items={items} />}
      <section aria-labelledby="settings-title" className="drill-sheet-part">
        <h2 id="settings-title">Power and calls now</h2>
        <SwitchList
          settings={Object.entries(ground.bench.settings)}
          now={circuit.settings}
          disabled={writing}
          turn={(setting, state) => void send({ do: 'turn', setting, state })}
        />
      </section>
      <section aria-labelledby="jumpers-title" className="drill-sheet-part">
        <h2 id="jumpers-title">Jumpers</h2>
        <button type="button" className="button button-line button-wide" onClick={onJumper}>
          Put a jumper on
        </button>
      </section>
      {ground.leads.length > 0 && (
        <section aria-labelledby="leads-title" className="drill-sheet-part">
          <h2 id="leads-title">Leads that can be lifted</h2>
          <ul className="switch-list">
            {ground.leads.map((lead) => {
              const lifted = circuit.lifted.includes(lead);
              return (
                <li key={lead}>
                  <span className="switch-name">{plainWords(lead)}</span>
                  <button
                    type="button"
                    className="button button-line"
                    disabled={writing}
                    onClick={() => void send({ do: lifted ? 'land' : 'lift', lead })}
                  >
                    {lifted ? 'Land it' : 'Lift it'}
                  </button>
                </li>
              );
            })}
          </ul>
        </section>
      )}
    </Sheet>
  );
}

function PutBack({ items }: { readonly items: readonly PutBackItem[] }) {
  const { send, writing } = useDrill();
  return (
    <section aria-labelledby="put-back-title" className="drill-sheet-part">
      <h2 id="put-back-title">To be put back</h2>
      <ol className="put-back-list">
        {items.map((item) => {
          const { now, todo } = putBackWords(item);
          return (
            <li key={item.key} className="drill-put-back">
              <strong>{capital(now)}</strong>
              <button type="button" className="button" disabled={writing} onClick={() => void send(puttingBack(item))}>
                {todo}
              </button>
            </li>
          );
        })}
      </ol>
    </section>
  );
}
