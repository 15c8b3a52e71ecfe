import { type SphereTarget, type SweepClearanceOptions, sweepClearance } from 'generatrix/sphere';
import { describe, expect, it } from 'vitest';
import { refusal } from '../oracle/refusal.js';
import { runs, seeded } from '../oracle/seed.js';
import { uniform } from './search.js';

const DEG = Math.PI / 180;
type Point = readonly [number, number, number];

/** Points of a round bar about the spindle axis: its face at c, rings of all sizes up to q, and its wall behind. */
function* bar(tilt: number, c: number, q: number, behind: 1 | -1, length: number): Generator<Point> {
  const [sin, cos] = [Math.sin(tilt), Math.cos(tilt)];
  const at = (along: number, beside: number, t: number): Point => [
    along * sin + beside * Math.cos(t) * cos,
    beside * Math.sin(t),
    along * cos - beside * Math.cos(t) * sin,
  ];
  for (let k = 0; k < 180; k++) {
    const t = (2 * Math.PI * k) / 180;
    for (let ring = 0; ring <= 60; ring++) yield at(c, (q * ring) / 60, t);
    for (let ring = 1; ring <= 60; ring++) yield at(c + (behind * length * ring) / 60, q, t);
  }
}

/** The least distance at which no point of the bar is in the work, by bisection. */
function leastClear(hits: (c: number) => boolean, near: number, far: number): number {
  let [a, b] = [near, far];
  for (let turn = 0; turn < 30; turn++) {
    const middle = (a + b) / 2;
    if (hits(middle)) a = middle;
    else b = middle;
  }
  return b;
}

