/** Where on the desk: the address behind `#`. */
export type DeskRoute =
  | { readonly at: 'shelf' }
  | { readonly at: 'tree'; readonly name: string; readonly step?: string }
  | { readonly at: 'bench'; readonly name: string }
  | { readonly at: 'nowhere'; readonly hash: string };

const TREE = /^#\/tree\/([a-z0-9-]+)(?:\/([a-z0-9-]+))?$/;
const BENCH = /^#\/bench\/([a-z0-9-]+)$/;

/** Reads an address such as `#/tree/no-heat/limit-switch`; anything else than the shelf, a tree or a bench is `nowhere`. */
export function readDeskRoute(hash: string): DeskRoute {
  if (hash === '' || hash === '#' || hash === '#/') return { at: 'shelf' };
  const bench = BENCH.exec(hash)?.[1];
  if (bench !== undefined) return { at: 'bench', name: bench };
  const [, name, step] = TREE.exec(hash) ?? [];
  if (name === undefined) return { at: 'nowhere', hash };
  return step === undefined ? { at: 'tree', name } : { at: 'tree', name, step };
}

export const shelfAddress = '#/';

export const treeAddress = (name: string, step?: string): string => (step === undefined ? `#/tree/${name}` : `#/tree/${name}/${step}`);

export const benchAddress = (name: string): string => `#/bench/${name}`;

/** The field app, at the start of a walk of this tree. */
export const walkAddress = (name: string): string => `/field/#/tree/${name}`;
