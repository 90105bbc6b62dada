import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import Module from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, expect, test } from 'vitest';
import { NoSqlite, openStore } from './open-store.ts';

// What Node itself says where a compiled package is missing, was built for another Node, or has no compiled half.

type Loader = { _load: (request: string, ...rest: unknown[]) => unknown };
const loader = Module as unknown as Loader;
const load = loader._load;
const folder = mkdtempSync(join(tmpdir(), 'ohmward-no-sqlite-'));

afterEach(() => {
  loader._load = load;
});
afterAll(() => rmSync(folder, { recursive: true }));

const withCode = (message: string, code: string): Error => Object.assign(new Error(message), { code });

class DriverWithoutItsHalf {
  static SqliteError = class extends Error {};
  constructor() {
    throw new Error('Could not locate the bindings file. Tried:\n → /x/better_sqlite3.node');
  }
}

class DriverOfAnotherNode {
  static SqliteError = class extends Error {};
  constructor() {
    throw withCode('better_sqlite3.node was compiled against a different Node.js version', 'ERR_DLOPEN_FAILED');
  }
}

test.each([
  [
    'is not installed',
    () => {
      throw withCode("Cannot find module 'better-sqlite3'\nRequire stack:\n- /x", 'MODULE_NOT_FOUND');
    },
  ],
  ['has no compiled half', () => DriverWithoutItsHalf],
  ['was compiled for another Node', () => DriverOfAnotherNode],
])('a hub whose SQLite %s says so, and what to do instead', async (_what, stub) => {
  loader._load = (request, ...rest) => (request === 'better-sqlite3' ? stub() : load.call(loader, request, ...rest));
  const error = await openStore({ sqlite: join(folder, 'hub.sqlite') }).catch((reason: unknown) => reason);
  expect(error).toBeInstanceOf(NoSqlite);
  expect(error).toMatchObject({ name: 'NoSqlite', code: 'NO_SQLITE' });
  const { message } = error as NoSqlite;
  for (const part of ['better-sqlite3', 'npm install', 'DATABASE_URL']) expect(message).toContain(part);
  expect(message).not.toContain('\n');
});

test('a place that cannot be written is told as that, and not as a missing package', async () => {
  const error = await openStore({ sqlite: folder }).catch((reason: unknown) => reason);
  expect(error).toBeInstanceOf(Error);
  expect(error).not.toBeInstanceOf(NoSqlite);
});

test('everything but the hub works without it', { timeout: 180_000 }, async () => {
  loader._load = (request, ...rest) => {
    if (request === 'better-sqlite3') throw withCode('gone', 'MODULE_NOT_FOUND');
    return load.call(loader, request, ...rest);
  };
  const { buildServer } = await import('../serve.ts');
  const trees = join(folder, 'no-trees');
  mkdirSync(trees);
  const { app } = await buildServer({ trees });
  expect((await app.inject('/editions/index.json')).statusCode).toBe(200);
  await app.close();
});
