/**
 * The meridian of the surface that a straight path cuts: radius and slope at a place on the axis. ρ² = waist² + (z - waistZ)² perSide²; a cylinder has no slope, a cone no waist.
 */
import { refuse } from '../core/errors.js';
import {
  anyNumber,
  byTag,
  choice,
  type Fields,
  nonNegative,
  number,
  positive,
  type Reader,
  read,
  sound,
} from '../core/read.js';
import type { LineSurface } from './line.js';

/** A place on the work axis. */
export interface LineMeridianOptions {
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
 * @throws GeneratrixError `impossible-geometry` for a face, which has no radius of its own at any z.
 * @example
 * ```ts
 * import { lineMeridian, revolveLine } from 'generatrix/revolve';
 * const surface = revolveLine({ point: [0, 3, 5], direction: [2, 0, 1] });
 * lineMeridian({ surface, z: 7 }); // => { radius: 5, diameter: 10, slope: 1.6 }
 * lineMeridian({ surface: { kind: 'face', z: 0, innerRadius: 1 }, z: 0 }); // throws impossible-geometry
 * ```
 */
export function lineMeridian(options: LineMeridianOptions): LineMeridianPlace {
  const { surface, z } = read(options, MERIDIAN);
  const { waistZ, perSide } = hyperbola(surface);
  const radius = lineRadiusAt(surface, z);
  const slope = radius === 0 ? 0 : ((z - waistZ) * perSide * perSide) / radius;
  return sound({ radius, diameter: 2 * radius, slope }, 'z');
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

const OBLIQUE = { halfAngleDeg: number({ above: 0, below: 90 }), perSide: positive };

/** Reads a surface that a caller hands in. */
export const lineSurface: Reader<LineSurface> = byTag<LineSurface, 'kind'>('kind', {
  cylinder: { kind: choice('cylinder'), radius: positive },
  cone: { kind: choice('cone'), apexZ: anyNumber, ...OBLIQUE },
  hyperboloid: { kind: choice('hyperboloid'), waist: positive, waistZ: anyNumber, ...OBLIQUE },
  face: { kind: choice('face'), z: anyNumber, innerRadius: nonNegative },
});

function noRadius(): never {
  return refuse(
    'impossible-geometry',
    'surface.kind',
    'face',
    'must be a surface with one radius at each z, not a face',
  );
}

const MERIDIAN: Fields<LineMeridianOptions> = { surface: lineSurface, z: anyNumber };
