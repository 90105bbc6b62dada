import { useEffect, useRef } from 'react';
import type { Problem } from '../../engine/problem.ts';
import type { Tree } from '../../engine/tree/index.ts';
import { treeAddress } from '../desk-route.ts';
import { KIND_WORDS } from './step-task.ts';
import { useStepInView } from './use-step-in-view.ts';

type TreeOutlineProps = { readonly tree: Tree; readonly problems: readonly Problem[] };

/** The steps by number and title, beside the document. A step that has problems says how many. */
export function TreeOutline({ tree, problems }: TreeOutlineProps) {
  const list = useRef<HTMLElement>(null);
  const inView = useStepInView(tree);

  // The mark moves with the page; the list follows only when the mark would leave it.
  useEffect(() => {
    if (inView !== undefined) list.current?.querySelector('[aria-current]')?.scrollIntoView({ block: 'nearest' });
  }, [inView]);

  return (
    <nav className="outline" aria-label="Steps" ref={list}>
      <h2>{tree.steps.length} steps</h2>
      <ol>
        {tree.steps.map((step) => {
          const found = problems.filter((problem) => problem.step === step.id).length;
          return (
            <li key={step.id} className={`outline-${step.kind}`}>
              <a href={treeAddress(tree.name, step.id)} aria-current={step.id === inView ? 'location' : undefined}>
                <span className="outline-title">
                  {step.title}
                  {found > 0 && <strong className="outline-problems">{found === 1 ? '1 problem' : `${found} problems`}</strong>}
                </span>
                <span className="outline-kind">{KIND_WORDS[step.kind]}</span>
              </a>
            </li>
          );
        })}
      </ol>
    </nav>
  );
}
