import { type ReactNode, type SubmitEvent, useState } from 'react';
import { type DrillTask, drawFault } from '../../engine/review/index.ts';
import { useCrew } from '../crew/use-crew.ts';
import { keptTechName } from '../device/tech-name.ts';
import { NoTrees } from '../editions/no-trees.tsx';
import { treesWords } from '../editions/trees-words.ts';
import { useEditions } from '../editions/use-editions.ts';
import { useField } from '../frame/field-context.ts';
import type { StoredEdition } from '../storage/field-db.ts';
import { newId } from '../walk/new-id.ts';
import { useBeginDrill } from './use-begin-drill.ts';

/** One in so many drills that are practised alone hides nothing: then 'nothing is wrong' is the answer. */
const SOUND_ONE_IN = 12;

const benchesOf = ({ edition }: StoredEdition): readonly string[] =>
  (edition.trees[edition.root]?.benches ?? []).filter((name) => Object.keys(edition.benches[name]?.faults ?? {}).length > 0);

/** Practising without anyone: a tree of this device, a fault drawn by how often it is met. */
export function PractiseForm() {
  const { editions } = useField();
  const standing = useCrew();
  const here = useEditions();
  const { trees } = here;
  const [hash, setHash] = useState<string>();
  const [order, setOrder] = useState<DrillTask['order']>('free');
  const [said, setSaid] = useState<string>();
  const drill = useBeginDrill(setSaid);
  if (trees.status !== 'ready') return null;
  const fit = trees.value.filter((tree) => benchesOf(tree).length > 0);
  const chosen = fit.find((tree) => tree.hash === hash) ?? fit[0];
  const practise = (event: SubmitEvent): void => {
    event.preventDefault();
    void drill.press(begin);
  };
  const begin = async (): Promise<void> => {
    const edition = chosen && (await editions.walkable(chosen.hash));
    if (!edition) {
      setSaid('This tree could not be read from the device. Choose another one.');
      return;
    }
    const benches = benchesOf(chosen);
    const bench = benches[Math.floor(Math.random() * benches.length)] ?? '';
    const circuit = edition.compiled.edition.benches[bench];
    const fault = circuit && Math.random() >= 1 / SOUND_ONE_IN ? drawFault(circuit, Math.random()) : undefined;
    const task: DrillTask = {
      id: newId('drill'),
      edition: chosen.hash,
      tree: edition.compiled.root.name,
      bench,
      facts: {},
      order,
      ...(fault && { fault }),
    };
    await drill.begin(edition, task, keptTechName());
  };
  if (!chosen) {
    return (
      <Practise>
        {trees.value.length > 0 ? (
          <p>No tree on this device has a circuit in which a fault can be hidden. On the desk, a tree gets one from its benches.</p>
        ) : (
          <>
            <p className="start-state">{treesWords(0, standing, here.refreshed, false)}</p>
            <NoTrees editions={here} />
          </>
        )}
      </Practise>
    );
  }
  return (
    <Practise>
      <form className="drill-practise" onSubmit={practise}>
        <label className="field">
          <span>Tree</span>
          <select value={chosen.hash} onChange={(event) => setHash(event.target.value)}>
            {fit.map((tree) => (
              <option key={tree.hash} value={tree.hash}>
                {tree.title}
              </option>
            ))}
          </select>
        </label>
        <label className="field">
          <span>Order</span>
          <select value={order} onChange={(event) => setOrder(event.target.value === 'tree' ? 'tree' : 'free')}>
            <option value="free">My own: I choose every move</option>
            <option value="tree">Along the tree: I put the leads where it says</option>
          </select>
        </label>
        <p className="section-note">A fault is hidden in the tree’s circuit, the frequent ones more often. Now and then nothing is wrong.</p>
        <button type="submit" className="button button-wide">
          Practise
        </button>
        <p role="status">{said}</p>
      </form>
    </Practise>
  );
}

function Practise({ children }: { readonly children: ReactNode }) {
  return (
    <section aria-labelledby="practise-title">
      <div className="start-section-head">
        <h2 id="practise-title">Practise alone</h2>
      </div>
      {children}
    </section>
  );
}
