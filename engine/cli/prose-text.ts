import type { Block, Inline, Prose } from '../tree/index.ts';

function inline(parts: readonly Inline[]): string {
  return parts
    .map((part) => {
      switch (part.type) {
        case 'text':
        case 'inlineCode':
          return part.value;
        case 'break':
          return '\n';
        case 'image':
          return `[figure: ${part.alt}]`;
        default:
          return inline(part.children);
      }
    })
    .join('');
}

function block(part: Block): string {
  switch (part.type) {
    case 'paragraph':
      return inline(part.children).replace(/\s*\n\s*/g, ' ');
    case 'heading':
      return inline(part.children).toUpperCase();
    case 'blockquote':
      return indented(proseText(part.children), '  ');
    case 'list':
      return part.children
        .map((item, i) => indented(proseText(item.children), '   ', part.ordered ? `${(part.start ?? 1) + i}. ` : ' – '))
        .join('\n');
    case 'code':
      return indented(part.value, '    ');
    case 'thematicBreak':
      return '—';
  }
}

function indented(text: string, by: string, first = by): string {
  return text
    .split('\n')
    .map((line, i) => (i === 0 ? first : by) + line)
    .join('\n');
}

/** Prose as plain text for a terminal, paragraphs apart. */
export const proseText = (prose: Prose): string => prose.map(block).join('\n\n');

/** Text broken at spaces so that no line is longer than `width`, where words allow it. */
export function wrapped(text: string, width: number): string {
  return text
    .split('\n')
    .map((line) => {
      const lead = /^\s*(?:–\s|\d+\.\s)?/.exec(line)?.[0] ?? '';
      const hang = ' '.repeat(lead.length);
      const rows: string[] = [];
      let row = lead;
      for (const word of line.slice(lead.length).split(' ')) {
        if (row.trim() !== '' && row !== lead && row.length + 1 + word.length > width) {
          rows.push(row);
          row = hang + word;
        } else row += row === lead || row === hang ? word : ` ${word}`;
      }
      return [...rows, row].join('\n');
    })
    .join('\n');
}
