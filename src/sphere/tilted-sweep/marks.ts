/**
 * The marks that a tilted sweep leaves: between two sweeps the work turns by Δ, so the passes are rings
 * that cross each other, closest at their ends and widest apart half-way.
 *
 * Exact, not for small Δ only: with the tilt α and the sweep's angular radius β, the ridge between
 * two neighbouring passes lies where the sum of the angles from their axes is 2β, an ellipse on the
 * sphere. At the place t of the sweep (0 at the far end, 180 at the pole) the passes stand 2δ apart,
 *
 *   sin δ = sin α sin(Δ/2) |sin t|.
 *
 * To first order the spacing is R sin α |sin t| Δ. One half of the sweep is meant: where both halves
 * cut, their marks cross, and the height is reached only where ridges of both meet.
 * Derived here; proved in tests/sphere/marks.test.ts against noses intersected in space.
 */
import { refuse } from '../../core/errors.js';
import { type Fields, number, positive, read, sound } from '../../core/read.js';
import { note, say, tell } from '../../core/words.js';
import { largestSine, ridgeHeight, ridgeSine } from '../scallop.js';
import { degrees, radians } from '../target.js';
import { FORM, type SphereNote } from '../words.js';
import { CUT, cutOf, type ReadCut, type SphereCut, type StatedCut } from './cut.js';

/** The marks at one place of the sweep. */
export interface Mark {
  /** Place round the sweep: 0 where it is farthest from the pole, 180 where it is nearest. */
  readonly sweepAngleDeg: number;
  /** Polar angle of the ridge there, from the free end's pole. */
  readonly polarAngleDeg: number;
  /** Distance between neighbouring passes, along the surface. */
  readonly spacing: number;
  /** Height of the ridge between them. */
  readonly height: number;
}

/** The marks left on a sphere. */
export interface SphereMarks {
  /** Sweeps during one turn of the work. */
  readonly sweepsPerTurn: number;
  /** Where the ridges are highest. */
  readonly largest: Mark;
  /** What the rule for a flat face, s²/(8 n), would give there. */
  readonly flatHeight: number;
  /** The marks at even steps of half a sweep, from the far end to the pole. */
  readonly along: readonly Mark[];
}

/** What {@link sphereMarks} needs. */
export type SphereMarksOptions = SphereCut & {
  /** Angle by which the work turns during one sweep of the tool (of one tooth, if there are several). */
  readonly workPerSweepDeg: number;
};

/** How far the work may turn per sweep. */
export interface SphereMarksLimit {
  /** Largest angle by which the work may turn during one sweep. */
  readonly workPerSweepDeg: number;
  /** The marks that it leaves. */
  readonly marks: SphereMarks;
  /** `passes-barely-meet` where not the height but the width of the nose sets the limit. */
  readonly notes: readonly SphereNote[];
}

/** What {@link sphereMarksLimit} needs. */
export type SphereMarksLimitOptions = SphereCut & {
  /** Height of ridge that must not be exceeded. */
  readonly height: number;
};

/** Steps of `along`, every 15 degrees of half a sweep. */
const PLACES = 12;

/**
 * Spacing of the passes and height of the ridges over the surface.
 * @throws GeneratrixError `impossible-geometry` where the passes do not meet at all.
 * @example
 * ```ts
 * import { sphereMarks } from 'generatrix/sphere';
 * const target = { part: 'ball-on-stem', diameter: 50, stemDiameter: 20 } as const;
 * const { largest, flatHeight } = sphereMarks({ target, noseRadius: 0.8, workPerSweepDeg: 1 });
 * largest.spacing.toFixed(4); // => '0.4262'
 * largest.height.toFixed(5); // => '0.02988'
 * flatHeight.toFixed(5); // => '0.02838'
 * ```
 */
export function sphereMarks(options: SphereMarksOptions): SphereMarks {
  const given = read<StatedMarks>(options, MARKS);
  const cut = noseCut(given);
  const turn = radians(given.workPerSweepDeg);
  const sine = Math.sin(cut.tilt) * Math.sin(turn / 2);
  const most = largestTurn(cut);
  if (turn > most.turn * (1 + 4e-16)) {
    const max = degrees(most.turn);
    const phrase = say`must be at most ${tell(max)}, or the passes do not meet`;
    return refuse('impossible-geometry', 'workPerSweepDeg', given.workPerSweepDeg, { kind: 'number', max, phrase });
  }
  return sound(marksFor(cut, Math.min(sine, most.sine), turn), 'workPerSweepDeg');
}

