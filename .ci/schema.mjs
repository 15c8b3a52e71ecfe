// Writes docs/job.schema.json from the types of a job, as the compiler resolves them: what a machine may hold is put
// together from the methods, so that no generator that reads declarations alone could know it.
// Usage: node .ci/schema.mjs [--out file]
import { readFileSync, writeFileSync } from 'node:fs';
import ts from 'typescript';

const out = process.argv[process.argv.indexOf('--out') + 1 || process.argv.length] ?? 'docs/job.schema.json';
const { config } = ts.readConfigFile('tsconfig.build.json', ts.sys.readFile);
const { options } = ts.parseJsonConfigFileContent({ ...config, extends: './tsconfig.json' }, ts.sys, process.cwd());
const program = ts.createProgram(['src/plan/job.ts'], options);
const checker = program.getTypeChecker();
const definitions = {};

/** Types with a name of their own become definitions. */
function nameOf(type) {
  const symbol = type.aliasSymbol ?? (type.isClassOrInterface() ? type.symbol : undefined);
  const name = symbol?.name;
  return name && !/^(__|ReadonlyArray|Array|Extract|Exclude)/.test(name) && !type.aliasTypeArguments ? name : undefined;
}

function schemaOf(type) {
  const name = nameOf(type);
  if (!name) return inline(type);
  if (!(name in definitions)) {
    definitions[name] = {}; // stands for itself while it is being made
    const description = text(type.aliasSymbol ?? type.symbol);
    definitions[name] = { ...inline(type), ...(description && { description }) };
  }
  return { $ref: `#/definitions/${name}` };
}

function inline(type) {
  if (type.isUnion()) return union(type.types.filter(({ flags }) => !(flags & ts.TypeFlags.Undefined)));
  if (type.isStringLiteral()) return { type: 'string', const: type.value };
  if (type.flags & ts.TypeFlags.BooleanLike) return { type: 'boolean' };
  if (type.flags & ts.TypeFlags.NumberLike) return { type: 'number' };
  if (type.flags & ts.TypeFlags.StringLike) return { type: 'string' };
  if (checker.isArrayType(type)) return { type: 'array', items: schemaOf(checker.getTypeArguments(type)[0]) };
  return objectOf(type);
}

function union(types) {
  if (types.length === 1) return schemaOf(types[0]);
  if (types.every((type) => type.isStringLiteral())) return { type: 'string', enum: types.map(({ value }) => value) };
  if (types.every(({ flags }) => flags & ts.TypeFlags.BooleanLike)) return { type: 'boolean' };
  return { anyOf: types.map(schemaOf) };
}

function objectOf(type) {
  const properties = {};
  const required = [];
  for (const property of type.getProperties()) {
    const of = checker.getTypeOfSymbol(property);
    const given = of.isUnion() ? of.types.filter(({ flags }) => !(flags & ts.TypeFlags.Undefined)) : [of];
    // A key that must not be there is one that is not known.
    if (given.length === 0 || given.every(({ flags }) => flags & (ts.TypeFlags.Never | ts.TypeFlags.Undefined)))
      continue;
    const optional = (property.flags & ts.SymbolFlags.Optional) !== 0;
    if (!optional) required.push(property.name);
    const description = text(property);
    const fallback = tag(property, 'defaultValue');
    const value = Number(fallback);
    properties[property.name] = {
      ...(optional && of.isUnion() && !of.aliasSymbol ? union(given) : schemaOf(of)),
      ...(description && { description }),
      ...(fallback && Number.isFinite(value) && { default: value }),
    };
  }
  return {
    type: 'object',
    properties: sorted(properties),
    ...(required.length > 0 && { required: required.sort() }),
    additionalProperties: false,
  };
}

function text(symbol) {
  return ts.displayPartsToString(symbol?.getDocumentationComment(checker)).replace(/\s+/g, ' ');
}

function tag(symbol, name) {
  const found = symbol.getJsDocTags(checker).find((one) => one.name === name);
  return found && ts.displayPartsToString(found.text);
}

function sorted(object) {
  return Object.fromEntries(Object.entries(object).sort(([a], [b]) => (a < b ? -1 : 1)));
}

const [job] = checker
  .getExportsOfModule(checker.getSymbolAtLocation(program.getSourceFile('src/plan/job.ts')))
  .filter(({ name }) => name === 'Job');
schemaOf(checker.getDeclaredTypeOfSymbol(job));
const { name } = JSON.parse(readFileSync('package.json', 'utf8'));
const schema = {
  $schema: 'http://json-schema.org/draft-07/schema#',
  $id: `urn:${name}:job`,
  $ref: '#/definitions/Job',
  definitions: sorted(definitions),
};
writeFileSync(out, `${JSON.stringify(schema, null, 2)}\n`);
