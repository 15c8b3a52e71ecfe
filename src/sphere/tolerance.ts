/**
 * What a drawing asks of a sphere beside its radius and its form: how large a pip may stay where the pole is cut, and
 * how true the diameter must be at which the surface ends. What it leaves open is taken from general tolerances, and
 * said: ISO 2768-1, table 1, class m (from memory); a pip that can be taken off by hand.
 */
import { type Fields, object, optional, positive, type Reader } from '../core/read.js';
import type { ToleranceOf } from '../method/expect.js';
import { type SphereShape, type SphereTarget, sphereShape } from './target.js';

/** What must be held of a sphere. */
export interface SphereTolerance {
  /** Limit of the error of the radius. */
  readonly radius: number;
  /** Largest form deviation: width between two spheres about one centre; not asked for if left out. */
  readonly form?: number;
  /**
   * Largest diameter of a pip where the pole is cut.
   * @defaultValue 0.2 mm or 0.008 in, less where its filed flat would be out of the radius's tolerance; the plan says so.
   */
  readonly pipDiameter?: number;
  /** Limit of the error of a stem's diameter where the surface ends. @defaultValue ISO 2768-1, class m; the plan says so. */
  readonly stemDiameter?: number;
  /** Limit of the error of a free stem's diameter. @defaultValue as for a stem */
  readonly freeStemDiameter?: number;
  /** Limit of the error of the diameter of a flat on the free end. @defaultValue as for a stem */
  readonly flatDiameter?: number;
  /** Limit of the error of the diameter at which a dome ends. @defaultValue as for a stem */
  readonly baseDiameter?: number;
  /** Limit of the error of the diameter of a socket's opening. @defaultValue as for a stem */
  readonly openingDiameter?: number;
}

const TOLERANCE: Fields<SphereTolerance> = {
  radius: positive,
  form: optional(positive),
  pipDiameter: optional(positive),
  stemDiameter: optional(positive),
  freeStemDiameter: optional(positive),
  flatDiameter: optional(positive),
  baseDiameter: optional(positive),
  openingDiameter: optional(positive),
};
/** Reads it. */
export const sphereTolerance: Reader<SphereTolerance> = object(TOLERANCE);

/** A tolerance beside those of radius and form. */
export type EndTolerance = Exclude<keyof SphereTolerance, 'radius' | 'form'>;

/** One quantity that is judged. */
interface Judged {
  readonly quantity: ToleranceOf;
  readonly key: EndTolerance;
  readonly wanted: number;
  readonly tolerance: number;
  /** Why this tolerance, where the drawing states none. */
  readonly assumed?: string;
}

/** What is judged at both ends of a surface. */
export interface JudgedEnds {
  /** The pip, where the pole is cut. */
  readonly pip?: Judged;
  /** Free stem or flat. */
  readonly freeEnd?: Judged;
  /** Stem, base or opening. */
  readonly farEnd: Judged;
}

const QUANTITY = {
  pipDiameter: 'pip-diameter',
  stemDiameter: 'stem-diameter',
  freeStemDiameter: 'free-stem-diameter',
  flatDiameter: 'flat-diameter',
  baseDiameter: 'base-diameter',
  openingDiameter: 'opening-diameter',
} as const satisfies Record<EndTolerance, ToleranceOf>;

/** The names of these tolerances. */
export const END_TOLERANCES = Object.keys(QUANTITY) as readonly EndTolerance[];

/** Which of them a part has: at the free end, and at the far end. */
export const ENDS: Readonly<Record<SphereShape['part'], readonly [free: EndTolerance, far: EndTolerance]>> = {
  'ball-on-stem': ['pipDiameter', 'stemDiameter'],
  'ball-between-stems': ['freeStemDiameter', 'stemDiameter'],
  'ball-end': ['flatDiameter', 'stemDiameter'],
  cap: ['pipDiameter', 'baseDiameter'],
  socket: ['pipDiameter', 'openingDiameter'],
};

/** What is judged at the ends of a part. */
export function judgedEnds(
  { target, tolerance: given }: { readonly target: SphereTarget; readonly tolerance: SphereTolerance },
  unit: 'mm' | 'in',
): JudgedEnds {
  const shape = sphereShape(target);
  const [free, far] = ENDS[shape.part];
  const judged = (key: EndTolerance, wanted: number, instead: () => readonly [value: number, why: string]): Judged => {
    const stated = given[key];
    if (stated !== undefined) return { quantity: QUANTITY[key], key, wanted, tolerance: stated };
    const [tolerance, assumed] = instead();
    return { quantity: QUANTITY[key], key, wanted, tolerance, assumed };
  };
  const end = (key: EndTolerance, diameter: number): Judged => judged(key, diameter, () => general(diameter, unit));
  const farEnd = end(far, shape.toDiameter);
  if (free !== 'pipDiameter') return { freeEnd: end(free, shape.fromDiameter), farEnd };
  return { pip: judged(free, 0, () => fileable(shape.radius, given.radius, unit)), farEnd };
}

/** A pip that a file takes off, in millimetres and in inches: common practice, no source. */
const PIP = { mm: 0.2, in: 0.008 } as const;

/** A pip of diameter p, filed off, leaves a flat p²/8R below the sphere. */
function fileable(radius: number, tolerance: number, unit: 'mm' | 'in'): readonly [number, string] {
  const why = "common practice, no source: a pip that a file takes off, its flat within the radius's tolerance";
  return [Math.min(PIP[unit], Math.sqrt(8 * radius) * Math.sqrt(tolerance)), why];
}

/** ISO 2768-1, table 1, class m: up to so many millimetres, plus or minus; the same in inches, rounded. */
const GENERAL = [
  [6, 0.1, 0.004],
  [30, 0.2, 0.008],
  [120, 0.3, 0.012],
  [400, 0.5, 0.02],
  [1000, 0.8, 0.03],
  [2000, 1.2, 0.05],
  [4000, 2, 0.08],
] as const;

/** From half a millimetre on the table holds; below it and beyond its end tolerances go with the size. */
function general(diameter: number, unit: 'mm' | 'in'): readonly [number, string] {
  const why = 'ISO 2768-1, class m: the general tolerance of a length that states none';
  const size = unit === 'mm' ? diameter : 25.4 * diameter;
  if (size < 0.5) return [diameter / 5, `${why}; it has none below 0.5 mm, so a fifth of the size`];
  const row = GENERAL.find(([upTo]) => size <= upTo);
  if (row === undefined) return [diameter / 2000, `${why}; it ends at 4 m, so as its last step`];
  return [unit === 'mm' ? row[1] : row[2], why];
}
