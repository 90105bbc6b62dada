import { defaultKeymap, indentWithTab } from '@codemirror/commands';
import { markdown } from '@codemirror/lang-markdown';
import { yaml, yamlFrontmatter } from '@codemirror/lang-yaml';
import { HighlightStyle, syntaxHighlighting } from '@codemirror/language';
import { type Diagnostic, lintGutter, setDiagnostics } from '@codemirror/lint';
import { EditorState, RangeSetBuilder, StateEffect, StateField, Transaction } from '@codemirror/state';
import { Decoration, type DecorationSet, drawSelection, EditorView, highlightActiveLine, keymap, lineNumbers } from '@codemirror/view';
import { tags } from '@lezer/highlight';
import type { Problem } from '../../../engine/problem.ts';

export type TextView = {
  /** Makes the text another, where it is not this already; the cursor stays by what it stood at. */
  setText(text: string): void;
  setProblems(problems: readonly Problem[]): void;
  /** Brings lines into view and marks them; `end` is the line after the last, the end of the text where absent. */
  show(line: number, end: number | undefined): void;
  /** Puts the cursor there. */
  go(line: number, column: number): void;
  hasFocus(): boolean;
  close(): void;
};

type TextEvents = {
  readonly changed: (text: string) => void;
  /** The user has put the cursor on this line. */
  readonly cursorAt: (line: number) => void;
  readonly undo: () => void;
  readonly redo: () => void;
};

const COLORS = HighlightStyle.define([
  { tag: tags.heading, color: 'var(--accent)', fontWeight: '700' },
  { tag: [tags.tagName, tags.angleBracket], color: 'var(--accent)' },
  { tag: [tags.attributeName, tags.processingInstruction, tags.meta, tags.comment], color: 'var(--ink-soft)' },
  { tag: tags.definition(tags.propertyName), color: 'var(--accent)' },
  { tag: tags.strong, fontWeight: '700' },
  { tag: tags.emphasis, fontStyle: 'italic' },
  { tag: tags.link, textDecoration: 'underline' },
]);

const LOOK = EditorView.theme({
  '&': { height: '100%', fontSize: '0.8125rem', color: 'var(--ink)', backgroundColor: 'var(--paper)' },
  '&.cm-focused': { outline: 'none' },
  '.cm-scroller': { fontFamily: 'var(--font-code)', lineHeight: '1.6' },
  '.cm-content': { caretColor: 'var(--ink)', paddingBlock: '0.75rem' },
  '.cm-cursor': { borderLeftColor: 'var(--ink)', borderLeftWidth: '2px' },
  '&.cm-focused > .cm-scroller > .cm-selectionLayer .cm-selectionBackground, .cm-selectionBackground': { backgroundColor: 'var(--accent-wash)' },
  '.cm-gutters': { backgroundColor: 'var(--paper)', color: 'var(--ink-soft)', border: 'none' },
  '.cm-activeLine': { backgroundColor: 'transparent' },
  '&.cm-focused .cm-activeLine': { backgroundColor: 'var(--raised)' },
  '.cm-shown-step': { backgroundColor: 'var(--raised)', boxShadow: 'inset 3px 0 0 var(--accent)' },
  '.cm-lintRange': { backgroundImage: 'none', textDecoration: 'underline wavy var(--wrong)', textUnderlineOffset: '0.2em' },
  '.cm-tooltip': { backgroundColor: 'var(--raised)', color: 'var(--ink)', border: '1px solid var(--line-strong)', maxWidth: '24rem' },
  '.cm-diagnostic': { fontFamily: 'var(--font-text)', borderLeftColor: 'var(--wrong)', whiteSpace: 'normal' },
  '.cm-lint-marker': { width: '0.7em', height: '0.7em' },
  '.cm-lint-marker-error, .cm-lint-marker-warning': {
    content: 'none',
    backgroundColor: 'var(--wrong)',
    borderRadius: '50%',
    display: 'inline-block',
  },
});

const shownStep = StateEffect.define<{ readonly from: number; readonly to: number }>();

