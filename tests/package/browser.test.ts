/** The published files in a browser with nothing but an import map: every entry point loads, every example runs. */
import { execFileSync } from 'node:child_process';
import { readdirSync, readFileSync, rmSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { extname, join, normalize, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startBrowser } from '../oracle/browser.js';
import { inNode, project } from './packed.js';

let dir: string;
let server: Server;
let browser: Browser;
beforeAll(async () => {
  dir = project();
  const html = page();
  server = createServer((request, response) => {
    const path = normalize(new URL(request.url ?? '/', 'http://localhost').pathname);
    const door = path === '/';
    response.setHeader(
      'content-type',
      door ? 'text/html' : extname(path) === '.json' ? 'application/json' : 'text/javascript',
    );
    try {
      response.end(door ? html : readFileSync(join(dir, path)));
    } catch {
      response.writeHead(404).end();
    }
  });
  await new Promise<void>((ready) => server.listen(0, '127.0.0.1', ready));
  browser = await startBrowser();
}, 120_000);
afterAll(async () => {
  await browser?.close();
  server?.close();
  rmSync(dir, { recursive: true, force: true });
}, 60_000);

/** A page with the import map of all that the package exports and imports. */
function page(): string {
  const root = `${dir}/node_modules/generatrix`;
  const { exports, dependencies = {} } = JSON.parse(readFileSync(`${root}/package.json`, 'utf8'));
  const imports: Record<string, string> = {};
  for (const [key, to] of Object.entries<{ import?: { default: string } }>(exports)) {
    if (to.import) imports[`generatrix${key.slice(1)}`] = `/node_modules/generatrix/${to.import.default.slice(2)}`;
  }
  const bare = new Set(
    readdirSync(`${root}/dist`)
      .filter((file) => file.endsWith('.js'))
      .flatMap((file) => [
        ...readFileSync(`${root}/dist/${file}`, 'utf8').matchAll(/^(?:import|export)[^'"]*['"]([^.'"][^'"]*)['"]/gm),
      ])
      .map(([, id = '']) => id),
  );
  for (const id of bare) {
    expect(Object.keys(dependencies)).toContain(id.split('/')[0]);
    imports[id] = `/${relative(dir, fileURLToPath(resolved(id)))}`;
  }
  return `<!doctype html><title>packed</title><script type="importmap">${JSON.stringify({ imports })}</script>`;
}

/** What Node resolves an import of the project to. */
const resolved = (id: string): string =>
  execFileSync(process.execPath, ['--input-type=module', '-e', `console.log(import.meta.resolve('${id}'))`], {
    cwd: dir,
    encoding: 'utf8',
  }).trim();

/** Other engines, and other versions of the same, differ in the last digits of sines and the like. */
function compare(got: unknown, wanted: unknown, where: string): void {
  if (typeof wanted === 'number' && typeof got === 'number') {
    expect(Math.abs(got - wanted), where).toBeLessThanOrEqual(1e-8 * Math.max(1, Math.abs(wanted)));
  } else if (typeof wanted === 'object' && wanted !== null) {
    expect(Object.keys(got as object), where).toEqual(Object.keys(wanted));
    for (const [key, part] of Object.entries(wanted))
      compare((got as Record<string, unknown>)[key], part, `${where}.${key}`);
  } else expect(got, where).toEqual(wanted);
}

it('all entry points load, and all examples compute what they compute in Node', async () => {
  const tab = await browser.newPage();
  const errors: string[] = [];
  tab.on('pageerror', (error) => errors.push(String(error)));
  await tab.goto(`http://127.0.0.1:${(server.address() as AddressInfo).port}/`);
  const rooms = Object.keys(JSON.parse(readFileSync(`${dir}/node_modules/generatrix/package.json`, 'utf8')).exports)
    .filter((key) => !key.endsWith('.json'))
    .map((key) => `generatrix${key.slice(1)}`);
  // Text, not a function: what tests are compiled by rewrites import() in a function.
  const names = await tab.evaluate(
    `Promise.all(${JSON.stringify(rooms)}.map(async (room) => Object.keys(await import(room)).length))`,
  );
  expect((names as number[]).every((count) => count > 0)).toBe(true);
  const got = (await tab.evaluate(`import('/examples/index.mjs').then(({ results }) => results())`)) as string;
  compare(JSON.parse(got), inNode(dir, 'examples/index.mjs'), 'example');
  expect(errors).toEqual([]);
});
