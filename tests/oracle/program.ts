/** The compiler's view of `src`, made once for all tests that ask. */
import ts from 'typescript';
import { root } from './examples.js';

const { config } = ts.readConfigFile(`${root}tsconfig.json`, ts.sys.readFile);
const options = {
  ...ts.parseJsonConfigFileContent(config, ts.sys, root).options,
  noUnusedLocals: false,
  noUnusedParameters: false,
};

/** Files as parsed, for all programs: what is set looser in one of them does not change how a file reads. */
const parsed = new Map<string, ts.SourceFile | undefined>();

/** A program of the front door and of further files that exist in memory only, by path from the root. */
export function programWith(
  files: ReadonlyMap<string, string> = new Map(),
  looser: ts.CompilerOptions = {},
): ts.Program {
  const inMemory = new Map([...files].map(([path, text]) => [root + path, text]));
  const host = ts.createCompilerHost(options, true);
  const { fileExists, readFile, getSourceFile } = host;
  host.fileExists = (path) => inMemory.has(path) || fileExists(path);
  host.readFile = (path) => inMemory.get(path) ?? readFile(path);
  host.getSourceFile = (path, target, ...rest) => {
    const text = inMemory.get(path);
    if (text !== undefined) return ts.createSourceFile(path, text, target as ts.ScriptTarget, true);
    if (!parsed.has(path)) parsed.set(path, getSourceFile(path, target, ...rest));
    return parsed.get(path);
  };
  return ts.createProgram([`${root}src/index.ts`, ...inMemory.keys()], { ...options, ...looser }, host);
}

/** What a file of the program exports, by name, with re-exports followed to their source. */
export function exportsOf(program: ts.Program, path: string): readonly ts.Symbol[] {
  const checker = program.getTypeChecker();
  const source = program.getSourceFile(root + path);
  const module = source && checker.getSymbolAtLocation(source);
  return (module ? checker.getExportsOfModule(module) : []).map((symbol) =>
    symbol.flags & ts.SymbolFlags.Alias ? checker.getAliasedSymbol(symbol) : symbol,
  );
}

let shared: ts.Program | undefined;
/** The program of `src` alone. */
export const sourceProgram = (): ts.Program => {
  shared ??= programWith();
  return shared;
};
