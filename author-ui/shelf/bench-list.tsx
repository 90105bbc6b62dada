import { NewBench } from '../bench-page/new-bench.tsx';
import { benchTitle, type Shelf, type ShelfBench, titleOf } from '../data/read-shelf.ts';
import { benchAddress } from '../desk-route.ts';
import { benchPath } from '../store/desk-file.ts';
import { FileMenu, LocalState } from './file-menu.tsx';
import { ProblemsCell } from './problems-cell.tsx';

/** The benches, one a row, as the trees above them. */
export function BenchList({ shelf }: { readonly shelf: Shelf }) {
  if (shelf.benches.length === 0) {
    return (
      <section className="shelf-benches">
        <h2>Benches</h2>
        <p>There is no bench yet. A bench is the circuit that a tree is proved on.</p>
        <NewBench />
      </section>
    );
  }
  return (
    <section className="shelf-benches">
      <h2>Benches</h2>
      <table className="shelf-table">
        <thead>
          <tr>
            <th scope="col">Bench</th>
            <th scope="col" className="number">
              Parts
            </th>
            <th scope="col" className="number">
              Faults
            </th>
            <th scope="col">Problems</th>
            <th scope="col">
              <span className="unseen">Edit</span>
            </th>
          </tr>
        </thead>
        <tbody>
          {shelf.benches.map((shelved) => (
            <BenchRow key={shelved.name} shelf={shelf} shelved={shelved} />
          ))}
        </tbody>
      </table>
      <NewBench />
    </section>
  );
}

function BenchRow({ shelf, shelved }: { readonly shelf: Shelf; readonly shelved: ShelfBench }) {
  const { bench, name, problems, usedBy } = shelved;
  const trees = shelf.trees.filter((tree) => usedBy.includes(tree.name)).map(titleOf);
  return (
    <tr>
      <th scope="row">
        <a className="shelf-title" href={benchAddress(name)}>
          {benchTitle(shelved)}
        </a>
        <p>{trees.length === 0 ? 'No tree is checked against it.' : `Checked against it: ${trees.join(', ')}`}</p>
      </th>
      <td className="number" data-label="Parts">
        {bench ? Object.keys(bench.parts).length : '–'}
      </td>
      <td className="number" data-label="Faults">
        {bench ? Object.keys(bench.faults).length : '–'}
      </td>
      <td data-label="Problems">
        <ProblemsCell problems={problems} address={benchAddress(name)} />
        <LocalState path={benchPath(name)} />
      </td>
      <td>
        <FileMenu path={benchPath(name)} title={benchTitle(shelved)} />
      </td>
    </tr>
  );
}
