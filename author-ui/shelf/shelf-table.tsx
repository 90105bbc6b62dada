import { complaintOf, type ShelfTree, titleOf } from '../data/read-shelf.ts';
import { editAddress, treeAddress, walkAddress } from '../desk-route.ts';
import { treePath } from '../store/desk-file.ts';
import { FileMenu, LocalState } from './file-menu.tsx';
import { ProblemsCell } from './problems-cell.tsx';
import { shelfState } from './shelf-state.ts';

/** The trees, one a row. On a narrow window each row folds into a block; the column heads then stay for screen readers. */
export function ShelfTable({ trees }: { readonly trees: readonly ShelfTree[] }) {
  return (
    <table className="shelf-table">
      <thead>
        <tr>
          <th scope="col">Tree</th>
          <th scope="col" className="number">
            Steps
          </th>
          <th scope="col" className="number">
            Findings
          </th>
          <th scope="col">Problems</th>
          <th scope="col">Published</th>
          <th scope="col">
            <span className="unseen">Walk and edit</span>
          </th>
        </tr>
      </thead>
      <tbody>
        {trees.map((shelved) => (
          <ShelfRow key={shelved.name} shelved={shelved} />
        ))}
      </tbody>
    </table>
  );
}

function ShelfRow({ shelved }: { readonly shelved: ShelfTree }) {
  const { tree } = shelved;
  const { edition } = shelfState(shelved);
  const address = treeAddress(shelved.name);
  const findings = tree?.steps.filter((step) => step.kind === 'finding' && step.faults.length > 0).length;
  return (
    <tr>
      <th scope="row">
        <a className="shelf-title" href={address}>
          {titleOf(shelved)}
        </a>
        <p>{complaintOf(shelved) ?? 'The file cannot be read as a tree yet; its problems say why.'}</p>
      </th>
      <td className="number" data-label="Steps">
        {tree?.steps.length ?? '–'}
      </td>
      <td className="number" data-label="Findings">
        {findings ?? '–'}
      </td>
      <td data-label="Problems">
        <ProblemsCell problems={shelved.problems} address={address} />
      </td>
      <td data-label="Published">
        {edition === undefined ? <span className="state state-none">not published</span> : <code className="state state-published">{edition}</code>}
        <LocalState path={treePath(shelved.name)} />
      </td>
      <td>
        <span className="shelf-row-actions">
          {edition !== undefined && <WalkLink shelved={shelved} />}
          <a className="button button-quiet" href={editAddress(shelved.name)} aria-label={`Edit: ${titleOf(shelved)}`}>
            Edit
          </a>
          <FileMenu path={treePath(shelved.name)} title={titleOf(shelved)} />
        </span>
      </td>
    </tr>
  );
}

/** `walk it`, told apart from its neighbours by the tree's title for those who hear the page. */
export function WalkLink({ shelved }: { readonly shelved: ShelfTree }) {
  return (
    <a className="button button-quiet" href={walkAddress(shelved.name)} aria-label={`Walk it: ${titleOf(shelved)}`}>
      Walk it
    </a>
  );
}
