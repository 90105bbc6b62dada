import { readFileSync } from 'node:fs';

/** The language's manual, as it is shipped. */
export const MANUAL = readFileSync(new URL('../../trees/README.md', import.meta.url), 'utf8');

export type Example = { readonly code: string; readonly kind: 'bad' | 'good'; readonly text: string; readonly line: number };

export type Fence = { readonly info: string; readonly text: string; readonly heading: string; readonly line: number };

/** Every fenced block of the manual, with the last `####` heading above it. */
export function fences(): readonly Fence[] {
  const found: Fence[] = [];
  let heading = '';
  let open: { info: string; line: number; lines: string[] } | undefined;
  for (const [i, line] of MANUAL.split('\n').entries()) {
    if (open && line === '```') {
      found.push({ info: open.info, text: `${open.lines.join('\n')}\n`, heading, line: open.line });
      open = undefined;
    } else if (open) open.lines.push(line);
    else if (line.startsWith('```')) open = { info: line.slice(3), line: i + 1, lines: [] };
    else if (line.startsWith('#### ')) heading = line.slice(5);
  }
  return found;
}

/** The whole tree that the examples are pieces of. */
export const MANUAL_TREE = fences().find((fence) => fence.info === 'mdx tree')?.text ?? '';

export type Pieces = { readonly front: string; readonly opening: string; readonly sections: readonly string[] };

/** A tree file, or some of one, cut at its `##` headings. */
export function pieces(text: string): Pieces {
  const front = /^---\n[\s\S]*?\n---\n/.exec(text)?.[0] ?? '';
  const parts = text.slice(front.length).split(/^(?=## )/m);
  const sections = parts.filter((part) => part.startsWith('## '));
  return { front, opening: parts.find((part) => !part.startsWith('## ')) ?? '', sections };
}

/** The `##` line of a section. */
export const heading = (section: string): string => (section.split('\n')[0] ?? '').replace(/[*_]/g, '');

/** A piece put in its place in the whole tree. */
function assembled(piece: string): string {
  const whole = pieces(MANUAL_TREE);
  const part = pieces(piece);
  const known = new Set(whole.sections.map(heading));
  const own = new Map(part.sections.map((section) => [heading(section), section]));
  return [
    part.front || whole.front,
    part.opening.trim() === '' ? whole.opening : part.opening,
    ...whole.sections.map((section) => own.get(heading(section)) ?? section).map((section) => `${section.trimEnd()}\n\n`),
    ...part.sections.filter((section) => !known.has(heading(section))).map((section) => `${section.trimEnd()}\n\n`),
  ].join('');
}

/** Every bad and good example, as a whole file. Those marked `bench` are proved on a bench in tests/proof/, and not here. */
export const EXAMPLES: readonly Example[] = fences().flatMap(({ info, text, heading: code, line }) => {
  const match = /^mdx (bad|good)( whole)?$/.exec(info);
  if (!match) return [];
  return [{ code, kind: match[1] === 'bad' ? 'bad' : 'good', text: match[2] ? text : assembled(text), line }];
});
