import { createHash } from 'node:crypto';
import { mkdir, mkdtemp, readdir, readFile, rm, symlink, writeFile } from 'node:fs/promises';
import { request } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import canonicalize from 'canonicalize';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { EditionEntry } from './edition-shelf.ts';
import { type RunningServer, SHIPPED_TREES, startServer } from './serve.ts';

type Answer = { readonly status: number; readonly headers: Readonly<Record<string, string | string[] | undefined>>; readonly body: string };

let server: RunningServer;
let apps: string;

/** Asks with the path exactly as given: fetch would tidy it first. */
function ask(path: string, method = 'GET', body?: string): Promise<Answer> {
  const { hostname, port } = new URL(server.url);
  return new Promise((resolve, reject) => {
    const asking = request({ hostname, port, path, method }, (response) => {
      const chunks: Buffer[] = [];
      response.on('data', (chunk: Buffer) => chunks.push(chunk));
      response.on('end', () =>
        resolve({ status: response.statusCode ?? 0, headers: response.headers, body: Buffer.concat(chunks).toString('utf8') }),
      );
    });
    asking.on('error', reject);
    asking.end(body);
  });
}

beforeAll(async () => {
  apps = await mkdtemp(join(tmpdir(), 'ohmward-apps-'));
  for (const name of ['field', 'desk']) {
    await mkdir(join(apps, name, 'assets'), { recursive: true });
    await writeFile(join(apps, name, 'index.html'), `<!doctype html><title>${name}</title>`);
    await writeFile(join(apps, name, 'assets', 'index-Ab12Cd34.js'), '0;');
    await writeFile(join(apps, name, '.hidden'), 'hidden');
  }
  await writeFile(join(apps, 'secret.txt'), 'secret');
  server = await startServer({ port: 0, host: '127.0.0.1', apps });
});

afterAll(async () => {
  await server.close();
  await rm(apps, { recursive: true });
});

describe('pages', () => {
  test('the front door leads to both apps', async () => {
    const { status, headers, body } = await ask('/');
    expect(status).toBe(200);
    expect(headers['content-type']).toContain('text/html');
    expect(body).toContain('href="/field/"');
    expect(body).toContain('href="/desk/"');
    for (const [, file] of body.matchAll(/(?:href|src)="(\/[^"]+\.(?:css|js|svg|woff2))"/g)) expect((await ask(file ?? '')).status, file).toBe(200);
  });

  test.each(['field', 'desk'])('/%s/ is its app, and without the slash leads there', async (name) => {
    expect((await ask(`/${name}/`)).body).toContain(`<title>${name}</title>`);
    const bare = await ask(`/${name}`);
    expect([301, 302, 308]).toContain(bare.status);
    expect(bare.headers.location).toBe(`/${name}/`);
  });

  test('a file named by its contents may be kept for good, a page may not', async () => {
    expect((await ask('/field/assets/index-Ab12Cd34.js')).headers['cache-control']).toBe('public, max-age=31536000, immutable');
    expect((await ask('/field/')).headers['cache-control']).toBe('no-cache');
    expect((await ask('/')).headers['cache-control']).toBe('no-cache');
  });
});

describe('editions', () => {
  test('each is listed with what a screen shows, and its name is the hash of its canonical text', async () => {
    const entries = JSON.parse((await ask('/editions/index.json')).body) as EditionEntry[];
    expect(entries.length).toBeGreaterThan(0);
    for (const entry of entries) {
      const { status, headers, body } = await ask(`/editions/${entry.hash}.json`);
      expect(status).toBe(200);
      expect(headers['cache-control']).toBe('public, max-age=31536000, immutable');
      const edition = JSON.parse(body) as { root: string; trees: Record<string, { title: string; complaint: string; steps: unknown[] }> };
      // RFC 8785 by the canonicalize package, SHA-256 by node: neither is the engine's.
      expect(
        createHash('sha256')
          .update(canonicalize(edition) ?? '')
          .digest('hex'),
      ).toBe(entry.hash);
      expect(entry).toEqual({
        hash: entry.hash,
        name: edition.root,
        title: edition.trees[entry.name]?.title,
        complaint: edition.trees[entry.name]?.complaint,
        steps: edition.trees[entry.name]?.steps.length,
      });
    }
  });

  test.each(['0'.repeat(64), 'nothing', `${'0'.repeat(64)}.json.exe`, '..%2f..%2fpackage'])('there is no edition %s', async (name) => {
    expect((await ask(`/editions/${name}.json`)).status).toBe(404);
  });
});

