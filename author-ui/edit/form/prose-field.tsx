import { useId, useMemo, useRef } from 'react';
import { type Prose as ProseData, writeProse } from '../../../engine/tree/index.ts';
import { Prose } from '../../../shared/ui/prose.tsx';
import { useEditing } from '../page/edit-context.ts';
import { plainProse, readProse } from '../read-prose.ts';
import { FieldNote } from './fields.tsx';
import { useDraft } from './use-draft.ts';

type ProseFieldProps = { readonly label: string; readonly prose: ProseData; readonly commit: (prose: ProseData) => void; readonly rows?: number };

const MARKS = [
  { text: 'B', name: 'Bold', before: '**', after: '**' },
  { text: 'I', name: 'Italic', before: '*', after: '*' },
  { text: '•', name: 'List', before: '\n- ', after: '' },
] as const;

/** Prose as its Markdown, and below it as the tech will see it. */
export function ProseField({ label, prose, commit, rows = 4 }: ProseFieldProps) {
  const id = useId();
  const { figures } = useEditing();
  const area = useRef<HTMLTextAreaElement>(null);
  const value = useMemo(() => writeProse(prose), [prose]);
  const { text, problem, change, leave } = useDraft(
    value,
    (typed) => {
      const read = readProse(typed);
      if (!read.ok) return `Line ${read.problem.line}: ${read.problem.message} ${read.problem.fix} Not taken over yet.`;
      commit(read.value);
    },
    plainProse,
  );
  const mark = (before: string, after: string): void => {
    const at = area.current;
    if (!at) return;
    const { selectionStart: from, selectionEnd: to } = at;
    change(text.slice(0, from) + before + text.slice(from, to) + after + text.slice(to));
    requestAnimationFrame(() => {
      at.focus();
      at.setSelectionRange(from + before.length, to + before.length);
    });
  };
  const lines = text.split('\n').reduce((sum, line) => sum + Math.ceil((line.length + 1) / 56), 0);
  return (
    <div className="field prose-field">
      <div className="prose-field-head">
        <label htmlFor={id}>{label}</label>
        <span className="prose-field-marks">
          {MARKS.map(({ text: sign, name, before, after }) => (
            <button
              key={name}
              type="button"
              className="button-mark"
              aria-label={`${name}: ${label}`}
              title={name}
              onClick={() => mark(before, after)}
            >
              {sign}
            </button>
          ))}
        </span>
      </div>
      <textarea
        id={id}
        ref={area}
        rows={Math.min(16, Math.max(rows, lines))}
        value={text}
        aria-invalid={problem !== undefined}
        aria-describedby={problem === undefined ? undefined : `${id}-note`}
        onChange={(event) => change(event.target.value)}
        onBlur={leave}
      />
      <FieldNote id={`${id}-note`} problem={problem} />
      {prose.length > 0 && (
        <section className="prose-preview" aria-label={`${label}, as it will be seen`}>
          <Prose prose={prose} figures={figures} />
        </section>
      )}
    </div>
  );
}
