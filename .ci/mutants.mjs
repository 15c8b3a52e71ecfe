// Changes src at random, one place at a time, and runs a room's tests: they must notice. Comparisons, arithmetic, signs,
// conditions, branches and numbers are changed, at places drawn from the syntax tree; a survivor is either a change that
// means the same or a test that is missing. No file is written: the change is made where the tests load it.
// `npm run check:mutants -- 45 7 taper`: 45 changes from seed 7 in src/taper, judged by tests/taper; a file
// (`taper/convert`) or the room that tests others (`measure tests/plan`) may be named too.
// `npm run check:mutants -- 200 7 published`: one digit of a printed number at a time, judged by the tests that use it.
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import ts from 'typescript';
import { startVitest } from 'vitest/node';

const count = Number(process.argv[2] ?? 20);
const seed = Number(process.argv[3] ?? Date.now() % 1e6);
const [, , , , room = 'taper', judge] = process.argv;

/** Files below a folder. */
const below = (dir, ending) =>
  readdirSync(dir, { recursive: true })
    .map((file) => `${dir}/${file}`)
    .filter((file) => file.endsWith(ending));

/** Digits with the last one that counts made another; whole numbers one more. */
const otherDigits = (text) =>
  text.includes('.') ? text.replace(/\d(?=0*$)/, (digit) => (Number(digit) + 1) % 10) : String(Number(text) + 1);

const SWAPS = {
  '<': '<=', '<=': '<', '>': '>=', '>=': '>', '===': '!==', '!==': '===',
  '+': '-', '-': '+', '*': '/', '/': '*', '&&': '||', '||': '&&', '+=': '-=', '-=': '+=', '*=': '/=',
}; // biome-ignore format: pairs

