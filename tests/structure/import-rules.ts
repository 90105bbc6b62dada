import { posix } from 'node:path';
import { importsOf } from './imports-of.ts';

/** The folders of the engine from the bottom up. A folder may import from a lower rank only, never from its own. */
const ENGINE_RANKS: readonly (readonly string[])[] = [
  ['quantity'],
  ['formula'],
  ['trade'],
  ['tree', 'bench'],
  ['walk'],
  ['proof', 'suspects'],
  ['review', 'exchange'],
  ['cli'],
];

/** Files at the top of the engine that every folder of it may use. */
const FREE_TO_ALL = ['engine/result.ts', 'engine/problem.ts'];

/** The files by which other folders enter an engine folder, besides its index.ts. */
const SIDE_DOORS = ['engine/cli/shipped-editions.ts'];

/** Packages that reach a screen, a disk, a network or a terminal: for the edges, never for the engine's own sums. */
const EDGE_PACKAGES = /^(react|react-dom|@xstate\/react|dexie|fastify|@fastify\/.+|playwright|@fontsource\/.+|commander)(\/|$)/;

type Zone = { readonly area: 'engine' | 'shared' | 'field-ui' | 'author-ui' | 'tests' | 'other'; readonly folder: string };

function zoneOf(path: string): Zone {
  const [top = '', second = ''] = path.split('/');
  switch (top) {
    case 'engine':
      return { area: top, folder: path.split('/').length > 2 ? second : '' };
    case 'shared':
    case 'field-ui':
    case 'author-ui':
    case 'tests':
      return { area: top, folder: second };
    default:
      return { area: 'other', folder: '' };
  }
}

const rankOf = (folder: string): number => ENGINE_RANKS.findIndex((rank) => rank.includes(folder));
/** Tests, and what only tests are helped by. */
const isTest = (path: string): boolean => /\.test\.tsx?$|\/testing\//.test(path);
const isTestHelp = (path: string): boolean => path.includes('/testing/');
const isToolConfig = (path: string): boolean => /(^|\/)(vite|vitest)\.config\.ts$/.test(path);

/** Why a file may not import another of the repository; undefined where it may. */
function whyNotFile(from: string, to: string): string | undefined {
  const here = zoneOf(from);
  const there = zoneOf(to);
  if (here.area === 'tests') return undefined;
  if (isTestHelp(to) && !isTest(from)) return 'testing folders are for tests';
  if (there.area === 'tests') return isTest(from) ? undefined : 'only tests import from tests';
  if (there.area === 'other') return 'imports reach only engine, shared and the apps';
  if (here.area === 'engine') return whyNotFromEngine(from, to, here.folder, there);
  if (there.area === 'engine') {
    if (here.area !== 'shared' && there.folder === 'cli') return 'the command line is for terminals and the service, not for the apps';
    return isTestHelp(to) ? undefined : throughTheDoor(to, there.folder);
  }
  if (there.area === 'shared') return undefined;
  if (here.area === 'shared') return 'shared imports from no app';
  return here.area === there.area ? undefined : 'the apps do not import from each other';
}

function whyNotFromEngine(from: string, to: string, folder: string, there: Zone): string | undefined {
  if (there.area !== 'engine') return 'the engine imports nothing above it';
  if (FREE_TO_ALL.includes(to)) return undefined;
  if (folder === there.folder) return undefined;
  if (folder === '') return `${from} lies below every engine folder`;
  const [mine, theirs] = [rankOf(folder), rankOf(there.folder)];
  if (mine < 0 || theirs < 0) return 'the engine folder has no place in the order';
  if (theirs >= mine) return `${folder} lies ${theirs === mine ? 'beside' : 'below'} ${there.folder}`;
  return isTestHelp(to) ? undefined : throughTheDoor(to, there.folder);
}

function throughTheDoor(to: string, folder: string): string | undefined {
  if (FREE_TO_ALL.includes(to) || SIDE_DOORS.includes(to) || to === `engine/${folder}/index.ts`) return undefined;
  return `engine/${folder} is entered through its index.ts`;
}

/** Why a file may not import a package; undefined where it may. */
function whyNotPackage(from: string, specifier: string): string | undefined {
  const { area, folder } = zoneOf(from);
  const inEngine = area === 'engine' && folder !== 'cli';
  if (specifier.startsWith('node:')) {
    if (inEngine) return 'only engine/cli touches node';
    const inApp = area === 'field-ui' || area === 'author-ui' || (area === 'shared' && folder !== 'crew');
    return inApp && !isToolConfig(from) && !isTest(from) ? 'a browser has no node' : undefined;
  }
  return inEngine && EDGE_PACKAGES.test(specifier) ? 'the engine knows no screen, disk, network or terminal' : undefined;
}

/** The imports of one file that point the wrong way, each as `path:line the line: why`. `path` is from the top of the repository. */
export function wrongImports(path: string, source: string): string[] {
  const wrong: string[] = [];
  for (const { specifier, line, text } of importsOf(path, source)) {
    const why = specifier.startsWith('.')
      ? whyNotFile(path, posix.normalize(posix.join(posix.dirname(path), specifier)))
      : whyNotPackage(path, specifier);
    if (why) wrong.push(`${path}:${line} ${text}  -- ${why}`);
  }
  return wrong;
}
