/**
 * Angles as text: degrees, minutes and seconds, read and printed. All sums are made of whole numbers, so
 * that 59.9996" never prints as 60", and text is rounded to a double once.
 */
import { refuse } from './errors.js';
import { add, exactly, mayPartThousands, nearestDouble, nearestWhole, readFigures, scale } from './rational.js';
import { choice, defaulted, number, read, readValue, text, whole } from './read.js';

/** Figures of one part. Then comes its mark, or a space, a colon or the end, since its place says what it is. */
const FIGURES = String.raw`(\d{1,15}(?:[.,]\d{0,30})?|[.,]\d{1,30})`;
const ANGLE = new RegExp(
  String.raw`^([+-]?)\s*${FIGURES}\s*(?:°|deg|d|(?=[\s:]|$))` +
    String.raw`(?:\s*:?\s*${FIGURES}\s*(?:'|′|’|min|m|(?=[\s:]|$)))?` +
    String.raw`(?:\s*:?\s*${FIGURES}\s*(?:"|″|”|''|′′|sec|s|$))?$`,
  'i',
);

/**
 * Reads an angle: degrees alone, or degrees, minutes and seconds.
 *
 * Read are `2.86`, `2.86°`, `2°51'40.9"`, `2 51 40.9`, `2:51:40.9`, `2d51m40.9s`, `2 deg 51 min`, `-0°30'`. The sign
 * stands in front and belongs to the whole angle. Only the last part may have decimals; minutes and seconds are less
 * than 60. The decimal mark is a point or a comma, but not where the comma may part thousands: `1,250` is refused.
 * @param angle - The text, at most 100 characters.
 * @returns The angle in degrees, the nearest double to what was written.
 * @throws GeneratrixError `unreadable` for anything else, `out-of-range` for 60 minutes or more, `wrong-kind` for a value
 *   that is no text.
 * @example
 * ```ts
 * import { parseAngle } from 'generatrix';
 * parseAngle('2°51\'45"'); // => 2.8625
 * parseAngle('-0 30'); // => -0.5
 * parseAngle("2°51,5'"); // => 2.8583333333333334
 * parseAngle("2°75'"); // throws out-of-range
 * ```
 */
export function parseAngle(angle: string): number {
  const parts = ANGLE.exec(readValue(angle, text(100), 'angle').trim());
  if (!parts) return refuse('unreadable', 'angle', angle, `must be an angle such as 2.86, 2°51'40.9" or 2 51 40.9`);
  const [, sign = '', ...marked] = parts;
  const figures = marked.filter((part) => part !== undefined);
  if (figures.slice(0, -1).some((part) => /[.,]/.test(part))) {
    return refuse('unreadable', 'angle', angle, 'must have decimals in its last part only');
  }
  if (mayPartThousands(figures.join())) {
    return refuse('unreadable', 'angle', angle, 'must not have a comma that may part thousands: write a point');
  }
  const sizes = figures.map(readFigures);
  if (sizes.slice(1).some(({ over, under }) => over >= 60n * under)) {
    return refuse('out-of-range', 'angle', angle, 'must have fewer than 60 minutes and 60 seconds');
  }
  const sum = sizes.map((part, at) => scale(part, 1n, 60n ** BigInt(at))).reduce(add);
  const size = nearestDouble(sum);
  return sign === '-' && size > 0 ? -size : size;
}

/** How {@link formatAngle} prints. */
export interface FormatAngleOptions {
  /** The smallest part printed. @defaultValue `'second'` */
  readonly smallest?: 'degree' | 'minute' | 'second';
  /** Decimals of the smallest part, 0 to 12. @defaultValue 0 */
  readonly decimals?: number;
}

/**
 * Prints an angle in degrees, minutes and seconds, rounded once from the exact value of the number; halves go to the
 * even digit. A full 60 is carried, so neither 60" nor 60' is ever printed.
 * @param angleDeg - The angle in degrees, at most a million either way.
 * @param options - The smallest part and its decimals.
 * @returns Text such as `-2°51'40.9"`; {@link parseAngle} reads it.
 * @throws GeneratrixError `wrong-kind`, `not-finite` or `out-of-range` for what is no angle or no format.
 * @example
 * ```ts
 * import { formatAngle } from 'generatrix';
 * formatAngle(2.8624052261117479, { decimals: 1 }); // => '2°51\'44.7"'
 * formatAngle(1.9999999); // => '2°0\'0"'
 * formatAngle(-0.5, { smallest: 'minute' }); // => "-0°30'"
 * formatAngle(1.432096, { smallest: 'degree', decimals: 3 }); // => '1.432°'
 * ```
 */
export function formatAngle(angleDeg: number, options: FormatAngleOptions = {}): string {
  const angle = exactly(readValue(angleDeg, number({ min: -1e6, max: 1e6 }), 'angleDeg'));
  const { smallest, decimals: places } = read<FormatAngleOptions, 'smallest' | 'decimals'>(options, {
    smallest: defaulted(choice(...PARTS), 'second'),
    decimals: defaulted(whole({ min: 0, max: 12 }), 0),
  });
  const parts = PARTS.indexOf(smallest) + 1;
  const unit = 10n ** BigInt(places);
  const count = nearestWhole(scale(angle, unit * 60n ** BigInt(parts - 1), 1n));
  const size = count < 0n ? -count : count;
  const figures: string[] = [];
  let rest = size / unit;
  for (let part = parts; part > 1; part--) {
    figures.unshift(String(rest % 60n));
    rest /= 60n;
  }
  figures.unshift(String(rest));
  const fraction = places === 0 ? '' : `.${String(size % unit).padStart(places, '0')}`;
  const text = figures.map((part, at) => part + (at === parts - 1 ? fraction : '') + MARKS[at]).join('');
  return count < 0n ? `-${text}` : text;
}

const PARTS = ['degree', 'minute', 'second'] as const;
const MARKS = ['°', "'", '"'];
