/**
 * A sphere by a ball-ended cutter that runs round the work axis in steps: each pass leaves a torus, its
 * centre at R + c (ball) or R - c (socket) from the sphere's centre, c the cutter's radius. Passes an equal
 * angle apart leave equal ridges. Where a pass would cut into a stem, the last one touches both.
 * Heights are along the work axis from the sphere's centre, positive towards the pole. Radians inside.
 */
import { refuse } from '../../core/errors.js';
import { type Fields, optional, positive, read, sound, whole } from '../../core/read.js';
import { note, say, tell } from '../../core/words.js';
import { exactlyOne } from '../either.js';
import { centreRadius, largestSine, type NoseOnSphere, noseOnSphere, ridgeHeight, ridgeSine } from '../scallop.js';
import { degrees, nosePath, type SphereTarget, sphereTarget, zoneOf } from '../target.js';
import { FORM, type SphereNote } from '../words.js';

/** One pass round the work axis. */
export interface BallCutterPass {
  /** Polar angle where the cutter touches the sphere, from the free end's pole. */
  readonly polarAngleDeg: number;
  /** Distance of the cutter's centre from the work axis. */
  readonly centreRadius: number;
  /** Height of the cutter's centre from the sphere's centre. */
  readonly centreHeight: number;
  /** Height of the cutter's tip, for a cutter whose axis is parallel to the work axis. */
  readonly tipHeight: number;
}

/** A sphere cut by a ball-ended cutter. */
export interface BallCutterSteps {
  /** The highest ridge left, square to the sphere. */
  readonly leftover: number;
  /** Angle between neighbouring passes. */
  readonly stepDeg: number;
  /** The passes, from the pole outwards. */
  readonly passes: readonly BallCutterPass[];
  /** `past-widest-place` where a cutter parallel to the work axis cannot reach. */
  readonly notes: readonly SphereNote[];
}

/** What {@link ballCutterSteps} needs: either `steps` or `leftover`. */
export interface BallCutterStepsOptions {
  /** The part that is wanted. */
  readonly target: SphereTarget;
  /** Radius of the cutter's ball end, less than a socket's radius, at most a million times a ball's. */
  readonly cutterRadius: number;
  /** Number of steps between the first and the last pass, 1 to 100000. @defaultValue As many as `leftover` needs. */
  readonly steps?: number;
  /** Height of ridge that must not be exceeded. @defaultValue What the number of steps leaves. */
  readonly leftover?: number;
}

/** A table longer than this is no longer a table. */
const MOST_STEPS = 100_000;

const OPTIONS: Fields<BallCutterStepsOptions> = {
  target: sphereTarget,
  cutterRadius: positive,
  steps: optional(whole({ min: 1, max: MOST_STEPS })),
  leftover: optional(positive),
};

/**
 * The passes of a ball-ended cutter that cut a sphere in equal angular steps.
 * @throws GeneratrixError `impossible-geometry` where the passes do not meet, `out-of-range` for a cutter
 * that does not fit the socket, `contradiction` or `missing-option` for both or none of steps and leftover.
 * @example
 * ```ts
 * import { ballCutterSteps } from 'generatrix/sphere';
 * const bowl = { part: 'socket', radius: 30, depth: 30 } as const;
 * const { leftover, stepDeg, passes } = ballCutterSteps({ target: bowl, cutterRadius: 5, steps: 90 });
 * stepDeg; // => 1
 * leftover.toFixed(5); // => '0.00571'
 * passes.at(-1)?.centreRadius; // => 25
 * ```
 */
export function ballCutterSteps(options: BallCutterStepsOptions): BallCutterSteps {
  const given = read(options, OPTIONS);
  exactlyOne(given, 'steps', 'leftover');
  const zone = zoneOf(given.target);
  const nose = noseOnSphere(zone.side, zone.radius, given.cutterRadius, 'cutterRadius');
  // A cap may end in a body or in the air: the pass that ends at its rim is right for both.
  const { from: first, to: last } = nosePath(zone, nose.noseRadius);
  if (!(last > first)) {
    return refuse('impossible-geometry', 'cutterRadius', given.cutterRadius, 'must fit between the stems');
  }
  const steps = countOf(given, nose, last - first);
  const step = (last - first) / steps;
  const passes = Array.from({ length: steps + 1 }, (_, index) =>
    pass(nose, index === steps ? last : first + index * step),
  );
  const steep = last > (Math.PI / 2) * (1 + 1e-15);
  return sound({
    leftover: ridgeHeight(nose, Math.sin(step / 2)),
    stepDeg: degrees(step),
    passes,
    notes: steep ? [note(FORM, 'past-widest-place', { lastPolarAngleDeg: degrees(last) })] : [],
  });
}

function countOf({ steps, leftover = Infinity }: BallCutterStepsOptions, nose: NoseOnSphere, range: number): number {
  const widest = 2 * Math.asin(largestSine(nose));
  if (steps !== undefined) {
    const min = Math.ceil((range / widest) * (1 - 1e-14));
    if (steps >= min) return steps;
    if (min > MOST_STEPS) {
      return refuse('impossible-geometry', 'cutterRadius', nose.noseRadius, 'must be larger for passes that meet');
    }
    const phrase = say`must be at least ${tell(min)}, or the passes do not meet`;
    return refuse('impossible-geometry', 'steps', steps, { kind: 'number', min, max: MOST_STEPS, phrase });
  }
  const count = Math.max(1, Math.ceil(range / Math.min(widest, 2 * Math.asin(ridgeSine(nose, leftover))) - 1e-12));
  if (count <= MOST_STEPS) return count;
  return refuse('beyond-machine', 'leftover', leftover, say`must be reached in at most ${tell(MOST_STEPS)} steps`);
}

function pass(nose: NoseOnSphere, polar: number): BallCutterPass {
  const quarter = polar === Math.PI / 2;
  const centres = centreRadius(nose);
  const centreHeight = quarter ? 0 : centres * Math.cos(polar);
  return {
    polarAngleDeg: degrees(polar),
    centreRadius: quarter ? centres : centres * Math.sin(polar),
    centreHeight,
    tipHeight: nose.side === 'ball' ? centreHeight - nose.noseRadius : centreHeight + nose.noseRadius,
  };
}
