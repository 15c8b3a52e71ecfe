/** A ball or a socket as a job states it. Lengths in the job's unit, limits plus or minus. */

import { refuse } from '../core/errors.js';
import { choice, type Fields, object, optional, positive, type Reader, vouched } from '../core/read.js';
import { sizeTold } from '../core/size-told.js';
import { say } from '../core/words.js';
import type { Work } from '../method/method.js';
import { type SphereShape, type SphereTarget, sphereShape, sphereTarget } from './target.js';
import { END_TOLERANCES, ENDS, type SphereTolerance, sphereTolerance } from './tolerance.js';

/** A ball or a socket. */
export interface SpherePart {
  /** A sphere. */
  readonly kind: 'sphere';
  /** The ball or socket. */
  readonly target: SphereTarget;
  /** Diameter of the stock (ball) or of the face (socket); the sphere's own if left out. */
  readonly stockDiameter?: number;
  /** What must be held. */
  readonly tolerance: SphereTolerance;
}

const PART: Fields<SpherePart> = {
  kind: choice('sphere'),
  target: sphereTarget,
  stockDiameter: optional(positive),
  tolerance: sphereTolerance,
};

/** Reads a ball or socket that can be. */
export const spherePart: Reader<SpherePart> = vouched(object(PART), ({ target, tolerance }) => {
  const { radius, part } = sphereShape(target);
  if (!(radius >= SMALLEST && radius <= LARGEST)) {
    const phrase = `must have a radius from ${SMALLEST} to ${LARGEST}`;
    refuse('out-of-range', 'target', radius, { kind: 'relation', phrase });
  }
  const other = END_TOLERANCES.find((key) => tolerance[key] !== undefined && !ENDS[part].includes(key));
  if (other === undefined) return;
  const phrase = say`must be left out: a ${part.replaceAll('-', ' ')} has ${ENDS[part].join(' and ')}`;
  refuse('contradiction', `tolerance.${other}`, tolerance[other], { kind: 'relation', phrase });
});

/** Radii of parts that anybody cuts, in any unit, and far beyond. */
const SMALLEST = 1e-9;
const LARGEST = 1e9;

/** A sphere to cut, in the shop that cuts it. */
export type SphereWork = Work<SpherePart>;

/** The shape of the sphere to cut. */
export function shapeOf({ part }: SphereWork): SphereShape {
  return sphereShape(part.target);
}

/** A sphere to make, in words. */
export function describeSphere({ target }: SpherePart, unit: 'mm' | 'in'): string {
  const { part: kind, ...sizes } = target;
  const words = Object.entries(sizes).map(([name, value]) => say`${spaced(name)} ${sizeTold(value, unit)}`);
  return say`${kind.replaceAll('-', ' ')}: ${words.join(', ')}`;
}

function spaced(name: string): string {
  return name.replace(/[A-Z]/g, (letter) => say` ${letter.toLowerCase()}`);
}