describe('clearance of head and tool', () => {
  it('at a ball is what points of the head in space need', () => {
    const random = uniform(seeded(31));
    for (let trial = 0; trial < runs(25, 8); trial++) {
      const stemDiameter = 0.3 + random();
      const target: SphereTarget = { part: 'ball-on-stem', radius: 1, stemDiameter };
      const tilt = (Math.PI - Math.asin(stemDiameter / 2)) / 2;
      const [edge, height, q] = [0.6 + 2 * random(), -1.02 - 0.5 * random(), 0.3 + 2 * random()];
      const options: SweepClearanceOptions = {
        target,
        headDiameter: 2 * q,
        obstacles: [{ name: 'chuck', diameter: 2 * edge, height }],
      };
      const stemHeight = -Math.sqrt(1 - (stemDiameter / 2) ** 2);
      const inWork = ([x, y, z]: Point): boolean => {
        const rho = Math.hypot(x, y);
        return Math.hypot(rho, z) < 1 || (rho < edge && z < height) || (rho < stemDiameter / 2 && z < stemHeight);
      };
      const hits = (c: number): boolean => {
        for (const point of bar(tilt, c, q, 1, 3)) if (inWork(point)) return true;
        return false;
      };
      const needed = leastClear(hits, -1, 6) - Math.cos(tilt);
      const { leastReach } = sweepClearance(options);
      // Rings are q/60 apart and places 2 degrees: the brute force may miss the last sliver, never more.
      expect(leastReach - needed).toBeGreaterThan(-1e-8);
      expect(leastReach - needed).toBeLessThan(0.05 * q + 0.01);
    }
  });

  it('in a socket is what points of the head in space need', () => {
    const random = uniform(seeded(32));
    for (let trial = 0; trial < runs(25, 8); trial++) {
      const opening = (25 + 60 * random()) * DEG;
      const target: SphereTarget = { part: 'socket', radius: 1, depth: 1 - Math.cos(opening) };
      const tilt = opening / 2;
      const q = 0.1 + 1.2 * random();
      const hits = (back: number): boolean => {
        for (const [x, y, z] of bar(tilt, -back, q, -1, 6)) {
          if (z > Math.cos(opening) && Math.hypot(x, y, z) > 1) return true;
        }
        return false;
      };
      const needed = leastClear(hits, -1.2, 4) + Math.cos(tilt);
      const { leastReach, clearances } = sweepClearance({ target, headDiameter: 2 * q });
      expect(leastReach - Math.max(0, needed)).toBeGreaterThan(-1e-6);
      expect(leastReach - Math.max(0, needed)).toBeLessThan(0.05);
      const inside = clearances.some(({ between }) => between === 'head-socket');
      expect(inside).toBe(q <= Math.sin(1.5 * opening));
    }
  });

  /** A nose of 2 whose centre runs to 150 degrees, as if the stem of 25 could be met by the sphere itself. */
  const wide = { tiltDeg: 75, sweepRadius: 27 * Math.sin(75 * DEG), distance: 27 * Math.cos(75 * DEG), noseRadius: 2 };

  it('for a cup round a ball is R - h, whatever the head', () => {
    const target: SphereTarget = { part: 'ball-on-stem', diameter: 50, stemDiameter: 25 };
    for (const headDiameter of [1, 60, 500]) {
      expect(sweepClearance({ target, headDiameter }).leastReach).toBeCloseTo(25 - 25 * Math.cos(75 * DEG), 11);
    }
    // A nose runs with its centre farther out.
    expect(sweepClearance({ target, headDiameter: 60, sweep: wide }).leastReach).toBeCloseTo(
      25 - 27 * Math.cos(75 * DEG),
      11,
    );
  });

  it('names what touches first, with distances along the spindle', () => {
    const target: SphereTarget = { part: 'ball-on-stem', diameter: 50, stemDiameter: 25 };
    const chuck = { name: 'chuck', diameter: 120, height: -40 };
    const head = sweepClearance({ target, headDiameter: 120, reach: 20, obstacles: [chuck] });
    expect(head.firstCollision).toBe('head-chuck');
    expect(head.clearances[0]?.distance).toBeCloseTo(20 - head.leastReach, 11);
    const table = sweepClearance({ target, headDiameter: 30, obstacles: [{ ...chuck, height: -22 }], toolWidth: 5 });
    expect(table.firstCollision).toBe('tool-chuck');
    const far = sweepClearance({
      target,
      headDiameter: 30,
      obstacles: [{ name: 'table', diameter: 1000, height: -400 }],
    });
    expect(far.firstCollision).toBeNull();
    // The tilt is 75 degrees: seen along the spindle, the table's near edge stands before the head only if level with it.
    expect(far.clearances.map(({ between }) => between)).toContain('head-ball');
  });

  it('finds how deep the nose cuts into the stem, and where it must stop', () => {
    const target: SphereTarget = { part: 'ball-on-stem', diameter: 50, stemDiameter: 25 };
    const { clearances, firstCollision, stemLimitDeg } = sweepClearance({
      target,
      headDiameter: 60,
      sweep: wide,
      reach: 30,
    });
    // At 150 degrees the nose's centre stands at 27 sin 150°, its inner side 2 nearer: 11.5 against 12.5.
    expect(clearances[0]?.distance).toBeCloseTo(27 * 0.5 - 2 - 12.5, 11);
    expect(firstCollision).toBe('tool-stem');
    expect(27 * Math.sin((stemLimitDeg ?? 0) * DEG) - 2).toBeCloseTo(12.5, 11);
    // The sweep that the target alone stands for stops there.
    const short = sweepClearance({ target, headDiameter: 60, noseRadius: 2 });
    expect(short.clearances.find(({ between }) => between === 'tool-stem')?.distance).toBeCloseTo(0, 11);
    expect(short.firstCollision).toBeNull();
    expect(sweepClearance({ target, headDiameter: 60 }).firstCollision).toBeNull();
    const between: SphereTarget = { part: 'ball-between-stems', diameter: 50, stemDiameter: 25, freeStemDiameter: 20 };
    const both = sweepClearance({ target: between, headDiameter: 300, reach: 10 });
    expect(both.clearances.map((c) => c.between).sort()).toEqual([
      'head-ball',
      'head-free-stem',
      'tool-free-stem',
      'tool-stem',
    ]);
  });

  it('tells when the tool strikes the rim of a socket deeper than half a sphere', () => {
    const at = (depth: number): number =>
      sweepClearance({ target: { part: 'socket', radius: 10, depth }, headDiameter: 2 }).clearances.find(
        ({ between }) => between === 'tool-rim',
      )?.distance ?? Number.NaN;
    expect(at(6)).toBeGreaterThan(0);
    expect(at(10)).toBeCloseTo(0, 11);
    expect(at(11)).toBeLessThan(0);
  });

  const target: SphereTarget = { part: 'ball-on-stem', diameter: 50, stemDiameter: 25 };
  it.each<[string, unknown]>([
    ['out-of-range headDiameter', { target, headDiameter: 0 }],
    ['out-of-range toolWidth', { target, headDiameter: 9, noseRadius: 2, toolWidth: 1 }],
    ['wrong-kind obstacles', { target, headDiameter: 9, obstacles: {} }],
    ['missing-option obstacles[0].height', { target, headDiameter: 9, obstacles: [{ name: 'a', diameter: 1 }] }],
    ['contradiction toolWidth', { target: { part: 'socket', radius: 5, depth: 2 }, headDiameter: 9, toolWidth: 1 }],
    [
      'impossible-geometry sweep.tiltDeg',
      { sweep: { tiltDeg: 95, sweepRadius: 3, distance: 4 }, side: 'socket', headDiameter: 3 },
    ],
  ])('refuses %s', (wanted, given) => {
    expect(refusal(() => sweepClearance(given as SweepClearanceOptions))).toBe(wanted);
  });
});
