/**
 * Where to put the tool: places that a person can set and check. The tip over the centre of the turning
 * work, touched on the end face, gives the sphere's place; a test ring gives the sweep's true size. Lengths
 * in one unit; heights along the work axis.
 */
import { type Dial, type DialSetting, dial, perMovement, setOnDial } from '../../core/dial.js';
import { refuse } from '../../core/errors.js';
import { defaulted, type Fields, nonNegative, number, type Reader, read, sound } from '../../core/read.js';
import { LONGEST, type Sweep, sweepOf, sweepReader } from '../../revolve/sweep.js';
import { type SphereTarget, sphereTarget, zoneOf } from '../target.js';
import { note, type SphereNote } from '../words.js';

/** What {@link sweepPosition} needs. */
export interface SweepPositionOptions {
  /** The part that is wanted. */
  readonly target: SphereTarget;
  /** The sweep, as {@link sweepSettings} gives it. */
  readonly sweep: Sweep;
  /**
   * Stock on the end face of a ball: from the face to the finished free end.
   *
   * @defaultValue 0
   */
  readonly faceStock?: number;
}

/** Where sphere, spindle axis and tip stand when the sphere is finished. */
export interface SweepPosition {
  /** Height of the sphere's centre from the end face or the socket's face; negative: below it, in the work. */
  readonly centreFromFace: number;
  /**
   * Feed along the work axis from touching the face with the tip at its lowest, nearest the work axis, to the
   * finished surface.
   */
  readonly feedFromTouch: number;
  /** Where the tip passes nearest to the work axis, from it, in the plane of the axes; 0 over the centre. */
  readonly tipFromCentre: number;
  /**
   * Where the spindle axis meets the plane of the face, from the work axis: for a pointer or an edge finder. Null for
   * axes square to each other, which never meets it; far away where they nearly are.
   */
  readonly spindleAtFace: number | null;
  /** How far the spindle axis passes the centre of the face, square to the spindle. */
  readonly spindleFromFaceCentre: number;
  /** Where the centre of the sweep stands: from the work axis. */
  readonly sweepCentreAcross: number;
  /** Where the centre of the sweep stands: height from the sphere's centre, on the spindle's side of it. */
  readonly sweepCentreHeight: number;
  /** What else to know. */
  readonly notes: readonly SphereNote[];
}

/**
 * Where the tool stands for a sweep: set the tip over the centre of the turning work, touch the face, feed
 * along the work axis by `feedFromTouch`.
 *
 * @param options - Part, sweep, and stock on the face.
 * @returns Positions to set and to check.
 * @throws GeneratrixError `contradiction` if face stock is given for a socket, whose face is finished.
 * @example
 * ```ts
 * import { sweepPosition } from 'generatrix/sphere';
 * const target = { part: 'socket', radius: 25, depth: 5 } as const;
 * const at = sweepPosition({ target, sweep: { tiltDeg: 30, sweepRadius: 12.5, distance: 12.5 * Math.sqrt(3) } });
 * at.centreFromFace; // => 20
 * at.feedFromTouch.toFixed(6); // => '5.000000'
 * at.tipFromCentre.toFixed(6); // => '0.000000'
 * ```
 */
export function sweepPosition(options: SweepPositionOptions): SweepPosition {
  const { target, sweep, faceStock } = read(options, POSITION);
  const zone = zoneOf(target);
  const { sin, cos, radius: r, distance: h, noseRadius } = sweepOf(sweep);
  const socket = zone.side === 'socket';
  if (socket && faceStock !== 0) {
    return refuse('contradiction', 'faceStock', faceStock, 'must be 0 for a socket: its face is finished first');
  }
  // Contact of tip and sphere, seen from the centre: the nose's centre brought onto the sphere.
  const path = Math.sqrt(h * h + r * r);
  const scale = (path + (socket ? noseRadius : -noseRadius)) / path;
  const lowest = h * cos + r * sin + (socket ? noseRadius : -noseRadius);
  const { fromHeight, toHeight } = zone.rims;
  // Heights of a ball grow towards its free face, those of a socket towards its bottom.
  const face = socket ? toHeight : fromHeight + faceStock;
  const tipFromCentre = scale * (h * sin - r * cos);
  const met = Math.abs(tipFromCentre) <= 1e-12 * path;
  const result: SweepPosition = {
    centreFromFace: socket ? face : -face,
    feedFromTouch: socket ? lowest - face : face - lowest,
    tipFromCentre: met ? 0 : tipFromCentre,
    spindleAtFace: cos === 0 ? null : Math.abs(face * (sin / cos)),
    spindleFromFaceCentre: Math.abs(face * sin),
    sweepCentreAcross: h * sin,
    sweepCentreHeight: h * cos,
    notes: !met && zone.from === 0 ? [note('tip-off-centre', { tipFromCentre })] : [],
  };
  return sound(result, 'sweep.tiltDeg');
}

const POSITION: Fields<SweepPositionOptions, 'faceStock'> = {
  target: sphereTarget,
  sweep: sweepReader,
  faceStock: defaulted(nonNegative, 0),
};

/** What {@link testRing} needs. */
export interface TestRingOptions {
  /** Measured diameter of the ring that the sweep turned or bored. */
  readonly ringDiameter: number;
  /** What the head's dial read meanwhile. */
  readonly reading: number;
  /** The head's dial. */
  readonly dial: Dial;
  /** Tip diameter that is wanted, from {@link sweepSettings}. */
  readonly tipDiameter: number;
}

/** What a test ring tells of the head. */
export interface TestRing {
  /** What the dial reads too much, as it reads: reading less the true value. */
  readonly zeroError: number;
  /** What to set, the zero error allowed for. */
  readonly dial: DialSetting;
}

const LENGTH: Reader<number> = number({ above: 0, max: LONGEST });
const RING: Fields<TestRingOptions> = { ringDiameter: LENGTH, reading: LENGTH, dial, tipDiameter: LENGTH };

/**
 * The head's zero error from a ring that the sweep turned or bored with its axis along the spindle's, and
 * the reading that gives the diameter wanted.
 *
 * @param options - Ring, reading, dial and wanted tip diameter.
 * @returns Zero error, and the new reading with its nearest graduation.
 * @throws GeneratrixError `beyond-machine` if the dial cannot reach the reading.
 * @example
 * ```ts
 * import { testRing } from 'generatrix/sphere';
 * const ring = testRing({ ringDiameter: 40.5, reading: 40, dial: { reads: 'diameter', step: 0.25 }, tipDiameter: 48 });
 * ring.zeroError; // => -0.5
 * ring.dial.reading; // => 47.5
 * ```
 */
export function testRing(options: TestRingOptions): TestRing {
  const { ringDiameter, reading, dial: head, tipDiameter } = read(options, RING);
  const times = perMovement(head.reads);
  const zeroError = reading - (times * ringDiameter) / 2;
  const set = setOnDial(tipDiameter / 2 + zeroError / times, head, 'dial');
  return sound({ zeroError, dial: { ...set, settableValue: set.settableValue - zeroError / times } }, 'ringDiameter');
}
