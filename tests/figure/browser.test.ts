/**
 * The figures in a real browser, at phone and page width, light and dark: text meets no other text, stays within
 * the figure, and can be told from the paper.
 */
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { gallery } from '../../docs/figures/gallery.js';
import { startBrowser } from '../oracle/browser.js';
import { extremes } from './extremes.js';

let browser: Browser;
beforeAll(async () => {
  browser = await startBrowser();
});
afterAll(() => browser?.close());

interface Seen {
  readonly texts: readonly {
    readonly words: string;
    readonly box: readonly [number, number, number, number];
    readonly contrast: number;
  }[];
  readonly figure: readonly [number, number, number, number];
  readonly paper: string;
}

/** Runs in the page: all figures with the boxes of their texts and the contrast of each text with the paper (WCAG 2.1). */
const LOOK = `[...document.querySelectorAll('svg')].map((svg) => {
  const box = (element) => { const { left, top, right, bottom } = element.getBoundingClientRect(); return [left, top, right, bottom]; };
  const luminance = (colour) => {
    const [r, g, b] = colour.match(/\\d+/g).slice(0, 3).map((c) => { const x = c / 255; return x <= 0.04045 ? x / 12.92 : ((x + 0.055) / 1.055) ** 2.4; });
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  const paper = getComputedStyle(svg.querySelector('rect.gx-paper')).fill;
  return {
    paper,
    figure: box(svg),
    texts: [...svg.querySelectorAll('text')].map((text) => {
      const [a, b] = [luminance(getComputedStyle(text).fill), luminance(paper)];
      return { words: text.textContent, box: box(text), contrast: (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05) };
    }),
  };
})`;

async function look(
  figures: readonly string[],
  viewport: number,
  colorScheme: 'light' | 'dark',
): Promise<readonly Seen[]> {
  const page = await browser.newPage({ viewport: { width: viewport, height: 800 }, colorScheme });
  await page.setContent(`<!doctype html><body style="margin:0">${figures.join('')}`);
  const seen = (await page.evaluate(LOOK)) as readonly Seen[];
  await page.close();
  return seen;
}

function judge({ texts, figure: [left, top, right, bottom] }: Seen): readonly string[] {
  const wrong: string[] = [];
  texts.forEach(({ words, box, contrast }, i) => {
    if (box[0] < left || box[1] < top || box[2] > right || box[3] > bottom) wrong.push(`${words} leaves the figure`);
    if (contrast < 4.5) wrong.push(`${words} has a contrast of ${contrast}`);
    for (const other of texts.slice(i + 1)) {
      const [across, down] = [
        Math.min(box[2], other.box[2]) - Math.max(box[0], other.box[0]),
        Math.min(box[3], other.box[3]) - Math.max(box[1], other.box[1]),
      ];
      if (across > 0 && down > 0) wrong.push(`${words} meets ${other.words} by ${across} x ${down}`);
    }
  });
  return wrong;
}

const LONG = 'An adjustable boring head with a very long description, borrowed from the other end of the shop floor';

describe.each(['light', 'dark'] as const)('%s', (scheme) => {
  it.each([
    ['drawn for a phone', 360, 360],
    ['drawn for a page', 800, 800],
    ['drawn as it comes, on a phone', 480, 360],
  ])('%s', async (_, width, viewport) => {
    const figures = gallery({ width });
    const seen = await look(Object.values(figures), viewport, scheme);
    expect(Object.keys(figures).map((name, i) => [name, judge(seen[i] as Seen)])).toEqual(
      Object.keys(figures).map((name) => [name, []]),
    );
    expect(new Set(seen.map(({ paper }) => paper)).size).toBe(1);
    for (const { figure } of seen) expect(figure[2] - figure[0]).toBeCloseTo(Math.min(width, viewport), 0);
  });
});

it('long titles and many decimals find their place too', async () => {
  const seen = await look(Object.values(gallery({ width: 320, title: LONG, decimals: 9 })), 360, 'light');
  expect(seen.flatMap(judge)).toEqual([]);
});

it('follows the reader, or the theme that is asked for', async () => {
  const papers = async (theme: 'auto' | 'light' | 'dark', scheme: 'light' | 'dark'): Promise<string | undefined> =>
    (await look([gallery({ theme })['dial'] ?? ''], 480, scheme))[0]?.paper;
  const [light, dark] = [await papers('auto', 'light'), await papers('auto', 'dark')];
  expect(light).not.toBe(dark);
  expect(await papers('light', 'dark')).toBe(light);
  expect(await papers('dark', 'light')).toBe(dark);
});

it.each([280, 480])('parts and settings at the edge of what there is, %d px', async (width) => {
  const figures = extremes({ width });
  const seen = await look(Object.values(figures), 500, 'light');
  expect(Object.keys(figures).map((name, i) => [name, judge(seen[i] as Seen)])).toEqual(
    Object.keys(figures).map((name) => [name, []]),
  );
});

it('stays legible where a page allows no styles', async () => {
  const figures = gallery({ theme: 'dark' });
  const page = await browser.newPage({ viewport: { width: 500, height: 800 }, colorScheme: 'dark' });
  const policy = `<meta http-equiv="Content-Security-Policy" content="default-src 'none'">`;
  await page.setContent(`<!doctype html><head>${policy}</head><body>${Object.values(figures).join('')}`);
  const seen = (await page.evaluate(LOOK)) as readonly Seen[];
  await page.close();
  expect(new Set(seen.map(({ paper }) => paper))).toEqual(new Set(['rgb(255, 255, 255)']));
  expect(seen.flatMap(judge)).toEqual([]);
});

it('brings no markup into a page of HTML', async () => {
  const title = `</title></svg><script>window.hit = 1</script><img src=x onerror="window.hit = 1">`;
  const page = await browser.newPage();
  await page.setContent(`<!doctype html><body>${Object.values(gallery({ title, theme: 'light' })).join('')}`);
  const found = await page.evaluate(
    "[window.hit, document.querySelectorAll('script, img').length, document.body.children.length, document.title]",
  );
  expect(found).toEqual([undefined, 0, Object.keys(gallery()).length, '']);
  await page.close();
});
