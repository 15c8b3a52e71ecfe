/**
 * Sheets in a real browser: on a phone of 360 px nothing lies off the screen and the settings come first; on paper the
 * words of drawings are high enough and those of the sheet large enough; everything stands out in grey.
 */
import { planFigure, planJob, shopSheet } from 'generatrix';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { PRINT_JOBS } from '../figure/print-jobs.js';
import { startBrowser } from '../oracle/browser.js';

let browser: Browser;
beforeAll(async () => {
  browser = await startBrowser();
});
afterAll(() => browser?.close());

const PX_PER_MM = 96 / 25.4;

function sheet(i: number, paper: 'a4' | 'letter' = 'a4'): string {
  const { job, method: wanted } = PRINT_JOBS[i] as (typeof PRINT_JOBS)[number];
  const plan = planJob(job, { trials: 1000 });
  const method = plan.methods.findIndex((one) => one.method === wanted && one.reaches);
  const figures = [{ title: 'The set-up', svg: planFigure({ plan, method, width: 328, brief: true }) }];
  return shopSheet({ plan, method, figures, format: 'html', paper });
}

/** Runs in the page: what sticks out of the screen, where things begin, and how large and how plain each text is. */
const LOOK = `(() => {
  const luminance = (colour) => {
    const [r, g, b] = colour.match(/[\\d.]+/g).slice(0, 3).map((c) => { const x = c / 255; return x <= 0.04045 ? x / 12.92 : ((x + 0.055) / 1.055) ** 2.4; });
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  const behind = (element) => {
    for (let at = element; at; at = at.parentElement) {
      const { backgroundColor } = getComputedStyle(at);
      if (!/rgba\\(.*, 0\\)|transparent/.test(backgroundColor)) return backgroundColor;
    }
    return 'rgb(255, 255, 255)';
  };
  const contrast = (a, b) => { const [x, y] = [luminance(a), luminance(b)]; return (Math.max(x, y) + 0.05) / (Math.min(x, y) + 0.05); };
  const top = (selector) => document.querySelector(selector).getBoundingClientRect().top;
  const canvas = document.createElement('canvas').getContext('2d');
  const texts = [...document.querySelectorAll('h1, h2, li, dt, dd, th, td, p, figcaption')].filter((one) => one.offsetParent !== null);
  return {
    wide: document.documentElement.scrollWidth,
    out: [...document.querySelectorAll('body *')].filter((one) => !one.closest('.wide') && one.getBoundingClientRect().right > innerWidth + 0.5).map((one) => one.outerHTML.slice(0, 80)),
    cut: [...document.querySelectorAll('.wide')].filter((one) => one.scrollWidth > one.clientWidth + 1).length,
    settings: top('.settings'), others: Math.min(...['dl', 'figure', 'ol', 'table'].filter((one) => document.querySelector(one)).map(top)),
    sizes: texts.map((one) => [parseFloat(getComputedStyle(one).fontSize), one.tagName, one.closest('.positions') !== null]),
    contrasts: texts.map((one) => [contrast(getComputedStyle(one).color, behind(one)), one.textContent.slice(0, 40)]),
    heights: [...document.querySelectorAll('svg text')].map((text) => {
      const style = getComputedStyle(text);
      canvas.font = style.fontStyle + ' ' + style.fontWeight + ' ' + style.fontSize + ' ' + style.fontFamily;
      const svg = text.ownerSVGElement;
      return canvas.measureText('H').actualBoundingBoxAscent * svg.getBoundingClientRect().width / svg.viewBox.baseVal.width;
    }),
  };
})()`;

interface Seen {
  readonly wide: number;
  readonly out: readonly string[];
  readonly cut: number;
  readonly settings: number;
  readonly others: number;
  readonly sizes: readonly (readonly [px: number, tag: string, positions: boolean])[];
  readonly contrasts: readonly (readonly [ratio: number, words: string])[];
  readonly heights: readonly number[];
}

describe.each(PRINT_JOBS.map(({ name }, i) => [name, i] as const))('%s', (_name, i) => {
  it.each(['light', 'dark'] as const)('fits a phone, %s', async (colorScheme) => {
    const page = await browser.newPage({ viewport: { width: 360, height: 740 }, colorScheme });
    await page.setContent(sheet(i));
    const seen = (await page.evaluate(LOOK)) as Seen;
    await page.close();
    expect(seen.wide).toBeLessThanOrEqual(360);
    expect(seen.out).toEqual([]);
    expect(seen.cut).toBe(0);
    expect(seen.settings).toBeLessThan(seen.others);
    expect(seen.settings).toBeLessThan(200);
    // WCAG 2.1, 1.4.3; the ratio goes by luminance, which is what is left in grey.
    expect(seen.contrasts.filter(([ratio]) => !(ratio >= 4.5))).toEqual([]);
  });

  it('can be read on paper', async () => {
    // A4 less its margins is 192 mm wide.
    const page = await browser.newPage({ viewport: { width: Math.floor(192 * PX_PER_MM), height: 1050 } });
    await page.emulateMedia({ media: 'print' });
    await page.setContent(sheet(i));
    const seen = (await page.evaluate(LOOK)) as Seen;
    await page.close();
    expect(seen.heights.length).toBeGreaterThan(8);
    // ISO 3098-1: lettering of 2.5 mm, the height of capitals.
    for (const px of seen.heights) expect(px / PX_PER_MM).toBeGreaterThanOrEqual(2.5);
    // 9 points are 12 pixels; a long table of positions may be a point smaller.
    for (const [px, , positions] of seen.sizes) expect(px).toBeGreaterThanOrEqual(positions ? 10.6 : 12);
    expect(seen.out).toEqual([]);
    expect(seen.contrasts.filter(([ratio]) => !(ratio >= 4.5))).toEqual([]);
  });
});

it.each([
  // In points: ISO 216, and 8.5 by 11 inches (ANSI/ASME Y14.1, size A).
  ['a4', 595, 842],
  ['letter', 612, 792],
] as const)('prints on %s', async (paper, width, height) => {
  const page = await browser.newPage();
  await page.setContent(sheet(0, paper));
  const pdf = (await page.pdf({ preferCSSPageSize: true })).toString('latin1');
  await page.close();
  const box = /\/MediaBox\s*\[0 0 ([\d.]+) ([\d.]+)\]/.exec(pdf);
  expect(Math.abs(Number(box?.[1]) - width)).toBeLessThan(1);
  expect(Math.abs(Number(box?.[2]) - height)).toBeLessThan(1);
});
