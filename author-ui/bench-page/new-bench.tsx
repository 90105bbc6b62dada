import { useState } from 'react';
import { stepId } from '../../engine/tree/index.ts';
import { benchAddress } from '../desk-route.ts';
import { benchPath } from '../store/desk-file.ts';
import { useDeskStore } from '../store/use-desk-store.ts';
import { blankBench } from './blank-bench.ts';

/** Asks for a title and opens a new bench of that name. */
export function NewBench() {
  const store = useDeskStore();
  const [title, setTitle] = useState<string>();
  const [wrong, setWrong] = useState<string>();
  if (title === undefined) {
    return (
      <button type="button" className="button button-quiet" onClick={() => setTitle('')}>
        New bench
      </button>
    );
  }
  const make = (): void => {
    const name = stepId(title).slice(0, 60).replace(/-+$/, '');
    if (name === '') {
      setWrong('Give it a title with letters in it, such as “Zone valve fed by its thermostat”.');
      return;
    }
    if (store.files().has(benchPath(name))) {
      setWrong(`There is a bench ${name} already. Give this one another title.`);
      return;
    }
    store.write(benchPath(name), blankBench(title.trim()), `new bench ${name}`);
    location.hash = benchAddress(name);
  };
  return (
    <form
      className="new-bench"
      onSubmit={(event) => {
        event.preventDefault();
        make();
      }}
      onKeyDown={(event) => event.key === 'Escape' && setTitle(undefined)}
    >
      <label>
        Title of the new bench {/* biome-ignore lint/a11y/noAutofocus: the form opens by a press of its own button. */}
        <input value={title} maxLength={200} autoComplete="off" autoFocus onChange={(event) => setTitle(event.target.value)} />
      </label>{' '}
      <button type="submit" className="button">
        Make it
      </button>{' '}
      <button type="button" className="button button-quiet" onClick={() => setTitle(undefined)}>
        Cancel
      </button>
      {wrong !== undefined && <p role="alert">{wrong}</p>}
    </form>
  );
}
