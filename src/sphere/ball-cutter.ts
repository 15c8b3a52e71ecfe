/**
 * A sphere by a ball-ended cutter that runs round the work axis in steps: each pass leaves a torus, its
 * centre at R + c (ball) or R - c (socket) from the sphere's centre, c the cutter's radius. Passes an equal
 * angle apart leave equal ridges. Where a pass would cut into a stem, the last one touches both.
 * Heights are along the work axis from the sphere's centre, positive towards the pole. Radians inside.
 */
import { options, positive, whole } from '../core/checks.js';
import { refuse } from '../core/errors.js';
import type { Note } from '../core/notes.js';
import { fits } from './cut.js';
import { centreRadius, largestSine, type NoseOnSphere, ridgeHeight, ridgeSine } from './scallop.js';
import { degrees, nosePath, readTarget, type SphereTarget } from './target.js';

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
  readonly notes: readonly Note[];
}

/** What {@link ballCutterSteps} needs: either `steps` or `leftover`. */
export interface BallCutterStepsInput {
  /** The part that is wanted. */
  readonly target: SphereTarget;
  /** Radius of the cutter's ball end. */
  readonly cutterRadius: number;
  /** Number of steps between the first and the last pass, 1 to 100000. */
  readonly steps?: number;
  /** Height of ridge that must not be exceeded. */
  readonly leftover?: number;
}

/** A table longer than this is no longer a table. */
const MOST_STEPS = 100_000;

/**
 * The passes of a ball-ended cutter that cut a sphere in equal angular steps.
 *
 * @param input - Part, cutter, and the number of steps or the height allowed.
 * @returns The passes and the ridge that they leave.
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
export function ballCutterSteps(input: BallCutterStepsInput): BallCutterSteps {
  const given = options(input, 'input', ['target', 'cutterRadius'], ['steps', 'leftover']);
  const zone = readTarget(given['target'] as SphereTarget);
  const cutterRadius = positive(given['cutterRadius'], 'input.cutterRadius');
  fits(zone.side, zone.radius, cutterRadius, 'input.cutterRadius');
  const nose = { side: zone.side, radius: zone.radius, noseRadius: cutterRadius };
  // A cap may end in a body or in the air: the pass that ends at its rim is right for both.
  const { from: first, to: last } = nosePath(zone, nose.noseRadius);
  const steps = countOf(given, nose, last - first);
  const step = (last - first) / steps;
  const passes = Array.from({ length: steps + 1 }, (_, index) =>
    pass(nose, index === steps ? last : first + index * step),
  );
  const steep = last > (Math.PI / 2) * (1 + 1e-15);
  return {
    leftover: ridgeHeight(nose, Math.sin(step / 2)),
    stepDeg: degrees(step),
    passes,
    notes: steep
      ? [
          {
            code: 'past-widest-place',
            message: 'Past the widest place a cutter must come in tilted: one parallel to the work axis cannot reach.',
            values: { lastPolarAngleDeg: degrees(last) },
          },
        ]
      : [],
  };
}

function countOf(given: Readonly<Record<string, unknown>>, nose: NoseOnSphere, range: number): number {
  const { steps, leftover } = given;
  if ((steps === undefined) === (leftover === undefined)) {
    const code = steps === undefined ? 'missing-option' : 'contradiction';
    return refuse(code, 'input', Object.keys(given), 'must give either steps or leftover');
  }
  const widest = 2 * Math.asin(largestSine(nose));
  if (leftover !== undefined) {
    const height = positive(leftover, 'input.leftover');
    const count = Math.max(1, Math.ceil(range / Math.min(widest, 2 * Math.asin(ridgeSine(nose, height))) - 1e-12));
    return count <= MOST_STEPS
      ? count
      : refuse('out-of-range', 'input.leftover', height, `must be reached in at most ${MOST_STEPS} steps`);
  }
  const count = whole(steps, 'input.steps', { min: 1, max: MOST_STEPS });
  return range / count <= widest * (1 + 1e-14)
    ? count
    : refuse(
        'impossible-geometry',
        'input.steps',
        count,
        `must be at least ${Math.ceil(range / widest)}, or the passes do not meet`,
      );
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
