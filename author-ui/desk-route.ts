/** Where on the desk: the address behind `#`. */
export type DeskRoute =
  | { readonly at: 'shelf' }
  | { readonly at: 'tree'; readonly name: string; readonly step?: string }
  | { readonly at: 'bench'; readonly name: string }
  /** `tries`: with the tree tried beside it, from its step. */
  | { readonly at: 'edit'; readonly name: string; readonly step?: string; readonly tries?: true }
  | { readonly at: 'proof'; readonly name: string }
  | { readonly at: 'publish'; readonly name: string }
  | { readonly at: 'guide' }
  | { readonly at: 'nowhere'; readonly hash: string };

const TREE = /^#\/tree\/([a-z0-9-]+)(?:\/(?:step\/)?([a-z0-9-]+))?$/;
const TREE_PAGE = /^#\/tree\/([a-z0-9-]+)\/(proof|publish)$/;
const EDIT = /^#\/tree\/([a-z0-9-]+)\/(edit|try)(?:\/([a-z0-9-]+))?$/;
const BENCH = /^#\/bench\/([a-z0-9-]+)$/;

/** Reads an address such as `#/tree/no-heat/limit-switch`; anything else than the shelf, a tree or a bench is `nowhere`. */
export function readDeskRoute(hash: string): DeskRoute {
  if (hash === '' || hash === '#' || hash === '#/') return { at: 'shelf' };
  const bench = BENCH.exec(hash)?.[1];
  if (bench !== undefined) return { at: 'bench', name: bench };
  if (hash === guideAddress) return { at: 'guide' };
  const [, edited, how, editedStep] = EDIT.exec(hash) ?? [];
  if (edited !== undefined)
    return { at: 'edit', name: edited, ...(editedStep !== undefined && { step: editedStep }), ...(how === 'try' && { tries: true as const }) };
  const [, paged, page] = TREE_PAGE.exec(hash) ?? [];
  if (paged !== undefined) return { at: page === 'proof' ? 'proof' : 'publish', name: paged };
  const [, name, step] = TREE.exec(hash) ?? [];
  if (name === undefined) return { at: 'nowhere', hash };
  return step === undefined ? { at: 'tree', name } : { at: 'tree', name, step };
}

export const shelfAddress = '#/';

export const guideAddress = '#/guide';

/** A step that is called as a page of its tree is gets an address that says so. */
export const treeAddress = (name: string, step?: string): string => {
  if (step === undefined) return `#/tree/${name}`;
  return step === 'edit' || step === 'try' || step === 'proof' || step === 'publish' ? `#/tree/${name}/step/${step}` : `#/tree/${name}/${step}`;
};

export const editAddress = (name: string, step?: string): string => `#/tree/${name}/edit${step === undefined ? '' : `/${step}`}`;

/** The tree tried beside its editing page, from a step or from the beginning. */
export const tryAddress = (name: string, step?: string): string => `#/tree/${name}/try${step === undefined ? '' : `/${step}`}`;

export const proofAddress = (name: string): string => `#/tree/${name}/proof`;

export const publishAddress = (name: string): string => `#/tree/${name}/publish`;

export const benchAddress = (name: string): string => `#/bench/${name}`;

/** The field app, at the start of a walk of this tree. */
export const walkAddress = (name: string): string => `/field/#/tree/${name}`;
