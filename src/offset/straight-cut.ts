/**
 * What a straight, level tool path really cuts over the length of a taper, whatever guides it: written once over
 * an arithmetic, so that a surface and its model for an error budget are one text.
 *
 * Seen from the work the path runs at a height y (of the tool, or of work that lies out of level) and nears the
 * axis by tan α per unit of length. ρ² = x² + y² is a hyperboloid, a cone for y = 0. Touched off to the radius R
 * at one end, x₀² = R² - y², and a length on, where x = x₀ - f with f = ℓ tan α (negative from the small end),
 * ρ² = (R - f)² + 2 f y²/(R + x₀): no difference of near equals. A path that is not level rises by h = ℓ m on the
 * way, which adds h (2 y + h). A further error of the path is one field of {@link StraightPath} and one term here.
 */
import { plainArithmetic } from '../budget/arithmetic.js';
import type { Arithmetic, ErrorQuantity, Quantity } from '../budget/model.js';
import { GeneratrixError, refuse } from '../core/errors.js';
import { anyNumber, defaulted, type Fields, nonNegative, optional, positive, representable } from '../core/read.js';
import { type ConeDeparture, coneDeparture } from '../revolve/cone-departure.js';
import { type LineSurface, revolveLine } from '../revolve/line.js';
import { eitherKey } from './either.js';
import { type TaperCut, taperCut } from './taper-cut.js';

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

/** What every cut along a straight path has beside its sized end, and what is wrong with it. */
export interface StraightCutOptions {
  /** Axial length of the taper. */
  readonly length: number;
  /**
   * True diameter at the sized end minus the one stated: how far the touching off is off.
   *
   * @defaultValue 0
   */
  readonly touchOffError?: number;
  /**
   * How far the tool's tip stands above the axis of the work, or for work set over above the headstock pivot;
   * negative below.
   *
   * @defaultValue 0
   */
  readonly toolHeight?: number;
}

/** A cut as its readers see it, before it is known which end is sized. */
export type EitherEnd = StraightCutOptions & { readonly [K in keyof SizedEnd]?: number };

/** Readers of a cut's length and of its sized end. */
export const SIZED: Fields<Pick<EitherEnd, 'length' | keyof SizedEnd>> = {
  length: positive,
  largeDiameter: optional(positive),
  smallDiameter: optional(nonNegative),
};

/** The errors of a cut, 0 where they are left out. */
export type CutError = 'toolHeight' | 'touchOffError';

/** Readers of a cut. */
export const CUT: Fields<EitherEnd, CutError> = {
  ...SIZED,
  toolHeight: defaulted(anyNumber, 0),
  touchOffError: defaulted(anyNumber, 0),
};

/** A cut of which the sized end is known. */
export interface SizedCut {
  readonly length: number;
  readonly toolHeight: number;
  readonly end: 'largeDiameter' | 'smallDiameter';
  readonly radius: number;
}

/** Finds the sized end of a cut that was read, and checks that the tool reaches it. */
export function sizedCut(given: EitherEnd): SizedCut {
  const end = eitherKey(given, 'largeDiameter', 'smallDiameter');
  const { length, toolHeight = 0, touchOffError = 0 } = given;
  const radius = cutRadius(plainArithmetic, given[end] ?? 0, touchOffError);
  if (radius < 0) {
    const phrase = `must leave a diameter at the sized end, at least ${-(given[end] ?? 0)}`;
    return refuse('impossible-geometry', 'touchOffError', touchOffError, phrase);
  }
  if (Math.abs(toolHeight) <= radius) return { length, toolHeight, end, radius };
  const phrase = `must be a number, at least ${-radius} and at most ${radius}, the radius of the sized end`;
  return refuse('out-of-range', 'toolHeight', toolHeight, { kind: 'number', min: -radius, max: radius, phrase });
}

/** The radius that is really cut at the end touched off. */
export function cutRadius<T>(a: Arithmetic<T>, diameter: T, touchOffError: T): T {
  return a.multiply(a.constant(0.5), a.add(diameter, touchOffError));
}

/** The path of the tool as the work sees it. */
export interface StraightPath<T> {
  /** Tangent of the angle between the path and the axis. */
  readonly tan: T;
  /** Height of the path at the end touched off; of a level one the sign changes nothing. */
  readonly height: T;
  /** How much higher it comes per unit of length along the axis, towards the small end; left out: it is level. */
  readonly rise?: T;
}

/** The end that was not touched off: as it would be with the path level with the axis, and as it is. */
interface OtherEnd<T> {
  readonly straight: T;
  /** What the height, at either end, adds to the square of the radius. */
  readonly squares: T;
  readonly radius: T;
}

