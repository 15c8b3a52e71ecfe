/**
 * An independent solid modeller cuts stock with the tool itself: the torus that a round nose sweeps,
 * subtracted again and again while the work turns in steps. What is left is sliced across the work's axis
 * and compared with the closed forms.
 *
 * The modeller's tori are polyhedra. Around the nose (m sides) and along the sweep (n sides) a chord leaves
 * its arc by s (1 - cos(π/m)) and (r + s)(1 - cos(π/n)); the sum is the mesh's own resolution. Where the
 * slice meets the surface at a slant, the slice shows it enlarged by 1 / the normal's part across the axis.
 */
import { circleMeridian, revolveCircle, type Sweep } from 'generatrix';
import Module, { type Manifold } from 'manifold-3d';
import { describe, expect, it } from 'vitest';
import { runs } from '../oracle/seed.js';

const wasm = await Module();
wasm.setup();

interface Job {
  readonly sweep: Required<Omit<Sweep, 'noseRadius'>>;
  readonly part: 'ball' | 'socket';
  readonly nose: number;
}

/** A sweep on a sphere of this radius, with centre of the work at the foot. */
function onSphere(sphere: number, tiltDeg: number, halfWidthDeg: number, skew = 0): Job['sweep'] {
  const beta = (halfWidthDeg * Math.PI) / 180;
  return { tiltDeg, sweepRadius: sphere * Math.sin(beta), distance: sphere * Math.cos(beta), skew, miss: 0 };
}

/** Turns of the work: close enough that a nose of a fifth of the ball's radius leaves no bridge between passes. */
const STEPS = 24;

/** A mesh, and one of half its edges; the short run halves those of some jobs only. */
const resolutions = [
  { around: 28, nose: 8 },
  { around: 56, nose: 16 },
] as const;

/** The stock after the nose has swept its circle at every step of the work's turn. */
function cut({ sweep, part, nose }: Job, { around, nose: sides }: (typeof resolutions)[number]): Manifold {
  const { Manifold, CrossSection } = wasm;
  const extent = revolveCircle(sweep);
  const rim = extent.farthestFromAxis;
  // A ball's stock ends at the middle of the nose's highest way, so that the rest outside falls off; a
  // socket's begins at its rim and has a floor.
  const low = part === 'ball' ? extent.zMin - 2 * nose : extent.zMin;
  const high = part === 'ball' ? extent.zMax : extent.zMax + 2 * nose;
  const stockRadius = part === 'ball' ? rim : rim + 3 * nose;
  const stock = Manifold.cylinder(high - low, stockRadius, stockRadius, 4 * around).translate([0, 0, low]);
  const profile = CrossSection.circle(nose, sides).translate([sweep.sweepRadius, 0]);
  const torus = Manifold.revolve(profile, around)
    .translate([0, 0, sweep.distance])
    .rotate([0, sweep.tiltDeg, 0])
    .translate([sweep.miss, sweep.skew, 0])
    // Heights are from where the axes really meet: a miss moves that along the work's axis.
    .translate([0, 0, sweep.miss / Math.tan((sweep.tiltDeg * Math.PI) / 180)]);
  const tori = Array.from({ length: STEPS }, (_, i) => torus.rotate([0, 0, (360 * i) / STEPS]));
  const removed = Manifold.union(tori);
  const left = stock.subtract(removed);
  left.status();
  for (const solid of [...tori, removed, stock]) solid.delete();
  torus.delete();
  profile.delete();
  return left;
}

/** Every contour of a slice as its least and greatest distance from the work's axis, the innermost first. */
function contours(solid: Manifold, z: number): { least: number; most: number }[] {
  const section = solid.slice(z);
  const polygons = section.toPolygons();
  section.delete();
  return polygons
    .map((polygon) => ({
      least: Math.min(...polygon.map((p, i) => distanceFromOrigin(p, polygon[(i + 1) % polygon.length] ?? p))),
      most: Math.max(...polygon.map(([x, y]) => Math.hypot(x, y))),
    }))
    .sort((a, b) => a.most - b.most);
}

function distanceFromOrigin([ax, ay]: readonly [number, number], [bx, by]: readonly [number, number]): number {
  const [dx, dy] = [bx - ax, by - ay];
  const along = Math.min(1, Math.max(0, -(ax * dx + ay * dy) / (dx * dx + dy * dy || 1)));
  return Math.hypot(ax + along * dx, ay + along * dy);
}

