/**
 * A tool above or below centre height. Its straight path then passes the work's axis at a distance,
 * the height y, and cuts a hyperboloid instead of a cone: ρ² = x² + y², where x, the horizontal
 * distance from the axis, falls by tan α per unit of length. Any of the ways to cut a taper.
 */
import { number, options, positive, representable } from '../core/checks.js';
import { refuse } from '../core/errors.js';
import { type LineSurface, revolveLine } from '../revolve/line.js';
import { readTaper, type Taper } from '../taper/taper.js';
import { type TaperCut, taperCut } from './cuts.js';

/** The end at which the tool was touched off to size: one of the two diameters. */
export type SizedEnd =
  | {
      /** Diameter at the large end, where the tool was touched off. */
      readonly largeDiameter: number;
      /** Not both. */
      readonly smallDiameter?: never;
    }
  | {
      /** Diameter at the small end, where the tool was touched off. */
      readonly smallDiameter: number;
      /** Not both. */
      readonly largeDiameter?: never;
    };

/** What a straight tool path really cuts over the length of a taper. */
export interface StraightCut {
  /** The surface; its axis is the work's, z runs from the large end (0) to the small end. */
  readonly surface: LineSurface;
  /** Diameter at z = 0. */
  readonly largeDiameter: number;
  /** Diameter at z = length. */
  readonly smallDiameter: number;
  /** The straight cone through both end circles; with a tool at centre height it is the surface. */
  readonly cuts: TaperCut;
  /** Error of the diameter at the end that was not touched off, because of the tool's height alone. */
  readonly diameterError: number;
  /** How far the side lies below the straight cone through both end circles at most, on the radius. */
  readonly hollow: number;
}

/** The keys of {@link SizedEnd}. */
export const SIZED_END = ['largeDiameter', 'smallDiameter'] as const;

/** A straight path at an angle to the axis and at a height, touched off at one end. */
export function straightCut(
  tan: number,
  wantedTan: number,
  { length, toolHeight, end, diameter }: CheckedCut,
): StraightCut {
  const fall = length * tan;
  const radius = diameter / 2;
  const y = toolHeight;
  const touched = Math.sqrt((radius - y) * (radius + y));
  const other = end === 'largeDiameter' ? touched - fall : touched + fall;
  if (other < 0) {
    return refuse('impossible-geometry', 'length', length, 'must not take the tool past the axis of the work');
  }
  // At centre height the other end would have radius ± fall; R - x = y²/(R + x) tells how far it is off.
  const straight = end === 'largeDiameter' ? radius - fall : radius + fall;
  const squares = y === 0 ? 0 : ((end === 'largeDiameter' ? 2 : -2) * fall * y * y) / (radius + touched);
  const real = representable(Math.sqrt(straight * straight + squares), 'length');
  const error = squares === 0 ? 0 : squares / (real + straight);
  const [large, small] = end === 'largeDiameter' ? [radius, real] : [real, radius];
  const [from, to] = end === 'largeDiameter' ? [touched, other] : [other, touched];
  const path = { point: [from, y, 0], direction: [0 - tan, 0, 1] } as const;
  return {
    surface: revolveLine(path),
    largeDiameter: 2 * large,
    smallDiameter: 2 * small,
    cuts: taperCut(representable(tan + (end === 'largeDiameter' ? -error : error) / length, 'length'), wantedTan),
    diameterError: 2 * error,
    hollow: representable(hollow({ from, large, to, small, y }), 'length'),
  };
}

/**
 * On the hyperbola ρ = y cosh u, x = y sinh u a chord stands highest above the curve half-way in u, at
 * ū, by 2 y sinh²(Δu/4)/cosh ū. Here sinh Δu and cosh ū are written without y in a denominator.
 */
function hollow(ends: { from: number; large: number; to: number; small: number; y: number }): number {
  const { from, large, to, small, y } = ends;
  if (y === 0 || from === to) return 0;
  const step = Math.asinh(((from - to) * (from + to)) / (from * small + to * large));
  return 2 * y * y * Math.sinh(step / 4) ** 2 * Math.sqrt(2 / (large * small + from * to + y * y));
}

/** What {@link toolHeightSurface} needs. */
export type ToolHeightOptions = SizedEnd & {
  /** The taper that the tool's path is set to. */
  readonly taper: Taper;
  /** Axial length of the taper. */
  readonly length: number;
  /** How far the tool's tip stands above the axis of the work; negative below. The sign changes nothing. */
  readonly toolHeight: number;
};

