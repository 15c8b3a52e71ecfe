/** The structure of each figure of the documentation, and that the files there are those that the code draws. */
import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { gallery } from '../../docs/figures/gallery.js';
import { elements, parsed, words } from './parsed.js';

const folder = fileURLToPath(new URL('../../docs/figures/', import.meta.url));
const figures = Object.entries(gallery());

/** One line for each element: what it is, its part, whole pixels, its text. */
function structure(svg: string): string {
  return elements(parsed(svg))
    .map((element) => {
      const attributes = Array.from(element.attributes)
        .filter(({ name }) => !/^(?:xmlns|id|aria-labelledby|fill|font-.*|stroke.*|paint-order)$/.test(name))
        .map(
          ({ name, value }) =>
            `${name}=${value.replace(/-?\d+\.\d+/g, (text) => String(Math.round(Number(text)) + 0))}`,
        );
      const text = ['text', 'title', 'desc'].includes(element.tagName) ? ` "${element.textContent}"` : '';
      return `${element.tagName} ${attributes.join(' ')}${text}`;
    })
    .join('\n');
}

describe.each(figures)('%s', (name, svg) => {
  it('has the structure it had', () => {
    expect(structure(svg)).toMatchSnapshot();
  });

  it('is the file in the documentation', () => {
    expect(readFileSync(`${folder}${name}.svg`, 'utf8')).toBe(svg);
  });

  it('can be read aloud', () => {
    const root = parsed(svg).documentElement;
    expect(root?.getAttribute('role')).toBe('img');
    const named = (root?.getAttribute('aria-labelledby') ?? '').split(' ');
    const said = named.map((id) => elements(parsed(svg)).find((element) => element.getAttribute('id') === id));
    expect(said.map((element) => element?.tagName)).toEqual(['title', 'desc']);
    for (const element of said) expect(element?.textContent?.length).toBeGreaterThan(3);
    expect(words(parsed(svg)).length).toBeGreaterThan(3);
  });

  it('keeps its text size at any width, and draws the same again', () => {
    const [phone, page] = [gallery({ width: 360 })[name] ?? '', gallery({ width: 800 })[name] ?? ''];
    expect(phone).toContain('viewBox="0 0 360 ');
    expect(page).toContain('viewBox="0 0 800 ');
    expect(gallery()[name]).toBe(svg);
    expect(svg).not.toMatch(/NaN|Infinity|undefined|-0[^.\d]/);
  });
});

it('the documentation holds no other figure', () => {
  const files = readdirSync(folder).filter((file) => file.endsWith('.svg'));
  expect(files.sort()).toEqual(figures.map(([name]) => `${name}.svg`).sort());
});
