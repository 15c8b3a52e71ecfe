/**
 * Reads the sentences of a sheet as somebody does who knows English and no program: numbers with their units, words of
 * direction. What a step's actions hold must be found in its text, and no direction may stand there that no action has.
 */
import type { Amount, Way, WorkStep } from 'generatrix';

/** A number as it stands in a sentence. */
export interface Token {
  readonly text: string;
  readonly unit: string;
}

const NUMBER = /(?<![\w.])(\d+(?:\.\d+)?)(?: ?(mm|minutes of arc|in per foot|in(?= per| |,|\.|;|:|\)|$)|°))?/g;

/** All numbers of a text. */
export function numbersIn(text: string): readonly Token[] {
  return [...text.matchAll(NUMBER)].map(([, number = '', unit = '']) => ({ text: number, unit }));
}

const WORDS: readonly (readonly [RegExp, Way])[] = [
  [/towards the headstock/g, 'headstock'],
  [/towards the tailstock/g, 'tailstock'],
  [/towards the operator/g, 'operator'],
  [/away from the operator/g, 'away-from-operator'],
  [/(?<!anti)clockwise/g, 'clockwise'],
  [/anticlockwise/g, 'anticlockwise'],
  [/has to draw back/g, 'operator'],
  [/has to move in/g, 'away-from-operator'],
  [/\bsteeper\b/g, 'steeper'],
];

/** All ways that a text speaks of. */
function waysIn(text: string): ReadonlySet<Way> {
  return new Set(WORDS.flatMap(([word, way]) => (text.match(word) ? [way] : [])));
}

function walk(node: unknown, use: (key: string, value: unknown) => void, key = ''): void {
  use(key, node);
  if (typeof node !== 'object' || node === null) return;
  for (const [name, child] of Object.entries(node)) walk(child, use, name);
}

/** Two digits that count of a limit, rounded or cut off. */
function twoDigits(limit: number): readonly number[] {
  const unit = 10 ** (Math.floor(Math.log10(limit) + 1e-9) - 1);
  return [Math.round(limit / unit) * unit, Math.floor(limit / unit + 1e-9) * unit];
}

/** What the actions of a step hold and its text does not say; what its text says and no action holds. */
export function unsaid({ text, actions }: WorkStep): readonly string[] {
  const tokens = numbersIn(text);
  const missing: string[] = [];
  const ways = new Set<Way>();
  const wanted = (value: number, unit: string, limit = 0): boolean =>
    tokens.some((token) => {
      const digit = 10 ** -(token.text.split('.')[1]?.length ?? 0);
      const alike = token.unit === unit || (token.unit === '' && text.includes(unit));
      // As it is printed: itself, or within half of its last digit (rounded to six first) where that is no more than a hundredth of it, or its limit.
      const off = Math.abs(Number(token.text) - value);
      return (
        alike &&
        (off <= 0.56 * (unit === 'in' ? 1e-4 : 1e-3) ||
          (off <= 0.56 * digit && 0.5 * digit <= Math.max(0.006 * Math.abs(value), 6e-4, limit)))
      );
    });
  for (const action of actions) {
    const felt = action.do === 'touch' && action.control === 'barrel';
    walk(action, (key, node) => {
      if (typeof node === 'object' && node !== null && 'unit' in node && 'value' in node) {
        const { value, unit, limit } = node as Amount;
        if (value !== 0 && !wanted(value, unit, limit)) missing.push(`${action.do} ${key} ${value} ${unit}`);
        if (value === 0 && limit !== undefined && limit > 0) {
          const told = twoDigits(limit).some((one) =>
            tokens.some((token) => Math.abs(Number(token.text) - one) < 1e-9 + 1e-6 * one),
          );
          if (!told) missing.push(`${action.do} ${key} ± ${limit} ${unit}`);
        }
      } else if ((key === 'way' || key === 'deeper') && !felt) ways.add(node as Way);
    });
  }
  const said = waysIn(text);
  const across: readonly Way[] = ['to-axis', 'from-axis'];
  for (const way of ways) if (!said.has(way) && !across.includes(way)) missing.push(`way ${way}`);
  for (const way of said) {
    // The other way of a correction, and where a guide's leaning leads, follow from what is told.
    const follows =
      way === 'headstock' || way === 'tailstock'
        ? /as it goes towards|farther from the axis towards/.test(text)
        : false;
    if (!ways.has(way) && !follows) missing.push(`no action goes ${way}`);
  }
  return missing;
}
