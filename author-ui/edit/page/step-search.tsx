import { type KeyboardEvent, useId, useState } from 'react';
import type { Tree } from '../../../engine/tree/index.ts';
import { KIND_WORDS } from '../../document/step-task.ts';
import { KindMark } from '../graph/kind-mark.tsx';
import { searchSteps } from '../search-steps.ts';

type StepSearchProps = { readonly tree: Tree; readonly shown: string; readonly select: (step: string) => void };

const MOST_LISTED = 60;

/** Finds steps by anything they say. The arrow keys choose, Enter goes there, Escape closes. */
export function StepSearch({ tree, shown, select }: StepSearchProps) {
  const id = useId();
  const [query, setQuery] = useState('');
  const [isOpen, setOpen] = useState(false);
  const [at, setAt] = useState(0);
  const found = isOpen ? searchSteps(tree, query).slice(0, MOST_LISTED) : [];
  const chosen = found[Math.min(at, found.length - 1)];

  const choose = (step: string): void => {
    select(step);
    setOpen(false);
    setQuery('');
  };
  const key = (event: KeyboardEvent): void => {
    if (event.key === 'ArrowDown' || event.key === 'ArrowUp') {
      event.preventDefault();
      if (!isOpen)
        setAt(
          Math.max(
            0,
            tree.steps.findIndex((step) => step.id === shown),
          ),
        );
      else setAt((now) => Math.max(0, Math.min(found.length - 1, now + (event.key === 'ArrowDown' ? 1 : -1))));
      setOpen(true);
    } else if (event.key === 'Enter' && chosen) choose(chosen.id);
    else if (event.key === 'Escape') setOpen(false);
  };
  const numbers = new Map(tree.steps.map((step, index) => [step.id, index + 1]));
  return (
    <search className="step-search">
      <input
        id={id}
        type="search"
        role="combobox"
        aria-label="Find a step"
        placeholder={`Find in ${tree.steps.length} ${tree.steps.length === 1 ? 'step' : 'steps'}`}
        aria-expanded={isOpen && found.length > 0}
        aria-controls={`${id}-list`}
        aria-activedescendant={isOpen && chosen ? `${id}-${chosen.id}` : undefined}
        autoComplete="off"
        spellCheck={false}
        value={query}
        onChange={(event) => {
          setQuery(event.target.value);
          setAt(0);
          setOpen(true);
        }}
        onFocus={() => setOpen(true)}
        onBlur={() => setOpen(false)}
        onKeyDown={key}
      />
      {isOpen && (
        <div className="step-search-list" id={`${id}-list`} role="listbox" aria-label="Steps">
          {found.map((step) => (
            <div
              key={step.id}
              id={`${id}-${step.id}`}
              role="option"
              tabIndex={-1}
              aria-selected={step.id === chosen?.id}
              ref={step.id === chosen?.id ? scrollIntoList : undefined}
              // Before the field loses the keyboard, which would close the list.
              onPointerDown={(event) => {
                event.preventDefault();
                choose(step.id);
              }}
            >
              <span className="step-search-number">{numbers.get(step.id)}</span>
              <KindMark kind={step.kind} />
              <span>{step.title}</span>
              <span className="step-search-kind">{KIND_WORDS[step.kind]}</span>
            </div>
          ))}
          {found.length === 0 && <p className="pane-note">No step has all of these words.</p>}
        </div>
      )}
    </search>
  );
}

const scrollIntoList = (item: HTMLElement | null): void => item?.scrollIntoView({ block: 'nearest' });
