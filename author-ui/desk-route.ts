/** Where on the desk: the address behind `#`. */
export type DeskRoute =
  | { readonly at: 'shelf' }
  | { readonly at: 'tree'; readonly name: string; readonly step?: string }
  | { readonly at: 'bench'; readonly name: string }
  /** `tries`: with the tree tried beside it, from its step. */
  | { readonly at: 'edit'; readonly name: string; readonly step?: string; readonly tries?: true }
  | { readonly at: 'proof'; readonly name: string }
  | { readonly at: 'publish'; readonly name: string }
  /** The tree as two printed pages. */
  | { readonly at: 'sheet'; readonly name: string }
  /** What the crew's walks of this tree show. */
  | { readonly at: 'tree-picture'; readonly name: string }
  | { readonly at: 'walks' }
  | { readonly at: 'walk'; readonly walk: string }
  /** `query`: a drill to make ready, or a result to show. */
  | { readonly at: 'drills'; readonly query?: string }
  | { readonly at: 'crew' }
  /** Where an invitation's link leads, with its code. */
  | { readonly at: 'join'; readonly code?: string }
  | { readonly at: 'guide' }
  | { readonly at: 'nowhere'; readonly hash: string };

/** Words that name a page of a tree, where a step's id would stand. */
const TREE_PAGES: ReadonlySet<string> = new Set(['edit', 'try', 'proof', 'publish', 'sheet', 'crew']);

const TREE = /^#\/tree\/([a-z0-9-]+)(?:\/(?:step\/)?([a-z0-9-]+))?$/;
const TREE_PAGE = /^#\/tree\/([a-z0-9-]+)\/(proof|publish|sheet|crew)$/;
const EDIT = /^#\/tree\/([a-z0-9-]+)\/(edit|try)(?:\/([a-z0-9-]+))?$/;
const BENCH = /^#\/bench\/([a-z0-9-]+)$/;
/** An id that a phone gave its walk, percent-encoded. */
const WALK = /^#\/walks\/([^/]+)$/;
const DRILLS = /^#\/drills\?(.+)$/;
const JOIN = /^#\/join(?:\/([A-Za-z0-9-]+))?$/;

const PLAIN_PAGES: Readonly<Record<string, DeskRoute>> = {
  '': { at: 'shelf' },
  '#': { at: 'shelf' },
  '#/': { at: 'shelf' },
  '#/walks': { at: 'walks' },
  '#/drills': { at: 'drills' },
  '#/crew': { at: 'crew' },
  '#/guide': { at: 'guide' },
};

function readPercent(text: string): string | undefined {
  try {
    return decodeURIComponent(text);
  } catch {
    return undefined;
  }
}

/** Reads an address such as `#/tree/no-heat/limit-switch`; one that names no page of the desk is `nowhere`. */
export function readDeskRoute(hash: string): DeskRoute {
  const plain = Object.hasOwn(PLAIN_PAGES, hash) ? PLAIN_PAGES[hash] : undefined;
  if (plain) return plain;
  // What a page of walks is asked to show stands behind its address, and is read by the page.
  const [walks, asked] = hash.split('?', 2);
  if (asked !== undefined && walks === walksAddress) return { at: 'walks' };
  const walk = readPercent(WALK.exec(walks ?? '')?.[1] ?? '');
  if (walk !== undefined && walk !== '') return { at: 'walk', walk };
  const query = DRILLS.exec(hash)?.[1];
  if (query !== undefined) return { at: 'drills', query };
  const join = JOIN.exec(hash);
  if (join) return { at: 'join', ...(join[1] !== undefined && { code: join[1] }) };
  const bench = BENCH.exec(hash)?.[1];
  if (bench !== undefined) return { at: 'bench', name: bench };
  const [, edited, how, editedStep] = EDIT.exec(hash) ?? [];
  if (edited !== undefined)
    return { at: 'edit', name: edited, ...(editedStep !== undefined && { step: editedStep }), ...(how === 'try' && { tries: true as const }) };
  const [, paged, page] = TREE_PAGE.exec(hash) ?? [];
  if (paged !== undefined && page === 'crew') return { at: 'tree-picture', name: paged };
  if (paged !== undefined) return { at: page === 'proof' || page === 'sheet' ? page : 'publish', name: paged };
  const [, name, step] = TREE.exec(hash) ?? [];
  if (name === undefined) return { at: 'nowhere', hash };
  return step === undefined ? { at: 'tree', name } : { at: 'tree', name, step };
}

export const shelfAddress = '#/';

export const guideAddress = '#/guide';

export const walksAddress = '#/walks';

export const walkPageAddress = (walk: string): string => `#/walks/${encodeURIComponent(walk)}`;

export const drillsAddress = '#/drills';

export const crewAddress = '#/crew';

export const joinAddress = '#/join';

/** A step that is called as a page of its tree is gets an address that says so. */
export const treeAddress = (name: string, step?: string): string => {
  if (step === undefined) return `#/tree/${name}`;
  return TREE_PAGES.has(step) ? `#/tree/${name}/step/${step}` : `#/tree/${name}/${step}`;
};

export const editAddress = (name: string, step?: string): string => `#/tree/${name}/edit${step === undefined ? '' : `/${step}`}`;

/** The tree tried beside its editing page, from a step or from the beginning. */
export const tryAddress = (name: string, step?: string): string => `#/tree/${name}/try${step === undefined ? '' : `/${step}`}`;

export const proofAddress = (name: string): string => `#/tree/${name}/proof`;

export const publishAddress = (name: string): string => `#/tree/${name}/publish`;

export const sheetAddress = (name: string): string => `#/tree/${name}/sheet`;

/** What the crew's walks of the tree show. */
export const pictureAddress = (name: string): string => `#/tree/${name}/crew`;

export const benchAddress = (name: string): string => `#/bench/${name}`;

/** The field app, at the start of a walk of this tree. */
export const walkAddress = (name: string): string => `/field/#/tree/${name}`;
