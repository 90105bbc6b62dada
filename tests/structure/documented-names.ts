/** What a text tells its reader to type or to open. */
export type DocumentedNames = {
  /** Script names after `npm run`, and `start` and `test`. */
  readonly scripts: readonly string[];
  /** Whole `npm …` command lines of the fenced blocks. */
  readonly commands: readonly string[];
  /** Places in the repository, in code marks or as links. */
  readonly paths: readonly string[];
};

const FENCE = /^```(?:bash|sh|shell|console)?\n([\s\S]*?)^```/gm;
const SCRIPT = /\bnpm (?:run (?:-s |--silent )?([a-z][\w:-]*)|(start|test)\b)/g;
const MARKED = /`([^`\n]+)`/g;
const LINKED = /\]\(([^)\s]+)\)/g;

/** Made by running the thing, so not there in a fresh clone. */
const MADE = /^(\.build|node_modules)(\/|$)/;

const topOf = (path: string): string => path.replace(/^\.\//, '').split('/')[0] ?? '';

/**
 * Collects the names. `topNames` are the names at the top of the repository: in code marks only what begins with one of
 * them and has no placeholder in it (capitals, `<>`, `*`, `…`) is taken for a path; a link without a scheme always is.
 */
export function documentedNames(text: string, topNames: readonly string[]): DocumentedNames {
  const scripts = new Set([...text.matchAll(SCRIPT)].map((match) => match[1] ?? match[2] ?? ''));
  const fences = [...text.matchAll(FENCE)].map((match) => match[1] ?? '');
  const commands = fences
    .flatMap((fence) => fence.split('\n').filter((line) => /^\$?\s*npm /.test(line)))
    .map((line) => line.replace(/^\$\s*/, '').trim());
  const words = [...text.replace(FENCE, '').matchAll(MARKED)].flatMap((match) => (match[1] ?? '').split(/\s+/));
  const marked = words.filter((word) => topNames.includes(topOf(word)) && !/[<>*…{}]|\b[A-Z]{2,}\b(?!\.md)/.test(word));
  const linked = [...text.matchAll(LINKED)].map((match) => match[1] ?? '').filter((link) => !/^([a-z]+:|#)/.test(link));
  const paths = [...marked, ...linked].map((path) =>
    path
      .replace(/[#:][\w-]*$/, '')
      .replace(/[.,;]$/, '')
      .replace(/\/$/, ''),
  );
  return { scripts: [...scripts], commands, paths: [...new Set(paths)].filter((path) => !MADE.test(path)) };
}
