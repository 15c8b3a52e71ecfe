/** Imports run downward only: a room may use the rooms below it, never one beside or above. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';

const src = fileURLToPath(new URL('../../src', import.meta.url));

/** For each room the rooms that it may import, from the ground up; `draw` hands out through `figure`. */
const GROUND = ['core', 'taper', 'revolve', 'budget'];
const SHARED = [...GROUND, 'measure', 'draw', 'method'];
const BELOW: Record<string, readonly string[]> = {
  core: [],
  taper: ['core'],
  revolve: ['core'],
  budget: ['core'],
  measure: GROUND,
  draw: GROUND,
  method: [...GROUND, 'measure', 'draw'],
  offset: SHARED,
  sphere: SHARED,
  plan: [...SHARED, 'offset', 'sphere'],
  figure: [...SHARED, 'offset', 'sphere', 'plan'],
};

const files = readdirSync(src, { recursive: true })
  .map(String)
  .filter((file) => file.endsWith('.ts') && file !== 'index.ts');

/** The files of `src` that a file imports or hands out. */
function importsOf(file: string): string[] {
  const text = readFileSync(`${src}/${file}`, 'utf8');
  const paths = [...text.matchAll(/^(?:import|export) [^;]*?from '(\.[^']+)';|\bimport\('(\.[^']+)'\)/gms)];
  return paths.map(([, path, typed]) =>
    new URL((path ?? typed) as string, `file:///${file}`).pathname.slice(1).replace(/\.js$/, '.ts'),
  );
}

describe('rooms', () => {
  it('are all known, and all that have a door lead to the front door', () => {
    const rooms = [...new Set(files.map((file) => file.split('/')[0]))].sort();
    expect(Object.keys(BELOW)).toEqual(expect.arrayContaining(rooms));
    const door = readFileSync(`${src}/index.ts`, 'utf8');
    for (const room of rooms.filter((name) => existsSync(`${src}/${name}/index.ts`))) {
      expect(door).toContain(`export * from './${room}/index.js';`);
    }
    expect(readFileSync(`${src}/figure/index.ts`, 'utf8')).toContain("from '../draw/");
  });

  it.each(files)('%s imports downward only', (file) => {
    const [room = ''] = file.split('/');
    for (const imported of importsOf(file)) {
      const [target = ''] = imported.split('/');
      if (target !== room) expect(BELOW[room], `${file} imports ${imported}`).toContain(target);
    }
  });

  it('hold no files that import each other, be it by way of others or for a type alone', () => {
    const done = new Set<string>();
    const visit = (file: string, way: readonly string[]): void => {
      expect(way, 'files that import each other').not.toContain(file);
      if (done.has(file)) return;
      for (const imported of importsOf(file)) visit(imported, [...way, file]);
      done.add(file);
    };
    for (const file of files) visit(file, []);
    expect(done.size).toBe(files.length);
  });
});
