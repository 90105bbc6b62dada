// Installs what the repository needs, only where it is missing. Uses nothing but Node, since it runs before any package is there.
import { existsSync, readFileSync } from 'node:fs';
import { inRoot, isRunAs, run, say } from './repo.mjs';
import { installTestTools } from './test-tools.mjs';

const OLDEST_NODE = [20, 19];

/** What npm reads from the environment to reach a registry; everything else that a running npm hands down is dropped. */
const KEPT = /^npm_config_(registry|cache|userconfig|globalconfig|proxy|https_proxy|noproxy|cafile)$/i;

function environment() {
  const env = { PLAYWRIGHT_SKIP_BROWSER_DOWNLOAD: '1' };
  for (const [name, value] of Object.entries(process.env)) if (!/^npm_/i.test(name) || KEPT.test(name)) env[name] = value;
  return env;
}

const readLock = (path) => (existsSync(path) ? JSON.parse(readFileSync(path, 'utf8')).packages : undefined);

/** Why the installed packages are not those of the lock file; undefined where they are. Contents decide: times change with every checkout. */
function whyInstall() {
  const wanted = readLock(inRoot('package-lock.json')) ?? {};
  const installed = readLock(inRoot('node_modules', '.package-lock.json'));
  if (!installed) return 'no packages are installed yet';
  for (const [place, entry] of Object.entries(wanted)) {
    if (place === '') continue;
    const there = installed[place];
    if (!there && entry.optional) continue;
    if (there?.version !== entry.version || there.integrity !== entry.integrity)
      return `${place.replace('node_modules/', '')} is not at ${entry.version}`;
  }
  return undefined;
}

async function installPackages() {
  const why = whyInstall();
  if (!why) return true;
  say(`Installing the packages (${why}). This takes a minute the first time.`);
  const npm = process.env.npm_execpath;
  const args = ['ci', '--no-audit', '--no-fund', '--loglevel=error'];
  const [command, all] = npm && /\.c?js$/.test(npm) ? [process.execPath, [npm, ...args]] : ['npm', args];
  if ((await run(command, all, { env: environment() })) === 0) return true;
  say('The packages could not be installed. Nothing was started. Check that the npm registry can be reached, then run the same command again.');
  return false;
}

function nodeIsNewEnough() {
  const [major, minor] = process.versions.node.split('.').map(Number);
  if (major > OLDEST_NODE[0] || (major === OLDEST_NODE[0] && minor >= OLDEST_NODE[1])) return true;
  say(
    `Ohmward needs Node ${OLDEST_NODE.join('.')} or newer; this is ${process.versions.node}. Install a newer Node, then run the same command again.`,
  );
  return false;
}

/** Installs the packages, and with `testTools` the programs that the tests drive. Resolves to whether all is there; says why where not. */
export async function install({ testTools = false } = {}) {
  return nodeIsNewEnough() && (await installPackages()) && (!testTools || (await installTestTools()));
}

if (isRunAs(import.meta.url)) process.exit((await install({ testTools: process.argv.includes('--with-test-tools') })) ? 0 : 1);
