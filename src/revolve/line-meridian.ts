/**
 * The meridian of the surface that a straight path cuts: radius and slope at a place on the axis. ρ² = waist² + (z - waistZ)² perSide²; a cylinder has no slope, a cone no waist.
 */
import { choice, number, options, positive, representable } from '../core/checks.js';
import { refuse } from '../core/errors.js';
import type { LineSurface } from './line.js';

/** A place on the work axis. */
export interface LineMeridianQuery {
  /** The surface, as `revolveLine` gives it. */
  readonly surface: LineSurface;
  /** Where along the work axis. */
  readonly z: number;
}

/** The surface at that place. */
export interface LineMeridianPlace {
  /** Radius of the surface. */
  readonly radius: number;
  /** Diameter of the surface. */
  readonly diameter: number;
  /** Change of radius per unit of length along z; 0 at the very waist or apex. */
  readonly slope: number;
}

/** The three numbers that a surface with a radius at every z has in common. */
export interface Hyperbola {
  /** Least radius. */
  readonly waist: number;
  /** Where the least radius lies. */
  readonly waistZ: number;
  /** Slope far from the waist. */
  readonly perSide: number;
}

/**
 * Radius, diameter and slope of the surface at a place on the work axis.
 *
 * @throws GeneratrixError `impossible-geometry` for a face, which has no radius of its own at any z.
 *
 * @example
 * ```ts
 * import { lineMeridian, revolveLine } from 'generatrix/revolve';
 * const surface = revolveLine({ point: [0, 3, 5], direction: [2, 0, 1] });
 * lineMeridian({ surface, z: 7 }); // => { radius: 5, diameter: 10, slope: 1.6 }
 * lineMeridian({ surface: { kind: 'face', z: 0, innerRadius: 1 }, z: 0 }); // throws impossible-geometry
 * ```
 */
export function lineMeridian(query: LineMeridianQuery): LineMeridianPlace {
  const given = options(query, 'query', ['surface', 'z']);
  const surface = readLineSurface(given['surface'], 'surface');
  const z = number(given['z'], 'z');
  const { waistZ, perSide } = hyperbola(surface);
  const radius = representable(lineRadiusAt(surface, z), 'z');
  const slope = radius === 0 ? 0 : ((z - waistZ) * perSide * perSide) / radius;
  return { radius, diameter: representable(2 * radius, 'z'), slope: representable(slope, 'z') + 0 };
}

/** Radius of the surface at z, for inner loops: checks nothing but that the surface has a radius there. */
export function lineRadiusAt(surface: LineSurface, z: number): number {
  if (surface.kind === 'cylinder') return surface.radius;
  if (surface.kind === 'cone') return Math.abs(z - surface.apexZ) * surface.perSide;
  if (surface.kind === 'face') return noRadius();
  const rise = (z - surface.waistZ) * surface.perSide;
  return Math.sqrt(surface.waist * surface.waist + rise * rise);
}

/** What a surface with a radius at every z has in common with the others; refuses a face. */
export function hyperbola(surface: LineSurface): Hyperbola {
  if (surface.kind === 'cylinder') return { waist: surface.radius, waistZ: 0, perSide: 0 };
  if (surface.kind === 'cone') return { waist: 0, waistZ: surface.apexZ, perSide: surface.perSide };
  return surface.kind === 'face' ? noRadius() : surface;
}

const KEYS = {
  cylinder: ['radius'],
  cone: ['apexZ', 'halfAngleDeg', 'perSide'],
  hyperboloid: ['waist', 'waistZ', 'halfAngleDeg', 'perSide'],
  face: ['z', 'innerRadius'],
} as const;

/** Checks a surface that a caller hands in. */
export function readLineSurface(value: unknown, parameter: string): LineSurface {
  const all = [...new Set(Object.values(KEYS).flat())];
  const { kind } = options(value, parameter, ['kind'], all);
  const known = choice(kind, `${parameter}.kind`, ['cylinder', 'cone', 'hyperboloid', 'face']);
  const given = options(value, parameter, ['kind', ...KEYS[known]]);
  for (const key of KEYS[known]) {
    const anywhere = key === 'z' || key === 'apexZ' || key === 'waistZ';
    if (anywhere) number(given[key], `${parameter}.${key}`);
    else if (key === 'innerRadius') number(given[key], `${parameter}.${key}`, { min: 0 });
    else positive(given[key], `${parameter}.${key}`);
  }
  return value as LineSurface;
}

function noRadius(): never {
  return refuse(
    'impossible-geometry',
    'surface.kind',
    'face',
    'must be a surface with one radius at each z, not a face',
  );
}