/** The radius that is cut at the other end: `along` the axis from the end touched off to a radius, towards the small end. */
function otherEnd<T>(a: Arithmetic<T>, radius: T, along: T, { tan, height, rise }: StraightPath<T>): OtherEnd<T> {
  const fall = a.multiply(along, tan);
  const touched = a.sqrt(a.multiply(a.subtract(radius, height), a.add(radius, height)));
  const straight = a.subtract(radius, fall);
  const twice = a.multiply(a.constant(2), fall);
  const squares = a.divide(a.multiply(twice, a.square(height)), a.add(radius, touched));
  if (rise === undefined) return { straight, squares, radius: a.sqrt(a.add(a.square(straight), squares)) };
  // The path's own two sides of a right angle: nothing that rounding could take below zero.
  const [lift, x] = [a.multiply(along, rise), a.subtract(touched, fall)];
  return {
    straight,
    squares: a.add(squares, a.multiply(lift, a.add(a.multiply(a.constant(2), height), lift))),
    radius: a.sqrt(a.add(a.square(x), a.square(a.add(height, lift)))),
  };
}

/** The result of the models. */
export const SMALL_DIAMETER: Quantity = { kind: 'length', meaning: 'diameter at the small end' };

/** What the models of all cuts take, beside the errors of {@link CutError}. */
export type CutInput = 'largeDiameter' | 'length';

/** What the inputs of all cuts mean. */
export const CUT_INPUTS: Readonly<Record<CutInput, Quantity>> & Readonly<Record<CutError, ErrorQuantity>> = {
  largeDiameter: { kind: 'length', meaning: 'diameter at the large end, where the tool is touched off' },
  length: { kind: 'length', meaning: 'axial distance of the two end diameters' },
  toolHeight: { kind: 'length', meaning: 'height of the tool above the axis of the work', isError: true },
  touchOffError: { kind: 'length', meaning: 'true diameter at the large end minus the one stated', isError: true },
};

/** The diameter at the small end, with the tool touched off at the large one: what the models give. */
export function smallDiameter<T>(
  a: Arithmetic<T>,
  path: StraightPath<T>,
  { largeDiameter, length, touchOffError }: Readonly<Record<CutInput | 'touchOffError', T>>,
): T {
  const radius = cutRadius(a, largeDiameter, touchOffError);
  return a.multiply(a.constant(2), otherEnd(a, radius, length, path).radius);
}

/** What a straight tool path really cuts over the length of a taper. */
export interface StraightCut {
  /** The surface; its axis is the work's, z runs from the large end (0) to the small end. */
  readonly surface: LineSurface;
  /** Diameter at z = 0. */
  readonly largeDiameter: number;
  /** Diameter at z = length. */
  readonly smallDiameter: number;
  /** The straight cone through both end circles; with the path level with the axis it is the surface. */
  readonly cuts: TaperCut;
  /** Error of the difference of the end diameters, all errors together: against the taper that is shown. */
  readonly differenceError: number;
  /**
   * The part of the error of the diameter at the end that was not touched off which the height of the path alone
   * causes: the tool's height, or a path or work that lies out of level.
   */
  readonly heightError: number;
  /** How far the side lies below the straight cone through both end circles at most, on the radius. */
  readonly hollow: number;
  /** Departure from the straight cone of the true setting, and from the cone that fits best. */
  readonly departure: ConeDeparture;
}

/** A straight path touched off at one end of a cut; `wantedTan` is the slope that its setting shows. */
export function straightCut(path: StraightPath<number>, wantedTan: number, cut: SizedCut): StraightCut {
  const { tan, height, rise = 0 } = path;
  const { length, end, radius } = cut;
  const fromLarge = end === 'largeDiameter';
  const along = fromLarge ? length : -length;
  const fall = along * tan;
  const touched = representable(Math.sqrt((radius - height) * (radius + height)), 'length');
  if (touched - fall < 0) {
    return refuse('impossible-geometry', 'length', length, 'must not take the tool past the axis of the work');
  }
  // With the path level with the axis nothing is left for rounding, not even where it starts from a point.
  const level = { straight: radius - fall, squares: 0, radius: radius - fall };
  const other = height === 0 && rise === 0 ? level : otherEnd(plainArithmetic, radius, along, path);
  const real = representable(other.radius, 'length');
  const error = other.squares === 0 ? 0 : other.squares / (real + other.straight);
  const [large, small] = fromLarge ? [radius, real] : [real, radius];
  const from = fromLarge ? touched : touched - fall;
  const cuts = taperCut(representable(tan + (fromLarge ? -error : error) / length, 'length'), wantedTan);
  const { surface, departure } = inOurWords('length', () => {
    const start = fromLarge ? height : height - length * rise;
    const line = revolveLine({ point: [from, start, 0], direction: [0 - tan, rise, 1] });
    return {
      surface: line,
      departure: coneDeparture({ surface: line, fromZ: 0, toZ: length, perSide: Math.abs(tan) }),
    };
  });
  return {
    surface,
    largeDiameter: 2 * large,
    smallDiameter: 2 * small,
    cuts,
    differenceError: representable(cuts.rateError * length, 'length'),
    heightError: 2 * error,
    hollow: 2 * departure.bestFit.largest,
    departure,
  };
}

/** A refusal of the kernel, told by a parameter that the caller knows. */
function inOurWords<T>(parameter: string, call: () => T): T {
  try {
    return call();
  } catch (error) {
    if (!(error instanceof GeneratrixError)) throw error;
    return refuse(error.code, parameter, error.value, error.allowed);
  }
}
