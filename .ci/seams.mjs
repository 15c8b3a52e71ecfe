// Breaks seams of src at random, one at a time, and asks the compiler: it must refuse every one. A seam is where two
// places must say the same: an option in an interface and in its reader, a code in a table of sentences and in a note,
// a step or a caution, an input in a model and in its function, an error source in its table and in a method, the parts
// of a method and of its sheet. The sites are found in the syntax tree.
// `npm run check:seams -- 60 7`: 60 breakages from seed 7.
import { resolve } from 'node:path';
import ts from 'typescript';

const count = Number(process.argv[2] ?? 60);
const seed = Number(process.argv[3] ?? Date.now() % 1e6);

const { config } = ts.readConfigFile('tsconfig.build.json', ts.sys.readFile);
const { options, fileNames } = ts.parseJsonConfigFileContent(config, ts.sys, process.cwd());
// What goes unused after a breakage, or wants a type written out, is no proof that the seam holds.
Object.assign(options, { noUnusedLocals: false, noUnusedParameters: false, isolatedDeclarations: false });

const changed = new Map();
const versions = new Map();
const service = ts.createLanguageService({
  getCompilationSettings: () => options,
  getScriptFileNames: () => fileNames,
  getScriptVersion: (file) => String(versions.get(file) ?? 0),
  getScriptSnapshot: (file) => {
    const text = changed.get(file) ?? ts.sys.readFile(file);
    return text === undefined ? undefined : ts.ScriptSnapshot.fromString(text);
  },
  getCurrentDirectory: () => process.cwd(),
  getDefaultLibFileName: ts.getDefaultLibFilePath,
  fileExists: ts.sys.fileExists,
  readFile: ts.sys.readFile,
});
const program = service.getProgram();
const checker = program.getTypeChecker();
const sources = program.getSourceFiles().filter(({ fileName }) => fileNames.includes(fileName));

/** Sites by kind: where to cut and what to put there. */
const sites = {};
const site = (kind, node, from, to, stand) => {
  const source = node.getSourceFile();
  const line = source.getLineAndCharacterOfPosition(node.getStart()).line + 1;
  sites[kind] ??= [];
  sites[kind].push({
    kind,
    file: source.fileName,
    line,
    text: node.getText().split('\n')[0].slice(0, 80),
    from,
    to,
    stand,
  });
};
const misspell = (kind, node) =>
  site(
    kind,
    node,
    node.getEnd() - Number(ts.isStringLiteral(node)),
    node.getEnd() - Number(ts.isStringLiteral(node)),
    'X',
  );
const drop = (kind, node) => {
  const comma = /^\s*,/.exec(node.getSourceFile().text.slice(node.getEnd()))?.[0].length ?? 0;
  site(kind, node, node.getFullStart(), node.getEnd() + comma, ' ');
};
const isKey = (node) =>
  ts.isPropertyAssignment(node) || ts.isShorthandPropertyAssignment(node) || ts.isMethodDeclaration(node);

/** The options: properties of all that an exported function takes. */
const taken = new Set();
const take = (type, seen) => {
  if (seen.has(type)) return;
  seen.add(type);
  if (type.isUnionOrIntersection()) for (const part of type.types) take(part, seen);
  for (const part of checker.getTypeArguments?.(type) ?? []) if (checker.isArrayType(type)) take(part, seen);
  if (type.getCallSignatures().length > 0) return;
  for (const property of checker.isArrayType(type) ? [] : type.getProperties()) {
    const own = (property.declarations ?? []).filter(
      (node) => ts.isPropertySignature(node) && fileNames.includes(node.getSourceFile().fileName),
    );
    // A key that must not stand there is no option.
    for (const node of own) if (node.type?.kind !== ts.SyntaxKind.NeverKeyword) taken.add(node);
    if (own.length > 0) take(checker.getTypeOfSymbol(property), seen);
  }
};
const door = checker.getSymbolAtLocation(program.getSourceFile(resolve('src/index.ts')));
const seen = new Set();
for (const exported of checker.getExportsOfModule(door)) {
  const symbol = exported.flags & ts.SymbolFlags.Alias ? checker.getAliasedSymbol(exported) : exported;
  if (!(symbol.flags & ts.SymbolFlags.Function)) continue;
  for (const { parameters } of checker.getTypeOfSymbol(symbol).getCallSignatures())
    for (const parameter of parameters) take(checker.getTypeOfSymbol(parameter), seen);
}
for (const node of taken) misspell('option renamed in its interface', node.name);

