import { fileURLToPath } from 'node:url';
import mdx from '@mdx-js/rollup';
import react from '@vitejs/plugin-react';
import { defaultClientConditions, defineConfig } from 'vite';

const fromHere = (path: string): string => fileURLToPath(new URL(path, import.meta.url));

const SERVICE = 'http://127.0.0.1:4460';

export default defineConfig({
  root: fromHere('.'),
  base: '/desk/',
  cacheDir: fromHere('../node_modules/.vite-desk'),
  // The guide becomes a component when the desk is built: nothing is compiled in the browser.
  plugins: [{ enforce: 'pre', ...mdx() }, react()],
  build: {
    outDir: fromHere('../.build/desk'),
    emptyOutDir: true,
    target: 'es2023',
    // The content security policy lets fonts and pictures come from files only.
    assetsInlineLimit: 0,
    chunkSizeWarningLimit: 1500,
  },
  // Trees are read in a worker, where there is no document for a library to lean on.
  worker: { format: 'es' },
  resolve: { conditions: ['worker', ...defaultClientConditions] },
  // Beside a running service: the desk with live reload, its data and its crew from there.
  server: {
    proxy: { '/trees': SERVICE, '/editions': SERVICE, '/crew': { target: SERVICE, changeOrigin: true, headers: { origin: SERVICE } } },
  },
});
