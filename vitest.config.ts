import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

const src = fileURLToPath(new URL('./src/', import.meta.url));

/** What needs a browser or the network has a command of its own, so that `npm test` needs Node alone. */
const apart: Readonly<Record<string, string>> = {
  browser: 'tests/!(package)/browser*.test.ts',
  package: 'tests/package/*.test.ts',
};

/** The long run takes every run from a new seed, or from the one that SEED names: tests/oracle/seed.ts. */
function longRun(): Readonly<Record<string, string>> {
  const seed = process.env['SEED'] ?? String(Math.floor(Math.random() * 1e6));
  console.log(`the long run, SEED=${seed}`);
  return { RUNS: 'long', SEED: seed };
}

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
    env: mode === 'long' ? longRun() : {},
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
