/**
 * A ball in a centre hole against the hole's solid, revolved: the ball is lowered until it touches,
 * found from distances to the outline only, with no formula of where a circle meets a wedge.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type BallSeatOptions, ballSeat } from '../../src/offset/index.js';
import { runs } from '../oracle/seed.js';
import { D, exact } from '../reference/exact.js';

type Real = InstanceType<typeof D>;
type Place = readonly [Real, Real];

/** Distance from a place to the stretch between two others. */
function distance(place: Place, from: Place, to: Place): Real {
  const [dx, dy] = [to[0].minus(from[0]), to[1].minus(from[1])];
  const along = place[0].minus(from[0]).times(dx).plus(place[1].minus(from[1]).times(dy));
  const t = D.min(1, D.max(0, along.div(dx.times(dx).plus(dy.times(dy)))));
  const x = place[0].minus(from[0]).minus(t.times(dx));
  const y = place[1].minus(from[1]).minus(t.times(dy));
  return x.times(x).plus(y.times(y)).sqrt();
}

/** The hole's outline from apex to mouth to the rim of a wide face, as (radius, height over the face). */
function outline(mouth: Real, holeAngleDeg: number): readonly Place[] {
  const half = exact(holeAngleDeg).times(D.acos(-1)).div(360);
  const zero = new D(0);
  return [
    [zero, mouth.div(2).div(half.tan()).negated()],
    [mouth.div(2), zero],
    [mouth.times(50), zero],
  ];
}

/** Height of the centre of a ball on the axis that just touches the outline, and how far out it touches. */
function lower(ball: number, mouth: number, holeAngleDeg: number): Real {
  const [apex, edge, rim] = outline(exact(mouth), holeAngleDeg) as [Place, Place, Place];
  const radius = exact(ball).div(2);
  const free = (height: Real): boolean => {
    const centre: Place = [new D(0), height];
    return D.min(distance(centre, apex, edge), distance(centre, edge, rim)).greaterThan(radius);
  };
  let [low, high] = [apex[1], exact(ball).plus(exact(mouth))];
  // To 2^-80 of the span: 1e-22 of a mouth of 60.
  for (let i = 0; i < 80; i++) {
    const middle = low.plus(high).div(2);
    if (free(middle)) high = middle;
    else low = middle;
  }
  return low;
}

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });

describe('a ball in a centre hole', () => {
  it('rests where it touches the solid', () => {
    fc.assert(
      fc.property(between(0.6, 3), between(1, 60), between(20, 150), (ratio, mouth, holeAngleDeg) => {
        const set = { ballDiameter: ratio * mouth, mouthDiameter: mouth, holeAngleDeg };
        const height = lower(set.ballDiameter, mouth, holeAngleDeg);
        fc.pre(height.plus(exact(set.ballDiameter).div(2)).greaterThan(1e-3));
        const { protrusion, contactDepth, contactDiameter, seat } = ballSeat(set);
        // The height is a difference; the hole's own size sets the scale where it nearly vanishes.
        const scale = mouth / Math.tan((holeAngleDeg * Math.PI) / 360);
        expect(exact(protrusion).minus(height).abs().toNumber()).toBeLessThan(
          1e-15 * scale + 1e-12 * Math.abs(protrusion),
        );
        // The circle of contact lies on the ball, and on the flank or the edge.
        expect(Math.hypot(protrusion + contactDepth, contactDiameter / 2) / (set.ballDiameter / 2)).toBeCloseTo(1, 12);
        const flank = (mouth - contactDiameter) / 2 / Math.tan((holeAngleDeg * Math.PI) / 360);
        expect(Math.abs(flank - contactDepth)).toBeLessThan(1e-13 * scale);
        expect(seat).toBe(contactDepth === 0 && contactDiameter === mouth ? 'edge' : 'flank');
      }),
      { numRuns: runs(150, 40) },
    );
  });

  it('passes from flank to edge without a jump', () => {
    // At b cos θ = m both seats are the same circle.
    const mouthDiameter = 10;
    const ballDiameter = mouthDiameter / Math.cos(Math.PI / 6);
    const [flank, edge] = [1 - 1e-9, 1 + 1e-9].map((part) =>
      ballSeat({ ballDiameter: ballDiameter * part, mouthDiameter }),
    );
    expect([flank?.seat, edge?.seat]).toEqual(['flank', 'edge']);
    expect(flank?.protrusion).toBeCloseTo(edge?.protrusion as number, 7);
  });

  it('scales with the unit', () => {
    const one = ballSeat({ ballDiameter: 12.7, mouthDiameter: 11.3, depth: 9 });
    const other = ballSeat({ ballDiameter: 12.7 * 64, mouthDiameter: 11.3 * 64, depth: 9 * 64 });
    expect(other.protrusion).toBe(one.protrusion * 64);
    expect(other.bottomClearance).toBe((one.bottomClearance as number) * 64);
  });

  it('clears the bottom by what is left below it', () => {
    const { protrusion, bottomClearance } = ballSeat({
      ballDiameter: 10,
      mouthDiameter: 9,
      depth: 5,
      pilotDiameter: 3,
    });
    expect(bottomClearance).toBeCloseTo(5 + protrusion - 5, 14);
  });

  it.each([
    ['impossible-geometry', 'ballDiameter', { ballDiameter: 3, mouthDiameter: 9 }],
    ['impossible-geometry', 'ballDiameter', { ballDiameter: 5, mouthDiameter: 9, pilotDiameter: 4.5 }],
    ['impossible-geometry', 'depth', { ballDiameter: 10, mouthDiameter: 9, depth: 2.7 }],
    ['out-of-range', 'pilotDiameter', { ballDiameter: 10, mouthDiameter: 9, pilotDiameter: 9 }],
    ['out-of-range', 'ballDiameter', { ballDiameter: 0, mouthDiameter: 9 }],
    ['out-of-range', 'holeAngleDeg', { ballDiameter: 10, mouthDiameter: 9, holeAngleDeg: 180 }],
    ['missing-option', 'mouthDiameter', { ballDiameter: 10 }],
    ['unknown-option', 'hole', { ballDiameter: 10, mouthDiameter: 9, hole: 1 }],
    ['not-representable', 'holeAngleDeg', { ballDiameter: 10, mouthDiameter: 9.5e200, holeAngleDeg: 1e-200 }],
  ])('%s (%s): %j', (code, parameter, set) => {
    expect(() => ballSeat(set as BallSeatOptions)).toThrow(expect.objectContaining({ code, parameter }));
  });
});
