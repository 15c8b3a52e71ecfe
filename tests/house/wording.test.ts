/** The project speaks of itself alone. */
import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';

const root = fileURLToPath(new URL('../..', import.meta.url));

/** Where machines keep what is not the project's, and hosts of packages. */
const FOREIGN =
  /(?<![\w.*)/-])\/(work|tmp|root|home|Users|mnt|opt|srv|var|private|media|etc)\/|\b[A-Z]:\\\\?Users|file:\/\/\/\w+\/|\bregistry\./;

it.each([
  'see /tmp/notes',
  "'/home/a/b'",
  '`/var/lib/x`',
  '(/opt/tool/bin)',
  'C:\\Users\\a',
  'file:///work/x',
  'https://registry.example',
])('%s would be seen', (text) => {
  expect(text).toMatch(FOREIGN);
});

it('holds no path of a machine and no registry host', () => {
  const files = execFileSync('git', ['ls-files'], { cwd: root, encoding: 'utf8' }).trim().split('\n');
  const foreign = files.filter(
    (file) => !file.startsWith('tests/house/') && FOREIGN.test(readFileSync(root + file, 'utf8')),
  );
  expect(files.length).toBeGreaterThan(20);
  expect(foreign).toEqual([]);
});
