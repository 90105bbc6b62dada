// Builds the two apps into .build/, each only when something it is made of has changed since.
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { bin, inRoot, isRunAs, run, say } from './repo.mjs';

const APPS = [
  { name: 'field', folder: 'field-ui', from: ['field-ui', 'engine', 'shared/ui', 'shared/device', 'shared/sync'] },
  { name: 'desk', folder: 'author-ui', from: ['author-ui', 'engine', 'shared/ui', 'shared/device', 'shared/sync'] },
];

function* filesUnder(folder) {
  for (const entry of readdirSync(inRoot(folder), { withFileTypes: true }).sort((a, b) => (a.name < b.name ? -1 : 1))) {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) yield* filesUnder(path);
    else if (!/\.test\.tsx?$/.test(entry.name)) yield path;
  }
}

function sourceHash(folders) {
  const hash = createHash('sha256');
  for (const path of ['package-lock.json', ...folders.flatMap((folder) => [...filesUnder(folder)])])
    hash.update(`${path}\0`).update(readFileSync(inRoot(path)));
  return hash.digest('hex');
}

async function build({ name, folder, from }, force) {
  const stamp = inRoot('.build', `${name}.sources`);
  const hash = sourceHash(from);
  const isNew = existsSync(stamp) && readFileSync(stamp, 'utf8') === hash && existsSync(inRoot('.build', name, 'index.html'));
  if (isNew && !force) return true;
  say(`Building the ${name} app.`);
  let output = '';
  const args = ['build', folder, '--base', `/${name}/`, '--outDir', inRoot('.build', name), '--emptyOutDir', '--logLevel', 'warn'];
  const code = await run(bin('vite'), args, { onOutput: (text) => (output += text) });
  if (code !== 0) {
    say(output);
    say(`The ${name} app did not build; what is wrong stands above.`);
    return false;
  }
  mkdirSync(inRoot('.build'), { recursive: true });
  writeFileSync(stamp, hash);
  return true;
}

/** Builds both apps where needed, or in any case with `force`. Resolves to whether both are built; says why where not. */
export async function buildApps({ force = false } = {}) {
  let ok = true;
  for (const app of APPS) ok = (await build(app, force)) && ok;
  return ok;
}

if (isRunAs(import.meta.url)) process.exit((await buildApps({ force: process.argv.includes('--force') })) ? 0 : 1);
