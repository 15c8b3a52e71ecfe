/** A browser that stands on the machine: the one that CHROMIUM names, else chromium on the PATH. */
import { accessSync, constants } from 'node:fs';
import { delimiter, join } from 'node:path';
import { type Browser, chromium } from 'playwright-core';

const runs = (file: string): boolean => {
  try {
    accessSync(file, constants.X_OK);
    return true;
  } catch {
    return false;
  }
};

/** Fails if there is none: a check that needs a browser is never passed without one. */
export async function startBrowser(): Promise<Browser> {
  const onPath = (process.env['PATH'] ?? '').split(delimiter).map((dir) => join(dir, 'chromium'));
  const executablePath = process.env['CHROMIUM'] ?? onPath.find(runs);
  if (executablePath === undefined) throw new Error('no browser: install chromium, or name one in CHROMIUM');
  return await chromium.launch({ executablePath, args: ['--no-sandbox', '--disable-dev-shm-usage'] });
}
