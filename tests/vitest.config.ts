import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

const root = fileURLToPath(new URL('..', import.meta.url));

export default defineConfig({
  root,
  test: {
    projects: [
      {
        root,
        test: {
          name: 'unit',
          include: ['{engine,shared,field-ui,author-ui}/**/*.test.{ts,tsx}', 'tests/**/*.test.ts'],
          exclude: ['tests/browser/**', '**/node_modules/**'],
          environment: 'node',
          testTimeout: 120_000,
          hookTimeout: 120_000,
        },
      },
      {
        root,
        test: {
          name: 'browser',
          include: ['tests/browser/**/*.test.ts'],
          environment: 'node',
          // One browser at a time: two of them on two cores make each other late.
          fileParallelism: false,
          // On a busy machine everything comes late, and that is no fault.
          testTimeout: 300_000,
          hookTimeout: 300_000,
          expect: { poll: { timeout: 60_000 } },
          sequence: { groupOrder: 1 },
        },
      },
    ],
  },
});
