/** Bundles of the examples, made without any plug-in, compute to the bit what Node computes from the package. */
import { execFileSync } from 'node:child_process';
import { rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { inNode, project } from './packed.js';

/** Each as a module that writes `bundle.mjs`. Versions are pinned here: they are needed nowhere else. */
const BUNDLERS = {
  'esbuild@0.28.2': `
    import { build } from 'esbuild';
    await build({ entryPoints: ['examples/index.mjs'], bundle: true, minify: true, format: 'esm', outfile: 'bundle.mjs' });`,
  // It does not look for packages without a plug-in: the examples import by path, and what the package itself depends
  // on is left to Node.
  'rollup@4.68.8': `
    import { cpSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
    import { rollup } from 'rollup';
    const rooms = JSON.parse(readFileSync('node_modules/generatrix/package.json', 'utf8')).exports;
    cpSync('examples', 'by-path', { recursive: true });
    for (const file of readdirSync('by-path')) {
      const text = readFileSync('by-path/' + file, 'utf8');
      const path = (_, room) => "from '../node_modules/generatrix/" + rooms['.' + room].import.default + "'";
      writeFileSync('by-path/' + file, text.replace(/from 'generatrix(.*?)'/g, path));
    }
    const bundle = await rollup({ input: 'by-path/index.mjs', external: (id) => /^[a-z]/.test(id) && !/^by-path/.test(id) });
    await bundle.write({ file: 'bundle.mjs', format: 'es' });`,
  'rolldown@1.3.2': `
    import { rolldown } from 'rolldown';
    const bundle = await rolldown({ input: 'examples/index.mjs' });
    await bundle.write({ file: 'bundle.mjs', format: 'es' });`,
  'webpack@5.112.2': `
    import webpack from 'webpack';
    await new Promise((done, fail) => webpack({
      mode: 'production', optimization: { minimize: false }, entry: './examples/index.mjs', experiments: { outputModule: true },
      output: { path: process.cwd(), filename: 'bundle.mjs', library: { type: 'module' } },
    }, (error, stats) => error || stats.hasErrors() ? fail(error ?? new Error(stats.toString())) : done()));`,
} as const;

let dir: string;
let wanted: unknown;
beforeAll(() => {
  dir = project(Object.keys(BUNDLERS));
  wanted = inNode(dir, 'examples/index.mjs');
}, 300_000);
afterAll(() => rmSync(dir, { recursive: true, force: true }), 60_000);

it('Node runs the examples from the package', () => {
  expect((wanted as unknown[]).length).toBeGreaterThan(100);
});

it.each(Object.entries(BUNDLERS))('%s', (_, script) => {
  rmSync(join(dir, 'bundle.mjs'), { force: true });
  writeFileSync(join(dir, 'bundler.mjs'), script);
  execFileSync(process.execPath, ['bundler.mjs'], { cwd: dir, stdio: ['ignore', 'ignore', 'pipe'] });
  expect(inNode(dir, 'bundle.mjs')).toEqual(wanted);
});
