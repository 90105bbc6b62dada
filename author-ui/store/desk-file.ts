/** A file of the desk, as it stands in this browser. */
export type DeskFile = {
  /** `no-heat.tree.mdx`, `benches/heat-call.bench.yaml`, `figures/valve.png`. */
  readonly path: string;
  /** The file's text; a picture as a `data:` address. */
  readonly text: string;
  /** The text that the service gives under this path; absent where the file is only here. */
  readonly base?: string;
  /** Milliseconds since 1970; 0 where the file was never changed here. */
  readonly changedAt: number;
};

/** A file as it is stored: `version` counts what any window has written, `removed` marks a file of the service that is not wanted here. */
export type StoredFile = DeskFile & { readonly version: number; readonly removed?: true };

const TREE = /^([a-z0-9]+(?:-[a-z0-9]+)*)\.tree\.mdx$/;
const BENCH = /^benches\/([a-z0-9]+(?:-[a-z0-9]+)*)\.bench\.yaml$/;

export const treePath = (name: string): string => `${name}.tree.mdx`;
export const benchPath = (name: string): string => `benches/${name}.bench.yaml`;

/** `no-heat` of `no-heat.tree.mdx`; undefined for any other file. */
export const treeOfPath = (path: string): string | undefined => TREE.exec(path)?.[1];

/** `heat-call` of `benches/heat-call.bench.yaml`; undefined for any other file. */
export const benchOfPath = (path: string): string | undefined => BENCH.exec(path)?.[1];

export const isFigure = (path: string): boolean => path.startsWith('figures/');

/** Whether a file differs from what the service gives under its path. */
export const isChanged = ({ text, base }: DeskFile): boolean => text !== base;

/** The first of `no-heat-copy`, `no-heat-copy-2`, … whose path is free. */
export function freePath(path: string, taken: (path: string) => boolean): string {
  const match = /^((?:.*\/)?)(.+?)(\.tree\.mdx|\.bench\.yaml|\.[a-z0-9]+)$/.exec(path);
  const [folder, stem, ending] = match ? [match[1] ?? '', match[2] ?? '', match[3] ?? ''] : ['', path, ''];
  const plain = stem.replace(/-copy(-\d+)?$/, '');
  for (let count = 1; ; count += 1) {
    const candidate = `${folder}${plain}-copy${count === 1 ? '' : `-${count}`}${ending}`;
    if (!taken(candidate)) return candidate;
  }
}
