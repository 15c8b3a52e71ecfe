/**
 * No published example is carried along without a test that names it, except those that cannot be reproduced. Whether
 * the test compares what is printed shows `npm run check:mutants -- 300 1 published`.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { publishedExamples } from '../reference/published.js';

const tests = fileURLToPath(new URL('..', import.meta.url));

/** Reproduced by a test that takes the whole group. */
const GROUPS = [/^T[189]-/, /^T7-(t|G2)-/];

/** Sources whose printed result does not follow from what they print: EA-4/02 S3 (8.33 for 8.37) and S11. */
const LEFT_OUT = ['T7-EA-S3', 'T7-EA-S11'];

it('every published example has a test', () => {
  const text = readdirSync(tests, { recursive: true })
    .map(String)
    .filter((file) => file.endsWith('.test.ts') && !file.startsWith('house/'))
    .map((file) => readFileSync(tests + file, 'utf8'))
    .join('\n')
    // What a comment names is not compared.
    .replace(/^\s*\/\/.*$|\/\*[\s\S]*?\*\//gm, '');
  const used = (id: string): boolean => text.includes(`'${id}'`) || GROUPS.some((group) => group.test(id));
  const groups = GROUPS.map(({ source }) => source);
  for (const group of groups) expect(text).toContain(group);
  expect(publishedExamples.map(({ id }) => id).filter((id) => !used(id))).toEqual(LEFT_OUT);
});
