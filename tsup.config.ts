import { existsSync, readdirSync } from 'node:fs';
import { defineConfig } from 'tsup';

/** One entry per room that has a door, so that a new room needs no change here. */
const rooms = readdirSync('src').filter((name) => existsSync(`src/${name}/index.ts`));

export default defineConfig({
  entry: {
    index: 'src/index.ts',
    ...Object.fromEntries(rooms.map((name) => [name, `src/${name}/index.ts`])),
    // Files of their own for what needs decimal.js and for the tables, so that bundlers leave out what is not used.
    decimals: 'src/core/exact.ts',
    'standards-data': 'src/taper/standards-data.ts',
  },
  format: ['esm', 'cjs'],
  dts: true,
  tsconfig: 'tsconfig.build.json',
  target: 'es2022',
  platform: 'neutral',
  splitting: true,
  treeshake: false,
  clean: true,
  // The routines for Student's t (their trace output is left out) and for axis marks are bundled, so that users
  // install nothing for them.
  noExternal: [/^@stdlib\//, 'd3-array'],
  esbuildOptions: (options) => {
    options.mainFields = ['browser', 'module', 'main'];
  },
  esbuildPlugins: [
    {
      name: 'no-trace',
      setup: ({ onResolve, onLoad }) => {
        onResolve({ filter: /^debug$/ }, ({ path }) => ({ path, namespace: 'no-trace' }));
        onLoad({ filter: /.*/, namespace: 'no-trace' }, () => ({
          contents: 'module.exports = () => () => undefined;',
        }));
      },
    },
  ],
});
