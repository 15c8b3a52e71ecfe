/**
 * Spheres cut at many places, by steps or by passes of a ball-ended cutter, simulated: every stop of both
 * slides is off by its own error, the zero across the axis by one for all, and the work's axis turned from the
 * slides passes beside the centre of all. No model of a few inputs gives the
 * width of a surface between its highest and its lowest place. Radians inside.
 *
 * The radius is that of the sphere which the tool touches: ridges stand on it and count as form. The part is measured
 * where the tool touched. A correction moves the zero across the axis; the stops are set afresh, with fresh errors.
 */
import { streamOf, uniform } from '../budget/random.js';
import { dot, type Gauge, sphereFit } from './zone-fit.js';

/** What stands between two places where the tool touches. */
export interface Ridged {
  /** Ridge left between two places. */
  readonly leftover: number;
  readonly noseRadius: number;
  /** A square-shouldered tool ends in a flat each way where its nose ends; a ball-ended cutter does not. */
  readonly shouldered: boolean;
}

/** A sphere to be cut at many places. */
interface Stepped extends Ridged {
  readonly side: 'ball' | 'socket';
  readonly radius: number;
  /** Polar angles where the tool touches. */
  readonly angles: readonly number[];
  readonly gauge: Gauge;
  /**
   * Limits: of each stop, of the zero across the axis at first and when it is moved, of the axis turned, of the
   * radius measured.
   */
  readonly limits: {
    readonly position: number;
    readonly zero: number;
    readonly moved: number;
    readonly turned: number;
    readonly diameter: number;
    readonly length: number;
  };
  /** What moves the diameters at which the surface ends. */
  readonly ends: { readonly free: End; readonly far: End };
}

/** One end of a surface. */
export interface End {
  /** What a unit along the axis does to its radius, where a face cuts the sphere; 0 where the tool turns it. */
  readonly along: number;
  /** How much of the axis turned from the slides acts there, of what acts at the sphere's centre. */
  readonly turned: number;
}

/** Radius and form of the simulated parts, and how far the diameters are off at which the surface ends. */
export interface Parts {
  readonly radius: Float64Array;
  readonly form: Float64Array;
  readonly free: Float64Array;
  readonly far: Float64Array;
}

/** Simulates parts: as first cut, and after one correction. */
export function simulateSteps(work: Stepped, trials: number): { readonly first: Parts; readonly corrected: Parts } {
  const { angles, limits, gauge, radius, ends } = work;
  const { diameter, length, moved, position, turned, zero } = limits;
  const stream = streamOf(1, 0, 'steps');
  const within = (limit: number): number => (2 * uniform(stream) - 1) * limit;
  const places = placesOf(work);
  const list = (): Float64Array => new Float64Array(trials);
  const parts = (): Parts => ({ radius: list(), form: list(), free: list(), far: list() });
  const [first, corrected] = [parts(), parts()];
  const column = (): Float64Array => new Float64Array(angles.length);
  const columns: Columns = [column(), column(), column()];
  const [across, along] = columns;
  const last = angles.length - 1;
  const faced = ends.free.along !== 0 || ends.far.along !== 0;
  const cut = (into: Parts, trial: number, offset: number, aside: number): void => {
    for (let i = 0; i < angles.length; i++) {
      across[i] = offset + within(position);
      along[i] = within(position);
    }
    measure(places, columns, into, trial);
    // The zero along the axis moves all places alike, which only a face shows.
    const zeroAlong = faced ? within(position) : 0;
    const end = (place: number, { along: slope, turned: share }: End): number =>
      2 * ((across[place] as number) + (share - 1) * aside + slope * ((along[place] as number) + zeroAlong));
    into.free[trial] = end(0, ends.free);
    into.far[trial] = end(last, ends.far);
  };
  const rim = nearest(angles, (gauge.atDeg * Math.PI) / 180);
  for (let trial = 0; trial < trials; trial++) {
    const aside = within(turned);
    const offset = within(zero) + aside;
    cut(first, trial, offset, aside);
    const found =
      gauge.across * ((across[rim] as number) + within(diameter / 2)) +
      gauge.along * ((along[0] as number) + within(length));
    cut(corrected, trial, offset - found / gauge.across + within(moved), aside);
  }
  for (const { radius: values } of [first, corrected])
    for (let i = 0; i < trials; i++) values[i] = radius + (values[i] as number);
  return { first, corrected };
}