/**
 * What a tool off centre height cuts: a hyperboloid whose waist is the height, between the end that
 * was touched off to size and an end that is not to size.
 *
 * The small end comes out too large if the large end was sized, 2·sqrt(x₁² + y²) with
 * x₁ = sqrt((D/2)² - y²) - L tan α; the large end too small if the small end was. The same for every
 * way to cut a taper, so long as the tool's path is straight and level.
 *
 * @param cut - Taper, length, height, and the diameter at the end where the tool was touched off.
 * @returns The surface, both end diameters, the taper between them and how hollow the side is.
 * @throws GeneratrixError `out-of-range` for a height beyond the sized end's radius, `impossible-geometry` if
 * the path would run past the axis.
 * @example
 * ```ts
 * import { toolHeightSurface } from 'generatrix';
 * const cut = toolHeightSurface({ taper: { oneIn: 10 }, length: 100, largeDiameter: 30, toolHeight: 1 });
 * cut.smallDiameter.toFixed(4); // => '20.0333'
 * cut.diameterError.toFixed(4); // => '0.0333'
 * cut.hollow.toFixed(5); // => '0.00168'
 * ```
 */
export function toolHeightSurface(cut: ToolHeightOptions): StraightCut {
  const given = options(cut, 'cut', ['taper', 'length', 'toolHeight'], SIZED_END);
  const { tan } = readTaper(given['taper'] as Taper);
  return straightCut(tan, tan, readCut(given));
}

/** What {@link toolHeightTolerance} needs. */
export type ToolHeightToleranceOptions = SizedEnd & {
  /** The taper that the tool's path is set to. */
  readonly taper: Taper;
  /** Axial length of the taper. */
  readonly length: number;
  /** How far the diameter at the other end may be off because of the tool's height. */
  readonly diameterTolerance: number;
};

/**
 * How far off centre height the tool may stand for a given error of the taper: the inverse of
 * {@link toolHeightSurface}. An error of the rate of taper counts as that error times the length.
 *
 * @param cut - Taper, length, the diameter at the sized end, and the error allowed at the other end.
 * @returns The largest height, above or below the axis. If any height at which the tool still cuts
 * to the end stays within the tolerance, it is the largest such height.
 * @throws GeneratrixError `impossible-geometry` if the taper would end beyond the axis.
 * @example
 * ```ts
 * import { toolHeightTolerance } from 'generatrix';
 * const taper = { oneIn: 10 };
 * const height = toolHeightTolerance({ taper, length: 100, largeDiameter: 30, diameterTolerance: 0.01 });
 * height.toFixed(3); // => '0.548'
 * ```
 */
export function toolHeightTolerance(cut: ToolHeightToleranceOptions): number {
  const given = options(cut, 'cut', ['taper', 'length', 'diameterTolerance'], SIZED_END);
  const { tan } = readTaper(given['taper'] as Taper);
  const { length, end, diameter } = readCut(given);
  const tolerance = positive(given['diameterTolerance'], 'diameterTolerance') / 2;
  const fall = representable(length * tan, 'length');
  const radius = diameter / 2;
  const other = end === 'largeDiameter' ? radius - fall : radius + fall;
  if (other < 0) {
    return refuse('impossible-geometry', 'length', length, 'must not take the tool past the axis of the work');
  }
  // The sized end's x is R - q; the other end's ρ² then changes by 2 q fall, up or down.
  const [most, squares] =
    end === 'largeDiameter'
      ? [other, tolerance * (2 * other + tolerance)]
      : [radius, Math.min(tolerance, other) * (2 * other - Math.min(tolerance, other))];
  const q = Math.min(most, squares / (2 * fall));
  return representable(Math.sqrt(q * (diameter - q)), 'diameterTolerance');
}

/** A cut whose numbers were checked. */
export interface CheckedCut {
  readonly length: number;
  readonly toolHeight: number;
  readonly end: 'largeDiameter' | 'smallDiameter';
  readonly diameter: number;
}

/** Checks length, tool height and the diameter at the end that was touched off. */
export function readCut(given: Readonly<Record<string, unknown>>): CheckedCut {
  const { largeDiameter, smallDiameter } = given;
  if ((largeDiameter === undefined) === (smallDiameter === undefined)) {
    return refuse(
      largeDiameter === undefined ? 'missing-option' : 'contradiction',
      'largeDiameter',
      largeDiameter,
      'must be given, or else smallDiameter: the one to which the tool is touched off',
    );
  }
  const end = largeDiameter === undefined ? 'smallDiameter' : 'largeDiameter';
  const diameter = number(given[end], end, end === 'largeDiameter' ? { above: 0 } : { min: 0 });
  const limits = { min: -diameter / 2, max: diameter / 2 };
  const toolHeight = number(given['toolHeight'] ?? 0, 'toolHeight', limits);
  return { length: positive(given['length'], 'length'), toolHeight, end, diameter };
}