/** The lines of the step that the other panes show. */
const SHOWN_STEP = StateField.define<DecorationSet>({
  create: () => Decoration.none,
  update(marks, transaction) {
    let now = marks.map(transaction.changes);
    for (const effect of transaction.effects) {
      if (!effect.is(shownStep)) continue;
      const builder = new RangeSetBuilder<Decoration>();
      const { doc } = transaction.state;
      for (let line = effect.value.from; line < effect.value.to && line <= doc.lines; line += 1)
        builder.add(doc.line(line).from, doc.line(line).from, Decoration.line({ class: 'cm-shown-step' }));
      now = builder.finish();
    }
    return now;
  },
  provide: (field) => EditorView.decorations.from(field),
});

/** What the text is, and what it is called for those who hear it. */
type TextKind = { readonly language: 'tree' | 'yaml'; readonly label: string };

/**
 * Opens an editor in an element. It has no history of its own: undo and redo are the desk's. It stands in a shadow root, where its styles are
 * adopted sheets, which the content security policy allows and a style element would not be.
 */
export function openTextView(
  place: HTMLElement,
  text: string,
  events: TextEvents,
  { language, label }: TextKind = { language: 'tree', label: 'Text of the tree' },
): TextView {
  const root = place.shadowRoot ?? place.attachShadow({ mode: 'open' });
  const act = (run: () => void) => (): boolean => {
    run();
    return true;
  };
  const view = new EditorView({
    root,
    parent: root,
    state: EditorState.create({
      doc: text,
      extensions: [
        lineNumbers(),
        lintGutter(),
        drawSelection(),
        highlightActiveLine(),
        EditorView.lineWrapping,
        language === 'yaml' ? yaml() : yamlFrontmatter({ content: markdown() }),
        syntaxHighlighting(COLORS),
        LOOK,
        SHOWN_STEP,
        EditorView.contentAttributes.of({ 'aria-label': label, tabindex: '0' }),
        keymap.of([
          { key: 'Mod-z', run: act(events.undo), preventDefault: true },
          { key: 'Mod-Shift-z', run: act(events.redo), preventDefault: true },
          { key: 'Mod-y', run: act(events.redo), preventDefault: true },
          // The Tab key leaves the text, as everywhere on the desk; Ctrl+Tab is the browser's.
          ...defaultKeymap.filter(({ key }) => key !== indentWithTab.key),
        ]),
        EditorView.updateListener.of((update) => {
          const byUser = update.transactions.some((one) => one.annotation(Transaction.userEvent) !== undefined);
          if (update.docChanged && byUser) events.changed(update.state.doc.toString());
          if (byUser && (update.selectionSet || update.docChanged)) events.cursorAt(update.state.doc.lineAt(update.state.selection.main.head).number);
        }),
      ],
    }),
  });
  view.contentDOM.addEventListener('keydown', (event) => event.key === 'Escape' && view.contentDOM.blur());

  const offset = (line: number, column: number): number => {
    const { doc } = view.state;
    const at = doc.line(Math.min(doc.lines, Math.max(1, line)));
    return Math.min(at.to, at.from + Math.max(0, column - 1));
  };
  return {
    setText(next) {
      const before = view.state.doc.toString();
      if (before === next) return;
      view.dispatch({ changes: difference(before, next) });
    },
    setProblems(problems) {
      const diagnostics = problems.map(({ line, column, endLine, endColumn, severity, message, fix }): Diagnostic => {
        const from = offset(line, column);
        return { from, to: Math.max(from, offset(endLine ?? line, endColumn ?? column)), severity, message: `${message} ${fix}` };
      });
      view.dispatch(setDiagnostics(view.state, diagnostics));
    },
    show(line, end) {
      const { lines } = view.state.doc;
      view.dispatch({
        effects: [shownStep.of({ from: line, to: end ?? lines + 1 }), EditorView.scrollIntoView(offset(line, 1), { y: 'start', yMargin: 24 })],
      });
    },
    go(line, column) {
      const at = offset(line, column);
      view.dispatch({ selection: { anchor: at }, effects: EditorView.scrollIntoView(at, { y: 'center' }) });
      view.focus();
    },
    hasFocus: () => view.hasFocus,
    close: () => view.destroy(),
  };
}

/** The least piece whose replacement makes one text the other. */
function difference(before: string, after: string): { readonly from: number; readonly to: number; readonly insert: string } {
  const shorter = Math.min(before.length, after.length);
  let from = 0;
  while (from < shorter && before[from] === after[from]) from += 1;
  let end = 0;
  while (end < shorter - from && before[before.length - 1 - end] === after[after.length - 1 - end]) end += 1;
  return { from, to: before.length - end, insert: after.slice(from, after.length - end) };
}
