import { type FormEvent, useId, useState } from 'react';
import { stepId } from '../../engine/tree/index.ts';
import { benchAddress, editAddress } from '../desk-route.ts';
import { DraftProgress } from '../draft/draft-progress.tsx';
import { DraftSummary } from '../draft/draft-summary.tsx';
import { useDraftTree } from '../draft/use-draft-tree.ts';
import { ProblemBrief } from '../proof/problem-brief.tsx';
import { benchOfPath, type DeskFile, treePath } from '../store/desk-file.ts';
import { sourcesOf } from '../store/sources-of.ts';
import { useDeskFiles, useDeskStore } from '../store/use-desk-store.ts';

type Choice = { readonly name: string; readonly title: string };

/** Chooses a bench, drafts a tree from it beside the screen, shows what the draft says, and saves it as one step that undo takes back. */
export function NewTreeFromBench({ close }: { readonly close: () => void }) {
  const store = useDeskStore();
  const files = useDeskFiles();
  const benches = benchesIn(files);
  const [chosen, setChosen] = useState<string>();
  const [typed, setTyped] = useState<string>();
  const [problem, setProblem] = useState<string>();
  const { run, start, stop, forget } = useDraftTree();
  const bench = benches.find(({ name }) => name === chosen) ?? benches[0];
  const problemId = useId();
  const title = (typed ?? bench?.title ?? '').trim().replace(/\s+/g, ' ');
  if (!bench) {
    return (
      <div className="new-tree">
        <p className="draft-note">
          There is no bench to draft from. Make one first, with “New bench” further down: its circuit, its signs, its faults.
        </p>
        <button type="button" className="button button-quiet" onClick={close}>
          Close
        </button>
      </div>
    );
  }

  /** The first name of a title that no tree has. */
  const freeName = (): string => {
    const slug = stepId(title).slice(0, 60).replace(/-+$/, '');
    let name = slug;
    for (let count = 2; slug !== '' && store.files().has(treePath(name)); count += 1) name = `${slug}-${count}`;
    return name;
  };
  const draft = (event: FormEvent): void => {
    event.preventDefault();
    const name = freeName();
    setProblem(name === '' ? 'Give it a title with a letter or a digit in it.' : undefined);
    if (name !== '') start({ bench: bench.name, name, title, sources: sourcesOf(files, []) });
  };
  const save = (text: string): void => {
    const name = freeName();
    store.write(treePath(name), text, `Draft “${title}”`);
    window.location.hash = editAddress(name, 'opening');
  };

  if (run.state === 'running')
    return (
      <div className="new-tree-drafted">
        <DraftProgress run={run} stop={stop} />
      </div>
    );
  if (run.state === 'drafted')
    return (
      <div className="new-tree-drafted">
        <DraftSummary title={title} report={run.report} save={() => save(run.report.text)} discard={forget} />
      </div>
    );
  return (
    <form
      className="new-tree new-tree-from-bench"
      aria-label="New tree from a bench"
      onSubmit={draft}
      onKeyDown={(event) => event.key === 'Escape' && close()}
    >
      <label>
        <span>Bench</span>
        <select
          // biome-ignore lint/a11y/noAutofocus: the form came because it was asked for.
          autoFocus
          value={bench.name}
          onChange={(event) => {
            setChosen(event.target.value);
            forget();
          }}
        >
          {benches.map(({ name, title: named }) => (
            <option key={name} value={name}>
              {named}
            </option>
          ))}
        </select>
      </label>
      <label>
        <span>What the crew calls the tree</span>
        <input
          value={typed ?? bench.title}
          autoComplete="off"
          maxLength={200}
          aria-invalid={problem !== undefined}
          aria-describedby={problem === undefined ? undefined : problemId}
          onChange={(event) => setTyped(event.target.value)}
        />
      </label>
      <button type="submit" className="button">
        Draft it
      </button>
      <button type="button" className="button button-quiet" onClick={close}>
        Cancel
      </button>
      <p className="draft-note">
        The order that finds each fault in the fewest minutes, safely, worked out from the circuit. You see what it takes before anything is saved.
      </p>
      {problem !== undefined && (
        <p className="field-problem" role="alert" id={problemId}>
          {problem}
        </p>
      )}
      {run.state === 'stopped' && <p role="status">Stopped. Nothing was written.</p>}
      {run.state === 'failed' && (
        <p className="field-problem" role="alert">
          No draft was made: {run.detail} Nothing was written; try again.
        </p>
      )}
      {run.state === 'no-draft' && (
        <div className="field-problem" role="alert">
          <p>
            {run.message} {run.fix} <a href={benchAddress(bench.name)}>Open the bench</a>
          </p>
          <ul className="proof-problems">
            {run.problems.map((one) => (
              <ProblemBrief key={`${one.line} ${one.column} ${one.code}`} problem={one} />
            ))}
          </ul>
        </div>
      )}
    </form>
  );
}

/** The benches of the desk by title, as their files say it; a file too broken to say so goes by its name. */
function benchesIn(files: ReadonlyMap<string, DeskFile>): readonly Choice[] {
  return [...files.values()]
    .flatMap(({ path, text }): readonly Choice[] => {
      const name = benchOfPath(path);
      if (name === undefined) return [];
      const [, quote = '', named = ''] = /^title:[ \t]*(["']?)(.+?)\1[ \t]*(?:#.*)?$/m.exec(text) ?? [];
      return [{ name, title: (quote === "'" ? named.replaceAll("''", "'") : named) || name }];
    })
    .sort((a, b) => a.title.localeCompare(b.title));
}
