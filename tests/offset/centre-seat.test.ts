/**
 * Plain centres against seats searched in space: a cone of the centre's angle, askew by the tilt, pushed into the rims
 * of mouth and pilot until nothing nearby is deeper. Shares no formula with the library.
 */
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { centreSeat, standardCentreHole, standardCentreHoleNames } from 'generatrix/offset';
import { describe, expect, it } from 'vitest';
import { refusal } from '../oracle/refusal.js';

/** Where the numbers come from stands in the file. */
const holes: Readonly<Record<'iso-866-a' | 'din-332-a', readonly (readonly number[])[]>> = JSON.parse(
  readFileSync(new URL('../reference/centre-holes.json', import.meta.url), 'utf8'),
);

const rad = (deg: number): number => (deg * Math.PI) / 180;

/** Points of both rims: x, y across, z into the work. */
function rims(mouth: number, pilot: number, holeHalfDeg: number, count: number): readonly (readonly number[])[] {
  const depth = (mouth - pilot) / Math.tan(rad(holeHalfDeg));
  const at = (radius: number, z: number) =>
    Array.from({ length: count }, (_, i) => {
      const t = (2 * Math.PI * i) / count;
      return [radius * Math.cos(t), radius * Math.sin(t), z] as const;
    });
  return [...at(mouth, 0), ...at(pilot, depth)];
}

/**
 * How far a cone's apex goes in along its own axis (sin γ, 0, cos γ) when it is moved aside by s: until the first rim
 * point lies on it. A point q counted from the start has its axial place a and its distance r from the axis; on the
 * cone the apex stands r / tan θ beyond it.
 */
function reach(points: readonly (readonly number[])[], tiltDeg: number, centreHalfDeg: number, s: number): number {
  const [sin, cos] = [Math.sin(rad(tiltDeg)), Math.cos(rad(tiltDeg))];
  let least = Infinity;
  for (const [x = 0, y = 0, z = 0] of points) {
    const along = x * sin + z * cos;
    const across = x * cos - z * sin - s;
    least = Math.min(least, along + Math.hypot(across, y) / Math.tan(rad(centreHalfDeg)));
  }
  return least;
}

/** Where the deepest seat's axis meets the work's axis. */
function pivot(mouth: number, pilot: number, holeHalfDeg: number, tiltDeg: number, centreHalfDeg: number): number {
  const points = rims(mouth, pilot, holeHalfDeg, 360);
  const depth = (s: number): number => reach(points, tiltDeg, centreHalfDeg, s);
  // The centre's axis passes within both rims: scanned for the deepest place, then narrowed down to it.
  const aside = ((mouth - pilot) / Math.tan(rad(holeHalfDeg))) * Math.sin(rad(tiltDeg));
  const places = Array.from({ length: 181 }, (_, i) => mouth * 0.01 * (i - 90)).filter(
    (s) => Math.abs(s + aside) < pilot,
  );
  const best = places.reduce((a, b) => (depth(b) > depth(a) ? b : a));
  let [low, high] = [best - mouth * 0.01, best + mouth * 0.01];
  const golden = (Math.sqrt(5) - 1) / 2;
  for (let i = 0; i < 80; i++) {
    const [a, b] = [high - golden * (high - low), low + golden * (high - low)];
    if (depth(a) > depth(b)) high = b;
    else low = a;
  }
  // The axis: x cos γ - z sin γ = s; on the work's axis x = 0.
  return -((low + high) / 2) / Math.sin(rad(tiltDeg));
}

describe('a plain centre in a centre hole', () => {
  it('turns about the point that the deepest seat in space has, whatever it bears on', () => {
    const bears = new Set<string>();
    fc.assert(
      fc.property(
        fc.double({ min: 0.35, max: 0.7, noNaN: true }),
        fc.double({ min: 25, max: 45, noNaN: true }),
        fc.double({ min: 0.5, max: 4, noNaN: true }),
        fc.double({ min: -2, max: 2, noNaN: true }),
        (ratio, half, tiltDeg, apart) => {
          const [mouth, pilot, centre] = [5, 5 * ratio, half + apart * tiltDeg];
          const seat = centreSeat({
            mouthDiameter: 2 * mouth,
            pilotDiameter: 2 * pilot,
            holeAngleDeg: 2 * half,
            centreAngleDeg: 2 * centre,
            tiltDeg,
          });
          bears.add(seat.bears);
          expect(Math.abs(seat.pivotDepth - pivot(mouth, pilot, half, tiltDeg, centre))).toBeLessThan(2e-6 * mouth);
        },
      ),
      { numRuns: 120, seed: 11 },
    );
    expect([...bears].sort()).toEqual(['both', 'mouth', 'pilot']);
  });

  it('gives cases worked in 60 digits: 30° hole and centre, mouth 10, pilot 2, and a centre half a degree wider', () => {
    const hole = { mouthDiameter: 10, pilotDiameter: 2, tiltDeg: 2 };
    expect(centreSeat(hole).pivotDepth).toBeCloseTo(Math.sqrt(3), 13);
    expect(centreSeat({ ...hole, centreAngleDeg: 61 }).pivotDepth).toBeCloseTo(0.5368606071329, 12);
  });

  it('says how far angles that may differ move it, to the mouth alone and to the pilot alone', () => {
    const hole = { mouthDiameter: 10, pilotDiameter: 2, tiltDeg: 1 };
    const { pivotDepth, leastDepth, greatestDepth } = centreSeat({ ...hole, anglesAgreeWithinDeg: 2 });
    expect(leastDepth).toBeCloseTo(-5 * Math.tan(rad(31)), 12);
    expect(greatestDepth).toBeCloseTo(4 / Math.tan(rad(30)) - Math.tan(rad(29)), 12);
    expect(greatestDepth - pivotDepth).toBeGreaterThan(4.5);
    const close = centreSeat({ ...hole, anglesAgreeWithinDeg: 0.02 });
    expect(close.greatestDepth - close.leastDepth).toBeLessThan(0.1);
  });

  it('refuses what no centre bears on', () => {
    expect(refusal(() => centreSeat({ mouthDiameter: 4, pilotDiameter: 4, tiltDeg: 1 }))).toBe(
      'out-of-range pilotDiameter',
    );
    expect(refusal(() => centreSeat({ mouthDiameter: 10, pilotDiameter: 0.1, tiltDeg: 8 }))).toBe(
      'impossible-geometry tiltDeg',
    );
  });

  it('knows standard holes number by number, and their mouth and pilot give the depth of the cone that tables print', () => {
    for (const series of ['iso-866-a', 'din-332-a'] as const) {
      for (const [pilot, mouth, depth] of holes[series]) {
        const { mouthDiameter, pilotDiameter } = standardCentreHole(`${series}-${pilot}`);
        expect([pilotDiameter, mouthDiameter]).toEqual([pilot, mouth]);
        if (depth === undefined) continue;
        expect(Math.abs((mouthDiameter - pilotDiameter) / 2 / Math.tan(rad(30)) - depth)).toBeLessThanOrEqual(0.00501);
      }
    }
    expect(holes['iso-866-a'].length + holes['din-332-a'].length).toBe(24);
    expect(standardCentreHoleNames()).toHaveLength(24);
    for (const name of standardCentreHoleNames())
      expect(Number(name.split('-').at(-1))).toBe(standardCentreHole(name).pilotDiameter);
  });
});