/**
 * The largest angle of work per sweep that keeps the ridges within a height.
 * @throws GeneratrixError for refused arguments.
 * @example
 * ```ts
 * import { sphereMarksLimit } from 'generatrix/sphere';
 * const target = { part: 'ball-on-stem', diameter: 50, stemDiameter: 20 } as const;
 * const { workPerSweepDeg, marks } = sphereMarksLimit({ target, noseRadius: 0.8, height: 0.005 });
 * workPerSweepDeg.toFixed(4); // => '0.4125'
 * Math.ceil(marks.sweepsPerTurn); // => 873
 * ```
 */
export function sphereMarksLimit(options: SphereMarksLimitOptions): SphereMarksLimit {
  const given = read<StatedLimit>(options, LIMIT);
  const cut = noseCut(given);
  const { height } = given;
  const most = largestTurn(cut);
  const allowed = ridgeSine(cut, height);
  const limited = allowed < most.sine;
  const sine = limited ? allowed : most.sine;
  const turn = limited ? 2 * Math.asin(sine / Math.sin(cut.tilt)) : most.turn;
  const marks = marksFor(cut, sine, turn);
  const notes = limited ? [] : [note(FORM, 'passes-barely-meet', { height, heightReached: marks.largest.height })];
  return sound({ workPerSweepDeg: degrees(turn), marks, notes }, 'height');
}

type StatedMarks = StatedCut & Pick<SphereMarksOptions, 'workPerSweepDeg'>;
type StatedLimit = StatedCut & Pick<SphereMarksLimitOptions, 'height'>;
const MARKS: Fields<StatedMarks> = { ...CUT, workPerSweepDeg: number({ above: 0, max: 180 }) };
const LIMIT: Fields<StatedLimit> = { ...CUT, height: positive };

/** A cut with a nose: a sharp point leaves grooves. */
function noseCut(given: StatedCut): ReadCut {
  const cut = cutOf(given);
  const at = given.sweep ? 'sweep.noseRadius' : 'noseRadius';
  const allowed = { kind: 'number', above: 0, phrase: 'must be greater than 0: a sharp point leaves grooves' } as const;
  return cut.noseRadius > 0 ? cut : refuse('out-of-range', at, cut.noseRadius, allowed);
}

/** The largest angle of work per sweep at which passes still meet, with its sin δ at t = 90°. */
function largestTurn(cut: ReadCut): { readonly sine: number; readonly turn: number } {
  const tilt = Math.sin(cut.tilt);
  // Noses must meet across the gap, and the circles of two neighbouring passes must cross: δ ≤ β.
  const meet = Math.min(largestSine(cut), Math.sin(cut.half));
  return meet < tilt ? { sine: meet, turn: 2 * Math.asin(meet / tilt) } : { sine: tilt, turn: Math.PI };
}

function marksFor(cut: ReadCut, sine: number, turn: number): SphereMarks {
  const at = (sweepAngleDeg: number): Mark => mark(cut, sine, turn, sweepAngleDeg);
  const largest = at(90);
  return {
    sweepsPerTurn: (2 * Math.PI) / turn,
    largest,
    flatHeight: largest.spacing ** 2 / (8 * cut.noseRadius),
    along: Array.from({ length: PLACES + 1 }, (_, index) => at((index * 180) / PLACES)),
  };
}

/** The ridge at the place t, on the ellipse whose foci are the axes of two neighbouring passes. */
function mark(cut: ReadCut, sine: number, turn: number, sweepAngleDeg: number): Mark {
  const { tilt, half, radius } = cut;
  const t = radians(sweepAngleDeg);
  const [sinT, cosT] = sweepAngleDeg === 90 ? [1, 0] : [sweepAngleDeg === 180 ? 0 : Math.sin(t), Math.cos(t)];
  const local = sine * sinT;
  // Frame: towards m, midway between the two axes; down the meridian from m; across, from axis to axis.
  // m lies at the polar angle whose cosine is cos α / cos κ and whose sine sin α cos(Δ/2) / cos κ, sin κ = sine.
  const cosine = Math.sqrt((1 - sine) * (1 + sine));
  const high = Math.cos(tilt) / cosine;
  const out = (Math.sin(tilt) * Math.cos(turn / 2)) / cosine;
  const towards = (Math.cos(half) * Math.sqrt((1 - local) * (1 + local))) / cosine;
  const down = (cosT * Math.sqrt(Math.max(0, (Math.sin(half) - sine) * (Math.sin(half) + sine)))) / cosine;
  const across = Math.sin(half) * sinT;
  const polar = Math.atan2(Math.hypot(towards * out + down * high, across), towards * high - down * out);
  return {
    sweepAngleDeg,
    polarAngleDeg: degrees(polar),
    spacing: 2 * radius * Math.asin(local),
    height: ridgeHeight(cut, local),
  };
}
