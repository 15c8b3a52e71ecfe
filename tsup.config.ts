import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { defineConfig } from 'tsup';
import ts from 'typescript';

/** One entry per room that has a door, so that a new room needs no change here. */
const rooms = readdirSync('src').filter((name) => existsSync(`src/${name}/index.ts`));

/**
 * Marks what a file computes while it loads, such as its readers, as free of effects, so that bundlers leave out
 * what is not used: they do not see it for themselves, and by the rules of the house nothing else happens on import.
 */
function withoutEffects(text: string): string {
  const source = ts.createSourceFile('file.ts', text, ts.ScriptTarget.ES2022, true);
  const computes = (node: ts.Node): boolean =>
    !ts.isFunctionLike(node) &&
    (ts.isCallExpression(node) ||
      ts.isNewExpression(node) ||
      ts.isSpreadAssignment(node) ||
      ts.isSpreadElement(node) ||
      ts.forEachChild(node, (child) => computes(child) || undefined) === true);
  return source.statements
    .flatMap((statement) => (ts.isVariableStatement(statement) ? [...statement.declarationList.declarations] : []))
    .flatMap(({ initializer }) => (initializer && computes(initializer) ? [initializer] : []))
    .reduceRight(
      (all, { pos, end }) => `${all.slice(0, pos)} /* @__PURE__ */ (() => (${all.slice(pos, end)}))()${all.slice(end)}`,
      text,
    );
}

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
  esbuildPlugins: [
    {
      name: 'without-effects',
      setup: ({ onLoad }) => {
        onLoad({ filter: /[\\/]src[\\/].*\.ts$/ }, ({ path }) => ({
          contents: withoutEffects(readFileSync(path, 'utf8')),
          loader: 'ts',
        }));
      },
    },
  ],
});
