/**
 * The package as a user gets it, in a project of its own beside all examples of the documentation as modules: what
 * they compute, in whatever loads them, is compared with what Node computes.
 */
import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { compileExample, writtenExamples } from '../oracle/examples.js';

const run = (command: string, args: readonly string[], cwd: string): string =>
  execFileSync(command, args, { cwd, encoding: 'utf8', stdio: ['ignore', 'pipe', 'pipe'], maxBuffer: 1e8 });

/** Installs the packed package, and more packages if asked, in a new directory with `examples/index.mjs`. */
export function project(more: readonly string[] = []): string {
  const dir = mkdtempSync(join(tmpdir(), 'packed-'));
  run('npm', ['pack', '--ignore-scripts', '--pack-destination', dir], '.');
  const tarball = readdirSync(dir).find((file) => file.endsWith('.tgz')) ?? '';
  writeFileSync(join(dir, 'package.json'), JSON.stringify({ name: 'packed', private: true, version: '1.0.0' }));
  run('npm', ['install', '--no-audit', '--no-fund', '--prefer-offline', join(dir, tarball), ...more], dir);
  mkdirSync(join(dir, 'examples'));
  const list = writtenExamples().map(compileExample);
  for (const [i, { imports, body }] of list.entries()) {
    const lines = imports.map(
      ({ names, from }) => `import { ${names.join(', ').replaceAll(': ', ' as ')} } from '${from}';`,
    );
    writeFileSync(
      join(dir, 'examples', `example-${i}.mjs`),
      `${lines.join('\n')}\nexport const run = async (__check, __refused) => {\n${body}};\n`,
    );
  }
  writeFileSync(join(dir, 'examples', 'index.mjs'), index(list.length));
  return dir;
}

/** Runs all examples, and gives what each check got: a value, or the code of a refusal. */
const index = (count: number): string => `
${Array.from({ length: count }, (_, i) => `import { run as run${i} } from './example-${i}.mjs';`).join('\n')}
export async function results() {
  const all = [];
  for (const run of [${Array.from({ length: count }, (_, i) => `run${i}`)}]) {
    const got = [];
    await run((_, value) => got.push(value ?? null), (_, call) => {
      try { call(); got.push('accepted'); } catch (error) { got.push(error.code + ' ' + error.parameter); }
    });
    all.push(got);
  }
  return JSON.stringify(all);
}
`;

/** What a module of the project that exports \`results\` gives in Node. */
export const inNode = (dir: string, module: string): unknown =>
  JSON.parse(
    run(
      process.execPath,
      ['--input-type=module', '-e', `import { results } from './${module}'; console.log(await results());`],
      dir,
    ),
  );
