import type { Block, Inline, Prose } from '../../engine/tree/index.ts';

const inlineText = (parts: readonly Inline[]): string =>
  parts
    .map((part) => {
      switch (part.type) {
        case 'text':
        case 'inlineCode':
          return part.value;
        case 'break':
          return ' ';
        case 'image':
          return part.alt;
        default:
          return inlineText(part.children);
      }
    })
    .join('');

function blockText(block: Block): string {
  switch (block.type) {
    case 'paragraph':
    case 'heading':
      return sentence(inlineText(block.children));
    case 'blockquote':
      return proseText(block.children);
    case 'list':
      return block.children.map((item) => proseText(item.children)).join(' ');
    case 'code':
      return sentence(block.value);
    case 'thematicBreak':
      return '';
  }
}

// A heading or a list item without a full stop would run into what follows when it is spoken.
const sentence = (text: string): string => (/[.!?:;]\s*$/.test(text) || text.trim() === '' ? text : `${text}.`);

/** Prose as one run of plain sentences, for reading aloud and for names of things. */
export const proseText = (prose: Prose): string =>
  prose
    .map(blockText)
    .filter((text) => text !== '')
    .join(' ')
    .replace(/\s+/g, ' ');
