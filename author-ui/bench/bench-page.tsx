import type { Bench } from '../../engine/bench/index.ts';
import { benchTitle, type Shelf, type ShelfBench, titleOf } from '../data/read-shelf.ts';
import { shelfAddress, treeAddress } from '../desk-route.ts';
import { ProblemList } from '../document/problem-list.tsx';
import { Notice } from '../frame/notice.tsx';
import { useTitle } from '../frame/use-title.ts';
import { faultShares, partText, shareText } from './part-text.ts';

/** A bench to read: what a tech can set, see and reach, its parts, and how it can break. */
export function BenchPage({ shelf, name }: { readonly shelf: Shelf; readonly name: string }) {
  const shelved = shelf.benches.find((bench) => bench.name === name);
  useTitle(shelved ? benchTitle(shelved) : 'No such bench');
  if (!shelved) {
    return (
      <Notice title="There is no such bench">
        <p>
          The folder <code>trees/benches</code> has no <code>{name}.bench.yaml</code>. It may have been renamed.
        </p>
        <a className="button" href={shelfAddress}>
          Go to the shelf
        </a>
      </Notice>
    );
  }
  return (
    <article className="bench">
      <header className="document-head">
        <h1>{benchTitle(shelved)}</h1>
        <div className="document-state">
          <code>{shelved.file}</code>
          <UsedBy shelf={shelf} shelved={shelved} />
        </div>
      </header>
      <ProblemList problems={shelved.problems} source={shelved.source} />
      {shelved.bench && <BenchTables bench={shelved.bench} />}
    </article>
  );
}

function UsedBy({ shelf, shelved }: { readonly shelf: Shelf; readonly shelved: ShelfBench }) {
  const trees = shelf.trees.filter((tree) => shelved.usedBy.includes(tree.name));
  if (trees.length === 0) return <span>No tree is checked against it.</span>;
  return (
    <span>
      Checked against it:{' '}
      {trees.map((tree, index) => (
        <span key={tree.name}>
          {index > 0 && ', '}
          <a href={treeAddress(tree.name)}>{titleOf(tree)}</a>
        </span>
      ))}
    </span>
  );
}

function BenchTables({ bench }: { readonly bench: Bench }) {
  const shares = faultShares(bench.faults);
  const faults = Object.entries(bench.faults).sort(([, a], [, b]) => b.weight - a.weight);
  return (
    <>
      {bench.about !== undefined && <p>{bench.about}</p>}
      <dl className="terms">
        <div>
          <dt>Terminals</dt>
          <dd>{bench.terminals.join(', ')}</dd>
        </div>
        {Object.entries(bench.settings).map(([setting, states]) => (
          <div key={setting}>
            <dt>
              <code>{setting}</code>
            </dt>
            <dd>{states.map((state, index) => (index === 0 ? `${state} as found` : state)).join(', ')}</dd>
          </div>
        ))}
        {Object.entries(bench.facts).map(([fact, { ask, usual, from, to }]) => (
          <div key={fact}>
            <dt>
              <code>{fact}</code>
            </dt>
            <dd>
              {ask}: {usual}, from {from} to {to}
            </dd>
          </div>
        ))}
      </dl>
      <BenchTable caption="Faults, those met most often first" head={['Fault', 'Met', 'Part', 'What it is']}>
        {faults.map(([fault, { part, becomes, says }]) => [fault, shareText(shares[fault] ?? 0), `${part} becomes ${becomes}`, says ?? ''])}
      </BenchTable>
      <BenchTable caption="Signs" head={['Sign', 'Can be seen or heard while']}>
        {Object.entries(bench.signs)}
      </BenchTable>
      <BenchTable caption="Parts" head={['Part', 'Kind', 'What it is']}>
        {Object.entries(bench.parts).map(([name, part]) => [name, part.kind, partText(part)])}
      </BenchTable>
    </>
  );
}

type BenchTableProps = { readonly caption: string; readonly head: readonly string[]; readonly children: readonly (readonly string[])[] };

/** Rows that are each known by what stands first. Nothing where there are none. */
function BenchTable({ caption, head, children: rows }: BenchTableProps) {
  if (rows.length === 0) return null;
  return (
    <table className="bench-table">
      <caption>{caption}</caption>
      <thead>
        <tr>
          {head.map((title) => (
            <th key={title} scope="col">
              {title}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map(([name = '', ...cells]) => (
          <tr key={name}>
            <th scope="row">
              <code>{name}</code>
            </th>
            {cells.map((cell, column) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: a cell is known by its column.
              <td key={column}>{cell}</td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  );
}
