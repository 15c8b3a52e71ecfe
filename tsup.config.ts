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
  // The routine for axis marks is bundled, so that users install nothing for it.
  noExternal: ['d3-array'],
});
