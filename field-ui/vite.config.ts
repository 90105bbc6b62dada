import { fileURLToPath } from 'node:url';
import react from '@vitejs/plugin-react';
import { defaultClientConditions, defineConfig } from 'vite';
import { VitePWA } from 'vite-plugin-pwa';

const fromHere = (path: string): string => fileURLToPath(new URL(path, import.meta.url));

// Nothing in the engine runs by being imported, so what the field app does not call (the reader of tree files) stays out of it.
const ONLY_WHAT_IS_CALLED = { moduleSideEffects: [{ test: /[/\\]engine[/\\]/, sideEffects: false }] };

export default defineConfig({
  root: fromHere('.'),
  base: '/field/',
  cacheDir: fromHere('../node_modules/.vite-field'),
  plugins: [
    react(),
    VitePWA({
      strategies: 'generateSW',
      // A new version waits until the tech takes it, so that it never moves anyone in the middle of a call.
      registerType: 'prompt',
      injectRegister: false,
      manifest: {
        id: '/field/',
        name: 'Ohmward field',
        short_name: 'Ohmward',
        description: 'Find the one failed part, wire or setting in a control circuit, with a meter, in the right order.',
        start_url: '/field/',
        scope: '/field/',
        display: 'standalone',
        orientation: 'any',
        background_color: '#ffffff',
        theme_color: '#07110f',
        icons: [
          { src: 'icon-192.png', sizes: '192x192', type: 'image/png' },
          { src: 'icon-512.png', sizes: '512x512', type: 'image/png' },
          { src: 'icon-maskable-512.png', sizes: '512x512', type: 'image/png', purpose: 'maskable' },
        ],
      },
      workbox: {
        globPatterns: ['**/*.{html,js,css,woff2,svg,png,webmanifest}'],
        // The manifest's icons are in public/ and matched above already.
        navigateFallback: '/field/index.html',
        navigateFallbackAllowlist: [/^\/field\//],
        cleanupOutdatedCaches: true,
        clientsClaim: true,
        skipWaiting: false,
      },
      includeManifestIcons: false,
    }),
  ],
  build: {
    outDir: fromHere('../.build/field'),
    emptyOutDir: true,
    target: 'es2023',
    // The content security policy lets fonts and pictures come from files only.
    assetsInlineLimit: 0,
    chunkSizeWarningLimit: 1500,
    rolldownOptions: { treeshake: ONLY_WHAT_IS_CALLED },
  },
  // In the worker there is no document for a library to lean on.
  resolve: { conditions: ['worker', ...defaultClientConditions] },
  worker: { format: 'es', rolldownOptions: { treeshake: ONLY_WHAT_IS_CALLED } },
  // Beside a running service: the field app with live reload, its editions and the crew's hub from there.
  server: { proxy: { '/editions': 'http://127.0.0.1:4460', '/crew': 'http://127.0.0.1:4460' } },
});
