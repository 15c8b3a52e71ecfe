import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

const src = fileURLToPath(new URL('./src/', import.meta.url));

/** What needs a browser or the network has a command of its own, so that `npm test` needs Node alone. */
const apart: Readonly<Record<string, string>> = {
  browser: 'tests/!(package)/browser*.test.ts',
  package: 'tests/package/*.test.ts',
};

export default defineConfig(({ mode }) => ({
  resolve: {
    alias: [
      { find: /^generatrix$/, replacement: `${src}index.ts` },
      { find: /^generatrix\/(.+)$/, replacement: `${src}$1/index.ts` },
    ],
  },
  test: {
    include: [apart[mode] ?? 'tests/**/*.test.ts'],
    exclude: mode in apart ? [] : Object.values(apart),
    allowOnly: false,
    setupFiles: ['tests/oracle/seed.ts'],
    // One load of the library for all files of a worker: the functions hold no state that a test could leave behind.
    pool: 'threads',
    maxWorkers: 2,
    isolate: false,
    testTimeout: 120_000,
    coverage: {
      provider: 'v8',
      include: ['src/**/*.ts'],
      reporter: ['text-summary', 'json-summary'],
      reportsDirectory: 'reports/coverage',
      thresholds: { lines: 95, functions: 95, branches: 90, statements: 95 },
    },
  },
}));