/** Calls that take codes of a table of sentences, and where. */
const CODED = {
  note: ([, code]) => [code],
  sentence: ([, code]) => [code],
  step: ([, , code]) => [code],
  cautions: ([codes]) => codes?.elements ?? [],
};
/** The words that an expression may give. */
const words = (node) => {
  if (!node) return [];
  if (ts.isStringLiteral(node)) return [node];
  return ts.isConditionalExpression(node) ? [...words(node.whenTrue), ...words(node.whenFalse)] : [];
};

const visit = (node) => {
  if (ts.isObjectLiteralExpression(node)) {
    const type = checker.getContextualType(node);
    const name = type?.aliasSymbol?.name ?? type?.symbol?.name;
    const from = (type?.aliasSymbol ?? type?.symbol)?.declarations?.[0]?.getSourceFile().fileName ?? '';
    const keys = node.properties.filter(isKey);
    if (name === 'Fields' && from.endsWith('/core/read.ts'))
      for (const key of keys) drop('key dropped from a reader', key);
    if (name?.startsWith('Method') && from.includes('/method/'))
      for (const key of keys) drop('part of a method left out', key);
    const inputs = keys.find((key) => key.name.getText() === 'inputs')?.initializer;
    if (inputs && ts.isObjectLiteralExpression(inputs) && keys.some((key) => key.name.getText() === 'evaluate'))
      for (const key of inputs.properties.filter(ts.isPropertyAssignment))
        misspell('input of a model misspelt', key.name);
  }
  if (ts.isVariableDeclaration(node) && node.name.getText() === 'SOURCES')
    for (const key of node.initializer.expression.properties) misspell('error source renamed in its table', key.name);
  if (ts.isCallExpression(node) && CODED[node.expression.getText()])
    for (const code of CODED[node.expression.getText()](node.arguments).flatMap(words))
      misspell('code of a sentence misspelt', code);
  ts.forEachChild(node, visit);
};
for (const source of sources) visit(source);

/** Who imports a file, nearest first. */
const importers = new Map();
for (const source of sources) {
  for (const { fileName } of source.imports.map((at) => ({
    fileName: checker.getSymbolAtLocation(at)?.declarations?.[0]?.fileName,
  })))
    importers.set(fileName, [...(importers.get(fileName) ?? []), source.fileName]);
}
const reach = (file) => {
  const order = new Set([file]);
  for (const one of order) for (const next of importers.get(one) ?? []) order.add(next);
  return [...order];
};
const set = (file, text) => {
  if (text === undefined) changed.delete(file);
  else changed.set(file, text);
  versions.set(file, (versions.get(file) ?? 0) + 1);
};
const refused = ({ file, from, to, stand }) => {
  const text = ts.sys.readFile(file);
  set(file, text.slice(0, from) + stand + text.slice(to));
  if (service.getSyntacticDiagnostics(file).length > 0) throw new Error(`no breakage but nonsense: ${file} at ${from}`);
  const found = reach(file).some((one) => service.getSemanticDiagnostics(one).length > 0);
  set(file, undefined);
  return found;
};

/** Marsaglia's 32-bit xorshift (J. Stat. Softw. 8(14), 2003): numbers below n. */
let state = seed * 2 + 1;
const below = (n) => {
  state ^= state << 13;
  state ^= state >>> 17;
  state ^= state << 5;
  return (state >>> 0) % n;
};

for (const file of fileNames) {
  const [wrong] = service.getSemanticDiagnostics(file);
  if (wrong) throw new Error(`src does not compile: ${ts.flattenDiagnosticMessageText(wrong.messageText, ' ')}`);
}
const kinds = Object.keys(sites);
console.log(`seed ${seed}; sites: ${kinds.map((kind) => `${sites[kind].length} ${kind}`).join(', ')}`);
let tried = 0;
let survivors = 0;
while (tried < count && kinds.some((kind) => sites[kind].length > 0)) {
  const list = sites[kinds[tried % kinds.length]];
  const [one] = (list.length > 0 ? list : Object.values(sites).find(({ length }) => length > 0)).splice(
    below(list.length || 1),
    1,
  );
  tried++;
  if (refused(one)) continue;
  survivors++;
  console.log(`compiles: ${one.kind}: ${one.file.slice(process.cwd().length + 1)}:${one.line} ${one.text}`);
}
console.log(`${tried - survivors} of ${tried} breakages are refused`);
process.exitCode = survivors > 0 || tried === 0 ? 1 : 0;
