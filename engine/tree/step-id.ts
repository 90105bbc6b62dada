import { slug } from 'github-slugger';

// Letters that stand in titles of this trade and in no id.
const SPELLED_OUT: readonly (readonly [RegExp, string])[] = [
  [/[µμ]/g, 'u'],
  [/ω/g, 'ohm'],
  [/ß/g, 'ss'],
];

/**
 * The id that a heading, or the part of a link after '#', stands for: its slug with accents dropped and runs of hyphens
 * made one. Empty where nothing is left.
 */
export function stepId(text: string): string {
  let plain = slug(text);
  for (const [letters, spelled] of SPELLED_OUT) plain = plain.replace(letters, spelled);
  return plain
    .normalize('NFKD')
    .toLowerCase()
    .replace(/[^a-z0-9-]+/g, '')
    .replace(/-+/g, '-')
    .replace(/^-|-$/g, '');
}

/** What a link to a step is written with, so that it also leads there where the file is shown as a plain page. */
export function anchorOf(id: string, title: string): string {
  const plain = slug(title);
  return stepId(plain) === id && /^[a-z0-9-]+$/.test(plain) ? plain : id;
}
