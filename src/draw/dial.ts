/**
 * A stretch of a dial or of a swivel scale: the graduations round about, the exact reading above, the nearest
 * graduation below. Readings are drawn where they are on the scale.
 */
import type { AngleSetting, DialSetting } from '../core/dial.js';
import { refuse } from '../core/errors.js';
import { anyNumber, either, type Fields, optional, positive, type Reader, read, text } from '../core/read.js';
import { FIGURE, type FigureOptions, type Looks, part } from './options.js';
import { type Block, key, page } from './page.js';
import { MARGIN, marks } from './scale.js';
import { type Element, label, line, outline, type Point } from './svg.js';
import { decimalsOf, textWidth, withDecimals, writer } from './text.js';

/** What {@link dialFigure} needs. */
export interface DialFigureOptions extends FigureOptions {
  /** The setting: any settings of the library with a dial or a swivel scale are one. */
  readonly setting: DialSetting | AngleSetting;
  /** One graduation of the scale, as it reads; without, marks stand at round values. */
  readonly step?: number;
  /** What the scale is: `Tailstock dial, reads on the radius`. */
  readonly name?: string;
}

/** Graduations to either side of the nearest one. */
const AROUND = 6;

type OfDial = Pick<DialSetting, 'reading' | 'settableReading' | 'roundingError'>;
type OfAngle = Pick<AngleSetting, 'readingDeg' | 'settableReadingDeg' | 'roundingErrorDeg'>;
type Drawn = Omit<DialFigureOptions, 'setting'> & { readonly setting: OfDial | OfAngle };

const ofDial = part<OfDial>({ reading: anyNumber, settableReading: anyNumber, roundingError: anyNumber });
const ofAngle = part<OfAngle>({ readingDeg: anyNumber, settableReadingDeg: anyNumber, roundingErrorDeg: anyNumber });

/** A setting of an angle is told by its first key. */
const setting: Reader<OfDial | OfAngle> = either(
  (value) => typeof value === 'object' && value !== null && 'readingDeg' in value,
  ofAngle,
  ofDial,
);

const FIELDS: Fields<Drawn, Looks> = { ...FIGURE, setting, step: optional(positive), name: optional(text()) };

/**
 * A dial's or a scale's reading: exact, and the nearest graduation.
 * @returns The figure as SVG text.
 * @throws GeneratrixError `contradiction` for a step that the nearest graduation is no multiple of.
 * @example
 * ```ts
 * import { dialFigure, setoverSettings } from 'generatrix';
 * const dial = { reads: 'radius', step: 0.02 } as const;
 * const setting = setoverSettings({ taper: { oneIn: 20 }, centreDistance: 200, dial });
 * const svg = dialFigure({ setting, step: 0.02, unit: 'mm' });
 * svg.match(/data-part="graduation"/g)?.length; // => 13
 * ```
 */
export function dialFigure(figure: DialFigureOptions): string {
  const given = read<Drawn, Looks>(figure, FIELDS);
  const { setting: set, step, width } = given;
  const angular = 'readingDeg' in set;
  const [exact, nearest, error] = angular
    ? [set.readingDeg, set.settableReadingDeg, set.roundingErrorDeg]
    : [set.reading, set.settableReading, set.roundingError];
  const count = step === undefined ? 0 : Math.round(nearest / step);
  if (step !== undefined && Math.abs(count * step - nearest) > 1e-6 * step) {
    return refuse('contradiction', 'step', step, `must divide the nearest graduation, ${nearest}`);
  }
  const write = writer(given.unit, given.decimals);
  const told = (angular ? write.swivel : write.dial)(exact, nearest, step);
  const around = step === undefined ? freeScale(exact, nearest) : stepScale(step, count, nearest);
  return page(
    given,
    given.name ?? (angular ? 'Swivel scale' : 'Dial'),
    `Exact reading ${told.exact}, nearest graduation ${told.nearest}.`,
    [
      lay(exact, nearest, around, width),
      key(
        [
          { symbol: '▼', meaning: 'Exact reading', value: told.exact },
          { symbol: '▲', meaning: 'Nearest graduation', value: told.nearest },
          { meaning: angular ? 'Set minus wanted' : 'Set minus wanted, as movement', value: told.difference(error) },
        ],
        width,
      ),
    ],
  );
}

interface Scale {
  readonly low: number;
  readonly high: number;
  /** Marks with their number from zero; every fifth counts as a long one. */
  readonly marks: readonly { readonly value: number; readonly text: string; readonly order: number }[];
}

/** Graduations about the nearest one, with their number from zero. */
function stepScale(step: number, count: number, nearest: number): Scale {
  const numbers = Array.from({ length: 2 * AROUND + 1 }, (_, i) => count - AROUND + i);
  return {
    low: (count - AROUND - 0.5) * step,
    high: (count + AROUND + 0.5) * step,
    marks: numbers.map((order) => ({
      value: order === count ? nearest : order * step,
      order,
      text: withDecimals(order * step, decimalsOf(step)),
    })),
  };
}

/** Round marks about a reading without graduations. */
function freeScale(exact: number, nearest: number): Scale {
  const half = Math.max(Math.abs(exact - nearest) * 2, Math.abs(exact) * 0.2, 1e-9);
  const around = marks(exact - half, exact + half, 10);
  return {
    low: exact - half,
    high: exact + half,
    marks: around.map(({ value, text: words }) => ({ value, text: words, order: 0 })),
  };
}

function lay(exact: number, nearest: number, { low, high, marks: graduations }: Scale, width: number): Block {
  const at = (reading: number): number => MARGIN + ((reading - low) / (high - low)) * (width - 2 * MARGIN);
  const [top, base] = [44, 78];
  const content: Element[] = [
    outline('scale', 'gx-body', [
      [MARGIN, top],
      [width - MARGIN, top],
      [width - MARGIN, base + 30],
      [MARGIN, base + 30],
    ]),
  ];
  // Every fifth graduation is longer and numbered where there is room; the nearest graduation always is.
  const taken: { readonly from: number; readonly to: number }[] = [];
  const numbered = [
    ...graduations.filter(({ value }) => value === nearest),
    ...graduations.filter(({ value, order }) => value !== nearest && order % 5 === 0),
  ];
  for (const { value, order } of graduations) {
    content.push(line('graduation', 'gx-mark', [at(value), top], [at(value), top + (order % 5 === 0 ? 26 : 16)]));
  }
  for (const { value, text: words } of numbered) {
    const [x, half] = [at(value), textWidth(words) / 2 + 4];
    const [from, to] = [x - half, x + half];
    if (from < MARGIN || to > width - MARGIN || taken.some((other) => from < other.to && to > other.from)) continue;
    taken.push({ from, to });
    content.push(label('gx-value', [x, base + 16], words, 'middle'));
  }
  const [e, n] = [at(exact), at(nearest)];
  content.push(
    outline('exact', 'gx-alert', pointer([e, top], -1)),
    line('exact-line', 'gx-over-thin', [e, top], [e, top + 26]),
    outline('nearest', 'gx-tool', pointer([n, base + 30], 1)),
  );
  return { height: base + 54, content };
}

function pointer([x, y]: Point, way: 1 | -1): readonly Point[] {
  return [
    [x, y],
    [x - 7, y + way * 15],
    [x + 7, y + way * 15],
  ];
}
