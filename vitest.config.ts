import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

const src = fileURLToPath(new URL('./src/', import.meta.url));

export default defineConfig({
  resolve: {
    alias: [
      { find: /^generatrix$/, replacement: `${src}index.ts` },
      { find: /^generatrix\/(.+)$/, replacement: `${src}$1/index.ts` },
    ],
  },
  test: {
    include: ['tests/**/*.test.ts'],
    allowOnly: false,
    testTimeout: 120_000,
    coverage: {
      provider: 'v8',
      include: ['src/**/*.ts'],
      reporter: ['text-summary', 'json-summary'],
      reportsDirectory: 'reports/coverage',
      thresholds: { lines: 95, functions: 95, branches: 90, statements: 95 },
    },
  },
});
