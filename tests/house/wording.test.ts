/** The project speaks of itself alone. */
import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';

const root = fileURLToPath(new URL('../..', import.meta.url));

it('holds no path of a machine and no registry host', () => {
  const files = execFileSync('git', ['ls-files'], { cwd: root, encoding: 'utf8' }).trim().split('\n');
  const foreign = files.filter(
    (file) =>
      !file.startsWith('tests/house/') &&
      /(^|[\s"'`(=])\/(work|tmp|root|home)\/|registry\./.test(readFileSync(root + file, 'utf8')),
  );
  expect(files.length).toBeGreaterThan(20);
  expect(foreign).toEqual([]);
});
