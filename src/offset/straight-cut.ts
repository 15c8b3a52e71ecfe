/**
 * What a straight tool path really cuts over the length of a taper, whatever guides it: written once over
 * an arithmetic, so that a surface and its model for an error budget are one text.
 *
 * Seen from the work the path runs at a height y (of the tool, or of work that lies out of level), nears the
 * axis by t per unit of length and rises by c. ρ² = x² + y² is a hyperboloid, a cone if the path meets the axis.
 * Touched off to the radius R at one end, x₀² = R² - y², and a length ℓ on (negative from the small end), with
 * f = ℓ t and g = ℓ c, ρ² = (x₀ - f)² + (y + g)²; the height's part of it, ρ² - (R - f)², is
 * 2 f y²/(R + x₀) + g (g + 2 y): no difference of near equals. The waist is |x₀ c + y t|/√(t² + c²), and it lies
 * (x₀ t - y c)/(t² + c²) from the end touched off. A further error of the path is one term here.
 *
 * Work in a chuck lies as the spindle does, the tool runs level along the bed. In the frame of the bed (z from the
 * large end to the small, x level towards the tool, y up) the work's axis is (sin ψ cos υ, sin υ, cos ψ cos υ), the
 * path at θ to the bed (-sin θ, 0, cos θ). Turned back by ψ about y and by υ about x, so that the axis is z, the path
 * is (-sin φ, -cos φ sin υ, cos φ cos υ) with φ = θ + ψ: t = tan φ/cos υ, c = -tan υ. Work between centres has its
 * axis through two points, wherever the spindle looks: set-over knows neither angle.
 */
import { plainArithmetic } from '../budget/arithmetic.js';
import type { Arithmetic, ErrorQuantity, Quantity } from '../budget/model.js';
import { GeneratrixError, refuse } from '../core/errors.js';
import {
  anyNumber,
  defaulted,
  type Fields,
  nonNegative,
  number,
  optional,
  positive,
  representable,
} from '../core/read.js';
import type { SourceName } from '../method/sources.js';
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
   * How far the tool's tip stands above the axis of the work at the sized end, or for work set over above the
   * headstock pivot; negative below.
   *
   * @defaultValue 0
   */
  readonly toolHeight?: number;
}

/** A cut as its readers see it, before it is known which end is sized. */
export type EitherEnd = StraightCutOptions & { readonly [K in keyof SizedEnd]?: number };

/** How work in a chuck lies to the bed. */
export interface HeadstockOptions {
  /**
   * How far the work's axis, followed from the large end to the small, is turned in plan from the bed towards the
   * tool: it adds to the half angle.
   *
   * @defaultValue 0
   */
  readonly headstockPlanDeg?: number;
  /**
   * How far the work's axis, followed from the large end to the small, rises from the level of the bed.
   *
   * @defaultValue 0
   */
  readonly headstockUprightDeg?: number;
}

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

/** The errors of a cut of work in a chuck. */
export type ChuckedError = CutError | (keyof HeadstockOptions & SourceName);

const turned = number({ above: -90, below: 90 });

/** Readers of a cut of work in a chuck. */
export const CHUCKED: Fields<EitherEnd & HeadstockOptions, ChuckedError> = {
  ...CUT,
  headstockPlanDeg: defaulted(turned, 0),
  headstockUprightDeg: defaulted(turned, 0),
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
  /** Height of the path at the end touched off. */
  readonly height: T;
  /** How much it rises per unit of length towards the small end; left out for a level path. */
  readonly rise?: T;
}

/** The path of a tool that runs level, at an angle to the bed given by its tangent, as work in a chuck sees it. */
export function chuckedPath<T>(
  a: Arithmetic<T>,
  tan: T,
  { toolHeight, headstockPlanDeg, headstockUprightDeg }: Readonly<Record<'toolHeight' | keyof HeadstockOptions, T>>,
): StraightPath<T> {
  const plan = a.tanDeg(headstockPlanDeg);
  const across = a.multiply(a.subtract(a.constant(1), a.multiply(tan, plan)), a.cosDeg(headstockUprightDeg));
  const rise = a.negate(a.tanDeg(headstockUprightDeg));
  return { tan: a.divide(a.add(tan, plan), across), height: toolHeight, rise };
}

/** The radius that is cut at the other end: `along` the axis from the end touched off to a radius, towards the small end. */
function otherEnd<T>(a: Arithmetic<T>, radius: T, along: T, { tan, height, rise }: StraightPath<T>): T {
  const touched = a.sqrt(a.multiply(a.subtract(radius, height), a.add(radius, height)));
  const x = a.subtract(touched, a.multiply(along, tan));
  const y = rise === undefined ? height : a.add(height, a.multiply(along, rise));
  return a.sqrt(a.add(a.square(x), a.square(y)));
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

/** What the inputs of cuts of work in a chuck mean. */
export const CHUCKED_INPUTS: Readonly<Record<CutInput, Quantity>> & Readonly<Record<ChuckedError, ErrorQuantity>> = {
  ...CUT_INPUTS,
  headstockPlanDeg: { kind: 'angleDeg', meaning: "spindle's axis turned in plan against the bed", isError: true },
  headstockUprightDeg: { kind: 'angleDeg', meaning: "spindle's axis turned upright against the bed", isError: true },
};

/** The diameter at the small end, with the tool touched off at the large one: what the models give. */
export function smallDiameter<T>(
  a: Arithmetic<T>,
  path: StraightPath<T>,
  { largeDiameter, length, touchOffError }: Readonly<Record<CutInput | 'touchOffError', T>>,
): T {
  const radius = cutRadius(a, largeDiameter, touchOffError);
  return a.multiply(a.constant(2), otherEnd(a, radius, length, path));
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
   * causes: the tool's height, or a path or work that lies out of level. Less than 0 where the path comes nearer to level.
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
  const [fall, lift] = [along * tan, along * rise];
  const touched = representable(Math.sqrt((radius - height) * (radius + height)), 'length');
  if (touched - fall < 0) {
    return refuse('impossible-geometry', 'length', length, 'must not take the tool past the axis of the work');
  }
  // With the path level with the axis nothing is left for rounding, not even where it starts from a point.
  const straight = radius - fall;
  const real = representable(
    height === 0 && lift === 0 ? straight : otherEnd(plainArithmetic, radius, along, path),
    'length',
  );
  const squares = (height === 0 ? 0 : (2 * fall * height ** 2) / (radius + touched)) + lift * (lift + 2 * height);
  const error = squares === 0 || real + straight === 0 ? 0 : squares / (real + straight);
  const [large, small] = fromLarge ? [radius, real] : [real, radius];
  const point = fromLarge ? ([touched, height, 0] as const) : ([touched - fall, height + lift, 0] as const);
  const cuts = taperCut(representable(tan + (fromLarge ? -error : error) / length, 'length'), wantedTan);
  const { surface, departure } = inOurWords('length', () => {
    const line = revolveLine({ point, direction: [0 - tan, 0 + rise, 1] });
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
