import { useEffect, useState } from 'react';

/** Takes over what was typed; says why not where it cannot be. */
export type Commit = (text: string) => string | undefined;

/**
 * What stands in a field while it is typed in. Every keystroke is committed; what cannot be taken over stays in the field with the reason, and the value
 * from outside comes back when it changes or the field is left. `plain` is how the value reads after a text was taken over.
 */
export function useDraft(value: string, commit: Commit, plain: (text: string) => string = (text) => text.trim()) {
  const [draft, setDraft] = useState<string>();
  const [problem, setProblem] = useState<string>();
  const [last, setLast] = useState(value);
  if (last !== value) {
    setLast(value);
    if (draft !== undefined && plain(draft) !== value) {
      setDraft(undefined);
      setProblem(undefined);
    }
  }
  useEffect(() => {
    if (draft === undefined) setProblem(undefined);
  }, [draft]);
  return {
    text: draft ?? value,
    problem,
    change: (text: string): void => {
      setDraft(text);
      setProblem(commit(text) ?? undefined);
    },
    leave: (): void => {
      // A text that was refused stays until it is put right: it would be lost otherwise.
      if (problem === undefined) setDraft(undefined);
    },
  };
}