/** What a socket's core leaves when it falls out: the largest piece. */
function withoutCore(left: Manifold): Manifold {
  const [block, ...rest] = left.decompose().sort((a, b) => b.volume() - a.volume());
  if (!block) throw new Error('nothing is left');
  for (const piece of [...rest, left]) piece.delete();
  return block;
}

const jobs: [string, Job][] = [
  ['a true ball', { sweep: onSphere(10, 60, 60), part: 'ball', nose: 2 }],
  ['a sweep too large: pip and undercut', { sweep: onSphere(10, 60, 77), part: 'ball', nose: 2 }],
  ['a sweep too small: pip, stem not reached', { sweep: onSphere(10, 60, 43), part: 'ball', nose: 2 }],
  ['a skew', { sweep: onSphere(10, 60, 60, 0.5), part: 'ball', nose: 2 }],
  [
    'a head off centre in the plane of the axes',
    { sweep: { ...onSphere(10, 60, 60), miss: 0.6 }, part: 'ball', nose: 2 },
  ],
  [
    'a level head off centre: a torus',
    { sweep: { tiltDeg: 90, sweepRadius: 9, distance: 0, skew: 1, miss: 0 }, part: 'ball', nose: 2 },
  ],
  ['a socket', { sweep: onSphere(8, 35, 35), part: 'socket', nose: 2 }],
  ['a socket with a skew', { sweep: onSphere(8, 35, 35, -0.3), part: 'socket', nose: 2 }],
];

describe('the solid that a swept nose leaves', () => {
  it.each(jobs)('%s agrees with the closed forms, the better the finer the mesh', (name, job) => {
    const { sweep, part, nose } = job;
    const halved = ['a skew', 'a socket'].includes(name) ? 2 : runs(2, 1);
    const extent = revolveCircle(sweep);
    const expected = (z: number): number =>
      circleMeridian({ sweep: { ...sweep, noseRadius: nose }, z, side: part }).radius;
    const worst = resolutions.slice(0, halved).map((resolution) => {
      // A ball is the innermost contour of every slice, whatever rings are left around it.
      const solid = part === 'ball' ? cut(job, resolution) : withoutCore(cut(job, resolution));
      const { min, max } = solid.boundingBox();
      const sagitta = (radius: number, sides: number): number => radius * (1 - Math.cos(Math.PI / sides));
      const mesh = sagitta(nose, resolution.nose) + sagitta(sweep.sweepRadius + nose, resolution.around);
      const stockRadius = max[0];
      const measure = (z: number): number => {
        const [inner] = contours(solid, z);
        return part === 'ball' ? (inner?.least ?? 0) : (inner?.most ?? 0);
      };
      let largest = 0;
      let compared = 0;
      const from = Math.max(min[2], extent.zMin - nose);
      const to = Math.min(max[2], extent.zMax + nose);
      for (let i = 1; i < 60; i++) {
        const z = from + ((to - from) * i) / 60;
        const step = 1e-4;
        if (z - step < extent.zMin - nose || z + step > extent.zMax + nose) continue;
        const slope = (expected(z + step) - expected(z - step)) / (2 * step);
        const across = 1 / Math.hypot(1, slope);
        // Steep places show the mesh enlarged; near the stock's own skin the stock is what is seen.
        if (across < 0.3 || expected(z) < 0.2 || expected(z) > stockRadius - 0.2) continue;
        largest = Math.max(largest, Math.abs(measure(z) - expected(z)) * across);
        compared++;
      }
      expect(compared).toBeGreaterThan(12);
      expect(largest).toBeLessThan(mesh);
      if (part === 'ball' && extent.pipRadius > nose + 0.2) {
        // The pip stands inside the ring that the nose's highest way leaves.
        expect(Math.abs(measure(extent.zMax - 1e-3) - (extent.pipRadius - nose))).toBeLessThan(mesh);
      }
      if (part === 'ball') {
        // The cut ends a nose radius below the sweep's lowest place, no earlier and no later.
        expect(contours(solid, extent.zMin - nose - 1e-3)).toHaveLength(1);
        expect(measure(extent.zMin - nose - 1e-3)).toBeGreaterThan(stockRadius - mesh);
        expect(measure(extent.zMin - nose + mesh)).toBeLessThan(stockRadius - 0.2);
      }
      solid.delete();
      return largest;
    });
    if (halved > 1) expect(worst[1]).toBeLessThan(0.5 * (worst[0] as number));
  });
});
