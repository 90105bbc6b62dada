import { useMemo, useState } from 'react';
import type { StepKind, Target, Tree } from '../../../engine/tree/index.ts';
import type { SurroundingNames } from '../../data/tree-checker.ts';
import { KIND_WORDS } from '../../document/step-task.ts';
import { useEditing } from '../page/edit-context.ts';

const KINDS = Object.keys(KIND_WORDS) as StepKind[];
const NEW = 'new ';

/** From so many steps on, a field has its choices only while it is used: thousands of them would be laid out for every letter typed beside it. */
const MANY = 150;

const targetValue = (to: Target, tree: Tree): string => (to.tree === undefined || to.tree === tree.name ? to.step : `${to.tree} ${to.step}`);

type TargetFieldProps = {
  readonly label: string;
  /** Undefined where nothing is chosen. */
  readonly to: Target | undefined;
  /** Words for no target; without them there must be one. */
  readonly none?: string;
  readonly commit: (to: Target | undefined) => void;
  /** Makes a new step of a kind and leads there; without it only steps that there are can be chosen. */
  readonly commitNew?: (kind: StepKind) => void;
};

/** Where a way leads: a step by its title, a step of another tree, or a new one that is made on the spot. */
export function TargetField({ label, to, none, commit, commitNew }: TargetFieldProps) {
  const { tree, names, select } = useEditing();
  const options = useTargetOptions(tree, names);
  const value = to ? targetValue(to, tree) : '';
  const [isUsed, setUsed] = useState(false);
  const hasAll = isUsed || tree.steps.length < MANY;
  const here = tree.steps.findIndex(({ id }) => id === value);
  const isHere = to !== undefined && here >= 0;
  const isElsewhere = to?.tree !== undefined && names.trees[to.tree]?.steps[to.step] !== undefined;
  return (
    <span className="target-field">
      <select
        aria-label={label}
        value={value}
        onPointerDown={() => setUsed(true)}
        onFocus={() => setUsed(true)}
        onBlur={() => setUsed(false)}
        onChange={({ target }) => {
          const chosen = target.value;
          const kind = KINDS.find((one) => chosen === NEW + one);
          if (kind && commitNew) {
            commitNew(kind);
            return;
          }
          const [first = '', second] = chosen.split(' ');
          commit(chosen === '' ? undefined : second === undefined ? { step: first } : { tree: first, step: second });
        }}
      >
        {none !== undefined && <option value="">{none}</option>}
        {to && !isHere && !isElsewhere && <option value={value}>{`${value} (not there)`}</option>}
        {!hasAll && isHere && (
          <option value={value}>
            {here + 1} {tree.steps[here]?.title}
          </option>
        )}
        {!hasAll && isElsewhere && <option value={value}>{names.trees[to.tree ?? '']?.steps[to.step]}</option>}
        {hasAll && options.here}
        {commitNew && (
          <optgroup label="A new step">
            {KINDS.map((kind) => (
              <option key={kind} value={NEW + kind}>
                New {KIND_WORDS[kind].toLowerCase()}
              </option>
            ))}
          </optgroup>
        )}
        {hasAll && options.elsewhere}
      </select>
      {isHere && (
        <button
          type="button"
          className="button-mark"
          aria-label={`Go to where ${label.toLowerCase()} leads`}
          title="Go there"
          onClick={() => select(value)}
        >
          →
        </button>
      )}
    </span>
  );
}

/** The same options for every field, made once a change: a long tree has many of both. */
function useTargetOptions(tree: Tree, { trees }: SurroundingNames) {
  const key = tree.steps.map(({ id, title }) => `${id} ${title}`).join('\n');
  // biome-ignore lint/correctness/useExhaustiveDependencies: only titles and ids are shown, and they are the key.
  const here = useMemo(
    () => (
      <optgroup label="This tree">
        {tree.steps.map(({ id, title }, index) => (
          <option key={id} value={id}>
            {index + 1} {title}
          </option>
        ))}
      </optgroup>
    ),
    [key],
  );
  const elsewhere = useMemo(
    () =>
      Object.entries(trees).map(([name, other]) => (
        <optgroup key={name} label={other.title}>
          {Object.entries(other.steps).map(([id, title]) => (
            <option key={id} value={`${name} ${id}`}>
              {title}
            </option>
          ))}
        </optgroup>
      )),
    [trees],
  );
  return { here, elsewhere };
}