/** What can be changed in a file of src: from, to, what stands there instead. */
function sitesOf(file) {
  const text = readFileSync(file, 'utf8');
  const source = ts.createSourceFile(file, text, ts.ScriptTarget.ES2022, true);
  const sites = [];
  const add = (node, stand, from = node.getStart(source), to = node.end) => sites.push({ file, text, from, to, stand });
  const visit = (node) => {
    if (ts.isTypeNode(node) || ts.isImportDeclaration(node) || ts.isInterfaceDeclaration(node)) return;
    if (ts.isBinaryExpression(node)) {
      const swap = SWAPS[node.operatorToken.getText(source)];
      // A sum of texts is no arithmetic.
      const words = [node.left, node.right].some((side) => /^['"`]/.test(side.getText(source)));
      if (swap && !words) add(node.operatorToken, swap);
    } else if (ts.isConditionalExpression(node)) {
      const [yes, no] = [node.whenTrue.getText(source), node.whenFalse.getText(source)];
      add(node, `(${no}) : (${yes})`, node.whenTrue.getStart(source), node.whenFalse.end);
    } else if (ts.isIfStatement(node)) {
      add(node.expression, `!(${node.expression.getText(source)})`);
    } else if (ts.isPrefixUnaryExpression(node) && /^[-!]/.test(node.getText(source))) {
      add(node, node.operand.getText(source));
    } else if (ts.isNumericLiteral(node) && /^\d+(\.\d+)?$/.test(node.getText(source))) {
      add(node, otherDigits(node.getText(source)));
    } else if (ts.isStringLiteral(node) && /^\d+(\.\d+)?$/.test(node.text)) {
      add(node, `'${otherDigits(node.text)}'`);
    } else if (ts.isPropertyAccessExpression(node) && /^Math\.(sin|cos|min|max)$/.test(node.getText(source))) {
      const other = { sin: 'cos', cos: 'sin', min: 'max', max: 'min' };
      add(node.name, other[node.name.text]);
    }
    ts.forEachChild(node, visit);
  };
  visit(source);
  return sites;
}

const PUBLISHED = 'tests/reference/published.json';

/** Each printed number of the published examples, and its last digit changed. */
function printedSites() {
  const text = readFileSync(PUBLISHED, 'utf8');
  const tests = below('tests', '.test.ts').filter((file) => !file.startsWith('tests/house'));
  const files = tests.map((file) => [file, readFileSync(file, 'utf8')]);
  const entries = [...text.matchAll(/"id": "([^"]+)"/g)];
  return entries.flatMap((entry, k) => {
    const part = text.slice(entry.index, entries[k + 1]?.index ?? text.length);
    const start = part.indexOf('"published"');
    const id = entry[1];
    const group = (said) => [...said.matchAll(/\/(\^T[^/\n]+)\//g)].some(([, pattern]) => new RegExp(pattern).test(id));
    const judges = files.filter(([, said]) => said.includes(`'${id}'`) || group(said)).map(([file]) => file);
    // What no test names is left out on purpose: tests/house/published.test.ts says which.
    if (judges.length === 0) return [];
    return [...part.slice(start).matchAll(/"(\w+)": \{\s*"value": "([^"]*\d)([^"\d]*)"/g)].map((found) => {
      const from = entry.index + start + found.index + found[0].length - found[2].length - found[3].length - 1;
      const stand = found[2].replace(/\d(?=\D*$)/, (digit) => (Number(digit) + 1) % 10);
      const site = { file: PUBLISHED, text, from, to: from + found[2].length, stand };
      return { ...site, name: `${id} ${found[1]}`, judges };
    });
  });
}

/** Numbers in [0, 1) from a seed (a multiplicative congruential generator). */
let state = (seed % 2147483646) + 1;
const random = () => {
  state = (state * 48271) % 2147483647;
  return (state - 1) / 2147483646;
};

const published = room === 'published';
const path = existsSync(`src/${room}.ts`) ? [`src/${room}.ts`] : published ? [] : below(`src/${room}`, '.ts');
const pool = published ? printedSites() : path.flatMap(sitesOf);
const folder = judge ?? `tests/${room.replace(/\/.*/, '')}`;
if (pool.length === 0) throw new Error(`nothing to change in ${room}`);
const sites = pool.length;
const drawn = [];
while (drawn.length < Math.min(count, pool.length)) drawn.push(...pool.splice(Math.floor(random() * pool.length), 1));

/** Whether the tests pass with the change, or with none. */
async function passes(filters, change) {
  const plugin = {
    name: 'change',
    enforce: 'pre',
    transform: (code, id) => {
      const changed = change && change.text.slice(0, change.from) + change.stand + change.text.slice(change.to);
      if (change && id === resolve(change.file)) return { code: changed, map: null };
      if (published && change && id === resolve('tests/reference/published.ts')) {
        return { code: code.replace(/readFileSync\(new URL[^)]*\)[^)]*\)/, JSON.stringify(changed)), map: null };
      }
      return undefined;
    },
  };
  const options = { run: true, watch: false, bail: 1, reporters: [{}], maxWorkers: 1, testTimeout: 60_000 };
  const vitest = await startVitest('test', filters, options, { plugins: [plugin] });
  const modules = vitest.state.getTestModules();
  const passed = modules.length > 0 && modules.every((module) => module.ok() || module.state() === 'skipped');
  const errors = vitest.state.getUnhandledErrors().length;
  await vitest.close();
  process.exitCode = 0;
  return passed && errors === 0;
}

console.log(`${drawn.length} of ${sites} changes in ${room}, seed ${seed}`);
if (!published && !(await passes([folder]))) throw new Error(`${folder} fails without a change`);
const survivors = [];
for (const [k, change] of drawn.entries()) {
  const survived = await passes(published ? change.judges : [folder], change);
  const line = change.text.slice(0, change.from).split('\n').length;
  const was = change.text.slice(change.from, change.to).replace(/\s+/g, ' ');
  const where = change.name ?? `${change.file}:${line}`;
  const said = `${where}: ${was} -> ${change.stand.replace(/\s+/g, ' ')}`;
  console.log(`${k + 1} ${survived ? 'SURVIVED' : 'killed'} ${said}`);
  if (survived) survivors.push(said);
}
console.log(`${drawn.length - survivors.length} killed, ${survivors.length} survived of ${drawn.length}, seed ${seed}`);
process.exit(0);
