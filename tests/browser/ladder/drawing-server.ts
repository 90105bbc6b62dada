import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { extname, join, normalize } from 'node:path';
import { fileURLToPath } from 'node:url';
import react from '@vitejs/plugin-react';
import { build } from 'vite';
import type { Drawing } from './page/drawing-page.tsx';

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html',
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.woff2': 'font/woff2',
  '.woff': 'font/woff',
};

/** A page that shows one ladder drawing, whichever is set. */
export type DrawingServer = { readonly url: string; show: (drawing: Drawing) => void; close: () => Promise<void> };

/** Builds the page into a folder of its own, and serves it under the policy that the apps have. */
export async function startDrawingServer(): Promise<DrawingServer> {
  const outDir = mkdtempSync(join(tmpdir(), 'ladder-page-'));
  const root = fileURLToPath(new URL('./page', import.meta.url));
  await build({
    root,
    configFile: false,
    logLevel: 'error',
    plugins: [react()],
    build: { outDir, emptyOutDir: true, target: 'es2023', assetsInlineLimit: 0 },
  });
  let drawing = '{}';
  const server = createServer((request, response) => {
    const path = normalize(new URL(request.url ?? '/', 'http://localhost').pathname);
    if (path === '/favicon.ico') return void response.writeHead(204).end();
    const headers = { 'content-security-policy': "default-src 'self'" };
    if (path === '/drawing.json') return void response.writeHead(200, { ...headers, 'content-type': 'application/json' }).end(drawing);
    const file = join(outDir, path === '/' ? 'index.html' : path);
    response.writeHead(200, { ...headers, 'content-type': TYPES[extname(file)] ?? 'application/octet-stream' }).end(readFileSync(file));
  });
  await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
  return {
    url: `http://127.0.0.1:${(server.address() as AddressInfo).port}/`,
    show(next) {
      drawing = JSON.stringify(next);
    },
    async close() {
      await new Promise((done) => server.close(done));
      rmSync(outDir, { recursive: true, force: true });
    },
  };
}
