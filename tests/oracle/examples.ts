/** The examples in the README, the docs and the docstrings: what is written, and how it runs. */
import { readdirSync, readFileSync } from 'node:fs';
import ts from 'typescript';

/** Tests and commands run from the root of the project, also when they are bundled first. */
export const root = `${process.cwd()}/`;

/** One `ts` fence. */
export interface Example {
  readonly file: string;
  readonly line: number;
  readonly code: string;
}

/** Every `ts` fence with its place; in .ts files only inside comments. `ts no-run` marks what does not run. */
export function writtenExamples(): readonly Example[] {
  const below = (dir: string): string[] =>
    readdirSync(`${root}${dir}`, { recursive: true }).map((file) => `${dir}/${file}`);
  const files = ['README.md', ...below('src'), ...below('docs')].filter(
    (file) => /\.(ts|md)$/.test(file) && !file.startsWith('docs/api'),
  );
  return files.flatMap((file) => {
    const text = readFileSync(root + file, 'utf8');
    const source = file.endsWith('.md') ? text : text.replace(/^[ \t]*\* ?/gm, '');
    return [...source.matchAll(/^```ts(?! no-run)[^\n]*\n([\s\S]*?)^```/gm)].map((match) => ({
      file,
      line: source.slice(0, match.index).split('\n').length,
      code: match[1] ?? '',
    }));
  });
}

/** What an example calls while it runs. */
export interface Runner {
  /** Gives the module that an import names. */
  readonly load: (id: string) => unknown;
  /** `expression; // => value`, the n-th check of the example. */
  readonly check: (n: number, got: unknown, wanted: unknown) => void;
  /** `call; // throws code`. */
  readonly refused: (n: number, call: () => unknown, code: string) => void;
}

const CHECK = /^\/\/ => (.+)$/;
const REFUSED = /^\/\/ throws ([\w-]+)/;

/** An example as JavaScript. */
export interface Compiled {
  /** What it imports: names (`a: b` where b stands for a) by module. */
  readonly imports: readonly { readonly names: readonly string[]; readonly from: string }[];
  /** The statements, with commented ones made calls of `__check` and `__refused`. */
  readonly body: string;
  /** How many checks are written. */
  readonly written: number;
}

/** Takes an example apart; one that does not parse is refused. */
export function compileExample({ code }: Pick<Example, 'code'>): Compiled {
  const source = ts.createSourceFile('example.ts', code, ts.ScriptTarget.ES2022, true);
  const imports: { names: string[]; from: string }[] = [];
  let checks = 0;
  const body = source.statements.map((statement) => {
    const text = statement.getText(source);
    if (ts.isImportDeclaration(statement)) {
      const named = statement.importClause?.namedBindings;
      const names = (named && ts.isNamedImports(named) ? [...named.elements] : [])
        .filter(({ isTypeOnly }) => !isTypeOnly)
        .map((element) => element.getText(source).replace(' as ', ': '));
      imports.push({ names, from: (statement.moduleSpecifier as ts.StringLiteral).text });
      return '';
    }
    const [comment] = ts.getTrailingCommentRanges(code, statement.end) ?? [];
    const said = comment ? code.slice(comment.pos, comment.end) : '';
    const [wanted, refusal] = [CHECK.exec(said)?.[1], REFUSED.exec(said)?.[1]];
    if ((wanted ?? refusal) === undefined || !ts.isExpressionStatement(statement)) return text;
    const expression = statement.expression.getText(source);
    return wanted === undefined
      ? `__refused(${checks++}, () => (${expression}), '${refusal}');`
      : `__check(${checks++}, (${expression}), (${wanted}));`;
  });
  const compile = (text: string): ts.TranspileOutput =>
    ts.transpileModule(text, {
      reportDiagnostics: true,
      compilerOptions: { target: ts.ScriptTarget.ES2022, module: ts.ModuleKind.ESNext },
    });
  // The example as it is written, too: its statements alone would leave out what the parser skipped.
  const { outputText, diagnostics = [] } = compile(body.join('\n'));
  const [wrong] = [...(compile(code).diagnostics ?? []), ...diagnostics];
  if (wrong) throw new SyntaxError(ts.flattenDiagnosticMessageText(wrong.messageText, '\n'));
  const written = code.split('\n').filter((line) => /\/\/ (=>|throws )/.test(line)).length;
  return { imports, body: outputText, written };
}

/** Runs an example; gives how many checks are written. */
export async function runExample(example: Example, { load, check, refused }: Runner): Promise<number> {
  const { imports, body, written } = compileExample(example);
  const lookUps = imports.map(({ names, from }) => `const { ${names} } = await __load('${from}');`);
  await new AsyncFunction('__load', '__check', '__refused', [...lookUps, body].join('\n'))(load, check, refused);
  return written;
}

const AsyncFunction = Object.getPrototypeOf(async () => undefined).constructor as new (
  ...args: string[]
) => (...args: unknown[]) => Promise<void>;
