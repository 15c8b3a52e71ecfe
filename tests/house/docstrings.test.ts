/** Every public function shows an example that runs (tests/house/examples.test.ts runs it). */
import { fileURLToPath } from 'node:url';
import ts from 'typescript';
import { expect, it } from 'vitest';

it('every public function has a runnable example', () => {
  const door = fileURLToPath(new URL('../../src/index.ts', import.meta.url));
  const program = ts.createProgram([door], {
    target: ts.ScriptTarget.ES2022,
    module: ts.ModuleKind.NodeNext,
    moduleResolution: ts.ModuleResolutionKind.NodeNext,
    types: [],
  });
  const checker = program.getTypeChecker();
  const source = program.getSourceFile(door);
  const module = source && checker.getSymbolAtLocation(source);
  const functions = (module ? checker.getExportsOfModule(module) : [])
    .map((symbol) => (symbol.flags & ts.SymbolFlags.Alias ? checker.getAliasedSymbol(symbol) : symbol))
    .filter((symbol) => symbol.flags & ts.SymbolFlags.Function);
  expect(functions.length).toBeGreaterThan(0);
  const bare = functions
    .filter(
      (symbol) =>
        !symbol
          .getJsDocTags(checker)
          .some(({ name, text }) => name === 'example' && ts.displayPartsToString(text).includes('```ts')),
    )
    .map((symbol) => symbol.name);
  expect(bare).toEqual([]);
});
