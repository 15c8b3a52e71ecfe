/** Every `ts` fence in the README, the docs and the docstrings runs, and must assert something. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';
import { describe, expect, it } from 'vitest';

const root = fileURLToPath(new URL('../..', import.meta.url));
const below = (dir: string): string[] =>
  existsSync(root + dir) ? readdirSync(root + dir, { recursive: true }).map((file) => `${dir}/${file}`) : [];
const files = ['README.md', ...below('src'), ...below('docs')].filter(
  (file) => /\.(ts|md)$/.test(file) && !file.startsWith('docs/api') && existsSync(root + file),
);
const rooms = readdirSync(`${root}src`).filter((name) => !name.endsWith('.ts'));

function load(id: string): Promise<unknown> {
  if (id === 'generatrix') return import('generatrix');
  const room = id.replace('generatrix/', '');
  if (!rooms.includes(room)) throw new Error(`an example imports ${id}`);
  return import(`../../src/${room}/index.ts`);
}

/** Every ts code fence with its line; in .ts files only inside comments. */
function fences(file: string): { line: number; code: string }[] {
  const text = readFileSync(root + file, 'utf8');
  const source = file.endsWith('.md') ? text : text.replace(/^[ \t]*\* ?/gm, '');
  return [...source.matchAll(/^```ts(?! no-run)[^\n]*\n([\s\S]*?)^```/gm)].map((match) => ({
    line: source.slice(0, match.index).split('\n').length,
    code: match[1] ?? '',
  }));
}

/**
 * `expression; // => value` becomes an assertion, `// throws code`
 * one on the error's code; imports become look-ups.
 */
function compile(code: string): string {
  const body = code
    .replace(
      /^import (\{[^}]*\}) from '([^']+)';$/gm,
      (_, names: string, id: string) => `const ${names.replaceAll(' as ', ': ')} = await __load('${id}');`,
    )
    .replace(/^(.+?);?\s*\/\/ => (.+)$/gm, '__check($1, $2);')
    .replace(/^(.+?);?\s*\/\/ throws ([\w-]+).*$/gm, "__refused(() => $1, '$2');");
  return ts.transpileModule(body, {
    compilerOptions: { target: ts.ScriptTarget.ES2022, module: ts.ModuleKind.ESNext },
  }).outputText;
}

const AsyncFunction = Object.getPrototypeOf(async () => undefined).constructor as new (
  ...args: string[]
) => (...args: unknown[]) => Promise<void>;

for (const file of files) {
  const list = fences(file);
  if (list.length === 0) continue;
  describe(file, () => {
    it.each(list)('example at line $line', async ({ code }) => {
      let count = 0;
      const check = (got: unknown, wanted: unknown): void => {
        count++;
        expect(got).toEqual(wanted);
      };
      const refused = (call: () => unknown, wanted: string): void => {
        count++;
        expect(call).toThrow(expect.objectContaining({ name: 'GeneratrixError', code: wanted }));
      };
      await new AsyncFunction('__load', '__check', '__refused', compile(code))(load, check, refused);
      expect(count, 'an example must assert something with // =>').toBeGreaterThan(0);
    });
  });
}