describe('tree sources', () => {
  test('are those of the folder, as they stand on disk', async () => {
    const listed = JSON.parse((await ask('/trees/')).body) as { trees: { name: string; path: string }[] };
    const onDisk = (await readdir(SHIPPED_TREES)).filter((file) => file.endsWith('.tree.mdx')).sort();
    expect(listed.trees.map(({ path }) => path)).toEqual(onDisk);
    for (const { path } of listed.trees) {
      const { status, headers, body } = await ask(`/trees/${path}`);
      expect(status).toBe(200);
      expect(headers['content-type']).toBe('text/plain; charset=utf-8');
      expect(body).toBe(await readFile(join(SHIPPED_TREES, path), 'utf8'));
    }
  });

  test('a link out of the folder is not one of them', async () => {
    const trees = await mkdtemp(join(tmpdir(), 'ohmward-trees-'));
    await symlink(join(SHIPPED_TREES, '..', 'package.json'), join(trees, 'outside.tree.mdx'));
    const other = await startServer({ port: 0, host: '127.0.0.1', apps, trees });
    try {
      expect(await (await fetch(`${other.url}/trees/`)).json()).toEqual({ trees: [], benches: [], figures: [] });
      expect((await fetch(`${other.url}/trees/outside.tree.mdx`)).status).toBe(404);
    } finally {
      await other.close();
      await rm(trees, { recursive: true });
    }
  });
});

describe('what is refused', () => {
  test.each([
    '/trees/../package.json',
    '/trees/..%2fpackage.json',
    '/trees/%2e%2e/package.json',
    '/trees/benches/../../package.json',
    '/trees/benches/..%2f..%2fpackage.json',
    '/trees/README.md',
    '/trees/%00',
    '/field/../secret.txt',
    '/field/..%2fsecret.txt',
    '/field/%2e%2e/secret.txt',
    '/field/..%5csecret.txt',
    '/field//etc/passwd',
    '/desk/.hidden',
    '/desk/assets/',
    '/package.json',
    '/.git/config',
    '/%',
    '/field/%',
    '//etc/passwd',
    `/trees/${'a'.repeat(5000)}`,
  ])('GET %s', async (path) => {
    const { status, body } = await ask(path);
    expect(status).toBeGreaterThanOrEqual(400);
    expect(status).toBeLessThan(500);
    expect(body).not.toMatch(/secret|hidden|"scripts"|root:|at .+\.(ts|js):\d+/);
  });

  test.each(['POST', 'PUT', 'PATCH', 'DELETE', 'OPTIONS', 'TRACE', 'PROPFIND'])('%s', async (method) => {
    for (const path of ['/', '/field/', '/editions/index.json', '/trees/', '/nowhere']) {
      const { status, headers } = await ask(path, method);
      expect(status, path).toBe(405);
      expect(headers.allow).toBe('GET, HEAD');
    }
  });

  test('a body, however large', async () => {
    const { status } = await ask('/editions/index.json', 'POST', 'x'.repeat(100_000));
    expect(status).toBe(405);
    expect((await ask('/trees/')).status).toBe(200);
  });

  test('HEAD is answered as GET is, without the body', async () => {
    const { status, body, headers } = await ask('/editions/index.json', 'HEAD');
    expect([status, body]).toEqual([200, '']);
    expect(headers['content-type']).toContain('application/json');
  });
});

describe('headers', () => {
  test.each(['/', '/field/', '/desk/', '/editions/index.json', '/trees/', '/nowhere'])('of %s keep a page to its own files', async (path) => {
    const { headers } = await ask(path);
    expect(String(headers['content-security-policy']).split(';').sort()).toEqual([
      "base-uri 'none'",
      "connect-src 'self'",
      "default-src 'self'",
      "font-src 'self'",
      "form-action 'self'",
      "frame-ancestors 'none'",
      "img-src 'self' blob: data:",
      "manifest-src 'self'",
      "object-src 'none'",
      "script-src 'self'",
      "style-src 'self'",
      "worker-src 'self'",
    ]);
    expect(headers['x-content-type-options']).toBe('nosniff');
    expect(headers['referrer-policy']).toBe('no-referrer');
    expect(headers['strict-transport-security']).toBeUndefined();
  });
});

test('an app that is not built says so', async () => {
  const empty = await mkdtemp(join(tmpdir(), 'ohmward-empty-'));
  const other = await startServer({ port: 0, host: '127.0.0.1', apps: empty });
  try {
    const answer = await fetch(`${other.url}/field/`);
    expect(answer.status).toBe(503);
    expect(await answer.text()).toContain('npm run build');
  } finally {
    await other.close();
    await rm(empty, { recursive: true });
  }
});

test('a port that is taken is told by its code, and a folder that is not there by its name', async () => {
  const port = Number(new URL(server.url).port);
  await expect(startServer({ port, host: '127.0.0.1', apps })).rejects.toMatchObject({ code: 'EADDRINUSE' });
  await expect(startServer({ port: 0, host: '127.0.0.1', trees: '/nowhere/at/all' })).rejects.toThrow('/nowhere/at/all');
});