/** How much one unit of the zero across the axis, and of each slide's stops, moves the radius. */
export function stepSensitivities(angles: readonly number[]): Record<'zero' | 'across' | 'along', number> {
  const { radius, cosines } = sphereFit(angles);
  const sines = angles.map(Math.sin);
  return {
    zero: dot(radius, sines),
    across: Math.hypot(...radius.map((weight, i) => weight * (sines[i] as number))),
    along: Math.hypot(...radius.map((weight, i) => weight * (cosines[i] as number))),
  };
}

/** Errors across and along of every place, and room for what they do to it. */
type Columns = readonly [across: Float64Array, along: Float64Array, departures: Float64Array];

/** The places and the ridges between them, in flat columns: this is read millions of times. */
interface Places {
  readonly sines: Float64Array;
  readonly cosines: Float64Array;
  /** Weights of the departures in radius and place of the centre. */
  readonly radius: Float64Array;
  readonly centre: Float64Array;
  /** Height of each ridge, ridge by ridge its cosine and how errors across and along, before and after, move it. */
  readonly height: number;
  readonly ridges: Float64Array;
}

/** Numbers of a ridge. */
const RIDGE = 5;

/**
 * A ridge lies where the surfaces of two places meet; moved by d₁ and d₂, they meet at the point that has
 * moved by n₁ · d₁ along the one's normal and by n₂ · d₂ along the other's. The normals lean by ±ψ from the
 * sphere's, sin ψ = C sin δ / n, but on a shoulder no further than along or across the axis.
 */
function placesOf({ side, radius, angles, leftover, noseRadius, shouldered }: Stepped): Places {
  const ball = side === 'ball';
  const centres = radius + (ball ? noseRadius : -noseRadius);
  const ridges = angles.slice(1).flatMap((next, i) => {
    const here = angles[i] as number;
    const middle = (here + next) / 2;
    const sine = noseRadius === 0 ? 1 : (centres * Math.sin((next - here) / 2)) / noseRadius;
    const lean = Math.asin(Math.min(1, sine)) * (ball ? -1 : 1);
    const quarter = middle < Math.PI / 2 ? 0 : Math.PI / 2;
    const kept = (angle: number): number =>
      shouldered ? Math.min(quarter + Math.PI / 2, Math.max(quarter, angle)) : angle;
    const [a, b] = [kept(middle + lean), kept(middle - lean)];
    const turn = Math.sin(b - a);
    const part = (angle: number, weight: number): readonly number[] =>
      turn === 0 ? [0, 0] : [(weight * Math.sin(angle)) / turn, (weight * Math.cos(angle)) / turn];
    return [Math.cos(middle), ...part(a, Math.sin(b - middle)), ...part(b, Math.sin(middle - a))];
  });
  const fit = sphereFit(angles);
  return {
    sines: Float64Array.from(angles, Math.sin),
    cosines: Float64Array.from(fit.cosines),
    radius: Float64Array.from(fit.radius),
    centre: Float64Array.from(fit.centre),
    height: ball ? leftover : -leftover,
    ridges: Float64Array.from(ridges),
  };
}

/** Radius and form of one part from the errors of its places. */
function measure(places: Places, [across, along, departures]: Columns, into: Parts, trial: number): void {
  const { sines, cosines, ridges, height } = places;
  const count = across.length;
  let [radius, centre] = [0, 0];
  for (let i = 0; i < count; i++) {
    const departure = (across[i] as number) * (sines[i] as number) + (along[i] as number) * (cosines[i] as number);
    departures[i] = departure;
    radius += departure * (places.radius[i] as number);
    centre += departure * (places.centre[i] as number);
  }
  let [low, high] = [Infinity, -Infinity];
  for (let i = 0; i < count; i++) {
    const rest = (departures[i] as number) - centre * (cosines[i] as number);
    low = Math.min(low, rest);
    high = Math.max(high, rest);
  }
  for (let i = 0, r = 0; i + 1 < count; i++, r += RIDGE) {
    const rest =
      height +
      (ridges[r + 1] as number) * (across[i] as number) +
      (ridges[r + 2] as number) * (along[i] as number) +
      (ridges[r + 3] as number) * (across[i + 1] as number) +
      (ridges[r + 4] as number) * (along[i + 1] as number) -
      centre * (ridges[r] as number);
    low = Math.min(low, rest);
    high = Math.max(high, rest);
  }
  into.radius[trial] = radius;
  into.form[trial] = high - low;
}

function nearest(angles: readonly number[], wanted: number): number {
  return angles.reduce(
    (best, angle, i) => (Math.abs(angle - wanted) < Math.abs((angles[best] as number) - wanted) ? i : best),
    0,
  );
}
