import { benchOfPath, isFigure, treeOfPath } from '../desk-file.ts';

/** A directory as the browser hands it over, with what its permission can be asked for. */
export type FolderHandle = FileSystemDirectoryHandle & {
  queryPermission?(wanted: { readonly mode: 'readwrite' }): Promise<PermissionState>;
  requestPermission?(wanted: { readonly mode: 'readwrite' }): Promise<PermissionState>;
};

/** A file of the folder: what tells without reading whether it has changed. */
export type FolderEntry = { readonly path: string; readonly changed: number; readonly size: number };

export type FolderListing = {
  readonly files: readonly FolderEntry[];
  /** Trees and benches whose names the desk has no path for: left alone. */
  readonly leftAlone: readonly string[];
};

/** The trees, benches and figures of a folder, by the desk's paths. What the browser refuses is thrown as it words it. */
export type FolderFiles = {
  list(): Promise<FolderListing>;
  /** A text, a picture as a `data:` address; undefined where there is no such file. */
  read(path: string): Promise<string | undefined>;
  /** The file has either its former text or all of this one, whatever happens meanwhile. */
  write(path: string, text: string): Promise<void>;
  remove(path: string): Promise<void>;
};

const PICTURE_TYPES: Readonly<Record<string, string>> = {
  png: 'image/png',
  jpg: 'image/jpeg',
  jpeg: 'image/jpeg',
  svg: 'image/svg+xml',
  webp: 'image/webp',
};
const typeOf = (path: string): string | undefined => PICTURE_TYPES[path.split('.').at(-1)?.toLowerCase() ?? ''];

const isKept = (path: string): boolean =>
  treeOfPath(path) !== undefined || benchOfPath(path) !== undefined || (isFigure(path) && typeOf(path) !== undefined);

const isNamed = (error: unknown, ...names: readonly string[]): boolean => error instanceof DOMException && names.includes(error.name);

/** The desk's files of a directory: of itself, or of its `trees` where they lie there. */
export async function folderFiles(handle: FolderHandle): Promise<FolderFiles> {
  const root = await rootOf(handle);
  const place = async (path: string, create: boolean): Promise<{ readonly directory: FileSystemDirectoryHandle; readonly name: string }> => {
    const [first = '', second] = path.split('/');
    if (second === undefined) return { directory: root, name: first };
    return { directory: await root.getDirectoryHandle(first, { create }), name: second };
  };
  return {
    async list() {
      const found: FolderEntry[] = [];
      const leftAlone: string[] = [];
      for (const folder of ['', 'benches', 'figures']) {
        const directory = folder === '' ? root : await absent(root.getDirectoryHandle(folder));
        if (!directory) continue;
        for await (const entry of directory.values()) {
          if (entry.kind !== 'file') continue;
          const path = folder === '' ? entry.name : `${folder}/${entry.name}`;
          if (isKept(path)) {
            // Gone between the listing and the look: it is not there.
            const file = await absent(entry.getFile());
            if (file) found.push({ path, changed: file.lastModified, size: file.size });
          } else if (/\.(tree\.mdx|bench\.yaml)$/.test(entry.name)) leftAlone.push(path);
        }
      }
      return { files: found, leftAlone };
    },
    async read(path) {
      const at = await absent(place(path, false));
      const file = at && (await absent(at.directory.getFileHandle(at.name)));
      const content = file && (await file.getFile());
      if (!content) return undefined;
      const type = isFigure(path) ? typeOf(path) : undefined;
      return type === undefined ? content.text() : dataAddress(await content.arrayBuffer(), type);
    },
    async write(path, text) {
      const { directory, name } = await place(path, true);
      const file = await directory.getFileHandle(name, { create: true });
      // Written beside the file, and put in its place when closed.
      const stream = await file.createWritable();
      try {
        await stream.write(text.startsWith('data:') && isFigure(path) ? bytesOf(text) : text);
        await stream.close();
      } catch (error) {
        await stream.abort().catch(() => undefined);
        throw error;
      }
    },
    async remove(path) {
      const at = await absent(place(path, false));
      if (at) await absent(at.directory.removeEntry(at.name));
    },
  };
}

/** A checkout has its trees in `trees`; a folder of trees alone has them in itself. */
async function rootOf(handle: FolderHandle): Promise<FileSystemDirectoryHandle> {
  for await (const entry of handle.values()) if (entry.kind === 'file' && treeOfPath(entry.name) !== undefined) return handle;
  return (await absent(handle.getDirectoryHandle('trees'))) ?? handle;
}

async function absent<T>(asked: Promise<T>): Promise<T | undefined> {
  try {
    return await asked;
  } catch (error) {
    if (isNamed(error, 'NotFoundError', 'TypeMismatchError')) return undefined;
    throw error;
  }
}

function dataAddress(bytes: ArrayBuffer, type: string): string {
  let binary = '';
  for (const byte of new Uint8Array(bytes)) binary += String.fromCharCode(byte);
  return `data:${type};base64,${btoa(binary)}`;
}

function bytesOf(address: string): Uint8Array<ArrayBuffer> {
  const comma = address.indexOf(',');
  const content = address.slice(comma + 1);
  if (!address.slice(0, comma).endsWith(';base64')) return new TextEncoder().encode(decodeURIComponent(content));
  return Uint8Array.from(atob(content), (letter) => letter.charCodeAt(0));
}
