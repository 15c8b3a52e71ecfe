/** One random set-up, compared with brute force: the errors relative to the set-up's size. */
import { circleMeridian, circlePoint, revolveCircle } from 'generatrix';
import { leastAround, pointInSpace, type randomFrom, randomSetup, turned } from './brute-circle.js';

const rhoOf = ([x, y]: readonly [number, number, number]): number => Math.sqrt(x * x + y * y);

/** Largest error of each compared quantity, relative to r + |h| + |e| (angles: to 180°), by name. */
export function errorsOf(random: ReturnType<typeof randomFrom>): Record<string, number> {
  const setup = randomSetup(random);
  const size = setup.sweepRadius + Math.abs(setup.distance) + Math.abs(setup.skew);
  const surface = revolveCircle(setup);
  const at = (t: number): [number, number, number] => pointInSpace(setup, t);
  const least = (f: (p: [number, number, number]) => number): number => leastAround((t) => f(at(t)));
  const most = (f: (p: [number, number, number]) => number): number => -least((p) => -f(p));
  const polar = (p: [number, number, number]): number => (Math.atan2(rhoOf(p), p[2]) * 180) / Math.PI;
  const foot = (p: [number, number, number]): number => Math.sqrt(p[0] ** 2 + p[1] ** 2 + p[2] ** 2);
  const errors: Record<string, number> = {
    zMin: (surface.zMin - least((p) => p[2])) / size,
    zMax: (surface.zMax - most((p) => p[2])) / size,
    pipRadius: (surface.pipRadius - rhoOf(at(Math.PI))) / size,
    farPipRadius: (surface.farPipRadius - rhoOf(at(0))) / size,
    nearestToAxis: (surface.nearestToAxis - least(rhoOf)) / size,
    farthestFromAxis: (surface.farthestFromAxis - most(rhoOf)) / size,
    nearestToFoot: (surface.nearestToFoot - least(foot)) / size,
    farthestFromFoot: (surface.farthestFromFoot - most(foot)) / size,
    polarFromDeg: (surface.polarFromDeg - least(polar)) / 180,
    polarToDeg: (surface.polarToDeg - most(polar)) / 180,
  };
  // The meridian at four turns of the sweep, the work turned anywhere; not at the very ends, where z says
  // nothing about the turn. An error of z in its last digit moves ρ by the slope, so that much is allowed for.
  for (let quarter = 0; quarter < 4; quarter++) {
    const t = (quarter + random(0.05, 0.95)) * (Math.PI / 2);
    const p = turned(at(t), random(0, 2 * Math.PI));
    const outer = setup.skew * Math.sin(t) >= 0;
    const z = Math.min(surface.zMax, Math.max(surface.zMin, p[2]));
    const { radius: rho, turnDeg } = circleMeridian({ sweep: setup, z, side: outer ? 'socket' : 'ball' });
    const shape = circlePoint({ sweep: setup, turnDeg: (t * 180) / Math.PI, side: 'ball' });
    const slope = Math.abs(shape.normalZ / shape.normalRadius);
    errors[`rho${quarter}`] = (rho - rhoOf(p)) / (size * (1 + slope));
    errors[`pointRho${quarter}`] = (shape.radius - rhoOf(p)) / size;
    errors[`pointZ${quarter}`] = (shape.z - p[2]) / size;
    if (setup.skew !== 0) errors[`branch${quarter}`] = Math.abs(turnDeg - (t * 180) / Math.PI) < 0.01 ? 0 : 1;
  }
  return errors;
}
