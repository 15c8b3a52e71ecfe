/** No text of the user's can bring markup: a strict XML parser sees the same elements and attributes whatever it says. */

import fc from 'fast-check';
import { budget, budgetFigure, dialFigure, setoverSettings } from 'generatrix';
import { expect, it } from 'vitest';
import { runs } from '../oracle/seed.js';
import { elements, parsed, words } from './parsed.js';

const setting = setoverSettings({ taper: { oneIn: 20 }, centreDistance: 200, dial: { reads: 'radius', step: 0.02 } });
const inputs = { far: { value: 90, plusMinus: 0.02 }, near: { value: 50, plusMinus: 0.01 } };

const PIECES = [
  '<script>',
  '</text>',
  '"',
  "'",
  ' onload="x()"',
  ']]>',
  '<!--',
  '-->',
  '&',
  '&lt;',
  '&#60;',
  '<![CDATA[',
  '\u0000',
  '\u0007',
  '\uFFFE',
  '\uD800',
  '</style>',
  '<?xml',
  '{',
  '\u202E',
  'é',
  '測',
  '\n',
  '\t',
];
/** Pieces of markup, and any text at all. */
const hostile = (longest: number): fc.Arbitrary<string> =>
  fc
    .oneof(
      fc.array(fc.constantFrom(...PIECES), { maxLength: 12 }).map((pieces) => pieces.join('')),
      fc.string({ unit: 'binary', maxLength: longest }),
    )
    .map((text) => text.slice(0, longest));

/** Elements with the names of their attributes; how many lines a text takes is the page's business. */
function shape(svg: string): readonly string[] {
  const seen = elements(parsed(svg)).map((element) => {
    const attributes = Array.from(element.attributes).map(({ name }) => name);
    return `${element.tagName} ${attributes.filter((name) => name !== 'text-anchor').join(' ')}`;
  });
  return [...new Set(seen)].sort();
}

it('a title, a unit and a name', () => {
  const plain = shape(dialFigure({ setting, step: 0.02, unit: 'mm', title: 'Dial', name: 'Dial' }));
  fc.assert(
    fc.property(hostile(100), hostile(12), (said, unit) => {
      expect(shape(dialFigure({ setting, step: 0.02, unit, title: said, name: said }))).toEqual(
        said.trim() === '' ? expect.anything() : plain,
      );
    }),
    { numRuns: runs(1000, 200) },
  );
});

it('names and meanings of inputs', () => {
  const drawn = (far: string): string =>
    budgetFigure({
      budget: budget({ model: ({ far = 0, near = 0 }) => far - near, inputs, meanings: { far } }),
      unit: 'mm',
      title: 'Budget',
    });
  const plain = shape(drawn('reading'));
  fc.assert(
    fc.property(hostile(200), (far) => {
      expect(shape(drawn(far))).toEqual(plain);
    }),
    { numRuns: runs(300, 80) },
  );
});

it('says what was said, as text', () => {
  const title = '<b onclick="x">&amp; \'D\'</b>';
  const figure = parsed(dialFigure({ setting, step: 0.02, unit: '<"', title }));
  expect(figure.getElementsByTagName('title')[0]?.textContent).toBe(title);
  expect(words(figure)).toContain(title);
  expect(words(figure)).toContain('5.00 <"');
  expect(figure.getElementsByTagName('b')).toHaveLength(0);
});

it('replaces what XML cannot hold', () => {
  const figure = parsed(dialFigure({ setting, step: 0.02, unit: 'mm', title: 'a\u0000b\uD800c\nd\u202Ee' }));
  expect(figure.getElementsByTagName('title')[0]?.textContent).toBe('a□b□c d□e');
});

it('refuses a title without end, and an unknown key', () => {
  expect(() => dialFigure({ setting, unit: 'mm', title: 'x'.repeat(201) })).toThrow('title');
  expect(() => dialFigure({ setting, unit: 'mm', colour: 'red' } as never)).toThrow('colour');
});
