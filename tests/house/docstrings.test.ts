/** Every public function shows an example that runs (tests/house/examples.test.ts runs it). */
import ts from 'typescript';
import { expect, it } from 'vitest';
import { exportsOf, sourceProgram } from '../oracle/program.js';

it('every public function has a runnable example', () => {
  const checker = sourceProgram().getTypeChecker();
  const functions = exportsOf(sourceProgram(), 'src/index.ts').filter(({ flags }) => flags & ts.SymbolFlags.Function);
  expect(functions.length).toBeGreaterThan(0);
  const bare = functions
    .filter(
      (symbol) =>
        !symbol
          .getJsDocTags(checker)
          .some(({ name, text }) => name === 'example' && ts.displayPartsToString(text).includes('```ts')),
    )
    .map(({ name }) => name);
  expect(bare).toEqual([]);
});
