/** Every `ts` fence in the README, the docs and the docstrings compiles, runs, and asserts what it says. */
import { readdirSync } from 'node:fs';
import ts from 'typescript';
import { describe, expect, it } from 'vitest';
import { root, runExample, writtenExamples } from '../oracle/examples.js';
import { programWith } from '../oracle/program.js';

const rooms = readdirSync(`${root}src`).filter((name) => !name.endsWith('.ts'));

function load(id: string): Promise<unknown> {
  if (id === 'generatrix') return import('generatrix');
  const room = id.replace('generatrix/', '');
  if (!rooms.includes(room)) throw new Error(`an example imports ${id}`);
  return import(`../../src/${room}/index.ts`);
}

const examples = writtenExamples();

it('all examples compile', () => {
  const files = new Map(
    examples.map(({ file, line, code }) => [
      `tests/house/${file.replace(/\W/g, '-')}-${line}.ts`,
      // What a refusal shows may be what the compiler refuses too.
      code.replace(/^(?=.*\/\/ throws )/gm, '// @ts-ignore\n'),
    ]),
  );
  const program = programWith(files, { noUncheckedIndexedAccess: false, noImplicitAny: false });
  const wrong = [...files.keys()].flatMap((path) => {
    const source = program.getSourceFile(root + path);
    return [...program.getSyntacticDiagnostics(source), ...program.getSemanticDiagnostics(source)].map(
      ({ messageText }) => `${path}: ${ts.flattenDiagnosticMessageText(messageText, '\n')}`,
    );
  });
  expect(files.size).toBeGreaterThan(100);
  expect(wrong).toEqual([]);
});

describe.each([...new Set(examples.map(({ file }) => file))])('%s', (from) => {
  it.each(examples.filter(({ file }) => file === from))('example at line $line', async (example) => {
    const ran = new Set<number>();
    const written = await runExample(example, {
      load,
      check: (n, got, wanted) => {
        ran.add(n);
        expect(got).toEqual(wanted);
      },
      refused: (n, call, code) => {
        ran.add(n);
        expect(call).toThrow(expect.objectContaining({ name: 'GeneratrixError', code }));
      },
    });
    expect(written, 'an example must assert something with // =>').toBeGreaterThan(0);
    expect(ran.size, 'checks that ran, against those written').toBe(written);
  });
});

describe('the runner itself', () => {
  /** What is wrong with an example, as the tests above see it; none if it passes. */
  const wrong = async (code: string): Promise<string | undefined> => {
    const ran = new Set<number>();
    try {
      const written = await runExample(
        { file: 'x', line: 1, code },
        {
          load,
          check: (n, got, wanted) => {
            ran.add(n);
            if (JSON.stringify(got) !== JSON.stringify(wanted)) throw new Error(`${got} for ${wanted}`);
          },
          refused: (n) => ran.add(n),
        },
      );
      return written === ran.size ? undefined : `${ran.size} of ${written} ran`;
    } catch (error) {
      return (error as Error).message;
    }
  };

  it('runs a check at the end of a call over several lines, and does not take another value for it', async () => {
    const call = (wanted: string): string => `Object.assign({\n  decision: 'reject',\n}).decision; // => ${wanted}\n`;
    expect(await wrong(call("'reject'"))).toBeUndefined();
    expect(await wrong(call("'banana'"))).toBe('reject for banana');
  });

  it('refuses what does not parse, and misses checks that stand where none can run', async () => {
    expect(await wrong("}).decision; // => 'reject'\n")).toMatch(/expected/);
    expect(await wrong("const a = ({ b: 1 }).b; // => 'banana'\n")).toBe('0 of 1 ran');
    expect(await wrong('if (1 > 2) {\n  1 + 1; // => 3\n}\n')).toBe('0 of 1 ran');
  });

  it('sees a call that the compiler refuses', () => {
    const path = 'tests/house/refused.ts';
    const program = programWith(new Map([[path, "import { frustum } from 'generatrix';\nfrustum({ nothing: 1 });\n"]]));
    expect(program.getSemanticDiagnostics(program.getSourceFile(root + path))).toHaveLength(1);
  });
});
