/**
 * What to set for a wanted sphere. A sweep of radius r whose axis meets the work's at α covers the
 * polar angles α - β to α + β of a sphere of radius R, with r = R sin β at h = R cos β from its centre;
 * so α is the middle of the angles wanted and β their half-width. Through the pole α = β and
 * R = r / sin α. A nose of radius r_n runs with its centre on R + r_n round a ball, R - r_n in a socket.
 *
 * Sources: two circular paths whose axes meet make a true sphere (Cutting Tool Engineering, March 2013,
 * "Generating spherical surfaces"); sin α = D / (2 (R ± r_n)) with D the diameter of the working edge
 * (A. R. Hilton, Chalcogenide Glasses for Infrared Optics, section 5.2).
 */
import { plainArithmetic } from '../../budget/arithmetic.js';
import {
  type AngleScale,
  type AngleSetting,
  type Dial,
  type DialSetting,
  dial,
  NO_DIAL,
  setOnAngleScale,
  setOnDial,
} from '../../core/dial.js';
import { GeneratrixError, refuse } from '../../core/errors.js';
import {
  choice,
  defaulted,
  type Fields,
  nonNegative,
  number,
  object,
  optional,
  positive,
  read,
  readValue,
  representable,
  sound,
} from '../../core/read.js';
import { say, tell } from '../../core/words.js';
import { readSweep, type Sweep } from '../../revolve/sweep.js';
import {
  type Angle,
  degrees,
  type NosePath,
  nosePath,
  radians,
  type SphereTarget,
  targetZone,
  type Zone,
} from '../target.js';
import { note, type SphereNote } from '../words.js';
import { coverage, coverageNotes, freeDiameter, type SweepCoverage } from './coverage.js';
import { cutRadius, distanceOverPole } from './models.js';

/** A boring head on a spindle that can be tilted. */
export interface SweepHead {
  /** `flat`: the work's axis stands upright. `upright`: it lies level. @defaultValue `flat` */
  readonly table?: 'flat' | 'upright';
  /** How far the head swings to either side. @defaultValue No limit. */
  readonly largestTiltDeg?: number;
  /** One graduation of the head's swivel. @defaultValue Any angle can be set. */
  readonly tiltStepDeg?: number;
  /**
   * The boring head's dial, set so that it reads what a test ring shows: the circle of the tip.
   * @defaultValue One that reads the radius, without graduations or ends.
   */
  readonly dial?: Dial;
}

/** What {@link sweepSettings} needs. */
export interface SweepSettingsOptions {
  /** The part that is wanted. */
  readonly target: SphereTarget;
  /** Radius of the tool's nose. @defaultValue 0 */
  readonly noseRadius?: number;
  /** The machine. @defaultValue Nothing is out of reach. */
  readonly head?: SweepHead;
  /** Angle between the axes that must be used, for a head that stays where it is. */
  readonly fixedTiltDeg?: number;
  /** Diameter of the sweep (of the nose's centre) that must be used, for a cutter that cannot be set. */
  readonly fixedSweepDiameter?: number;
}

/** A sweep and what it cuts of the wanted part. */
export interface SweepResult {
  /** The sweep, as {@link sweepSurface} takes it. */
  readonly sweep: Sweep;
  /** Radius of the sphere that it cuts. */
  readonly radius: number;
  /** How much that differs from the wanted radius. */
  readonly radiusError: number;
  /** Which part of the sphere is covered. */
  readonly coverage: SweepCoverage;
}

/** What to set, and what that cuts. */
export interface SweepSettings extends SweepResult {
  /** Diameter of the sweep: the circle of the tip or, with a nose radius, of the nose's centre. */
  readonly sweepDiameter: number;
  /** Diameter that the tool turns (ball) or bores (socket) on a test ring: the sweep less or plus the nose. */
  readonly tipDiameter: number;
  /** Tilt of the head if the table is flat and the work's axis stands upright. */
  readonly headTiltTableFlatDeg: number;
  /** Tilt of the head if the table is upright and the work's axis lies level; negative to the other side. */
  readonly headTiltTableUprightDeg: number;
  /** The head's dial: the reading, and the nearest graduation. */
  readonly dial: DialSetting;
  /** The head's swivel scale: the reading, and the nearest graduation. */
  readonly tilt: AngleSetting;
  /** What the nearest graduations cut, the tip still set over the centre where the pole must be cut. */
  readonly settable: SweepResult;
  /** Pip that the nearest graduations leave if the distance is set for size instead; 0 where none is due. */
  readonly settablePipAtSize: number;
  /** What else to know. */
  readonly notes: readonly SphereNote[];
}

const HEAD: Fields<SweepHead> = {
  table: optional(choice('flat', 'upright')),
  largestTiltDeg: optional(positive),
  tiltStepDeg: optional(positive),
  dial: optional(dial),
};
/** The options, their target reduced. */
type Given = Omit<SweepSettingsOptions, 'target'> & { readonly target: Zone };

const OPTIONS: Fields<Given, 'noseRadius' | 'head'> = {
  target: targetZone,
  noseRadius: defaulted(nonNegative, 0),
  head: defaulted(object(HEAD), {}),
  fixedTiltDeg: optional(number({ above: 0, below: 180 })),
  fixedSweepDiameter: optional(positive),
};

/**
 * What to set to cut a ball or a socket with a tilted sweep: the angle between the axes, the sweep, its
 * distance from the sphere's centre, and the same on the machine's own scales.
 *
 * With a fixed tilt or a fixed sweep the rest is chosen so that the size is right, the pole is met where
 * there is one and no stem is cut into; `coverage` says what is then left.
 * @throws GeneratrixError `beyond-machine` with the nearest thing the machine can do,
 * `impossible-geometry` for a sweep or a tilt with which no such sphere can be cut.
 * @example
 * ```ts
 * import { sweepSettings } from 'generatrix/sphere';
 * const set = sweepSettings({ target: { part: 'ball-on-stem', diameter: 50, stemDiameter: 25 } });
 * set.sweep.tiltDeg.toFixed(6); // => '75.000000'
 * set.sweepDiameter.toFixed(4); // => '48.2963'
 * set.headTiltTableUprightDeg.toFixed(6); // => '15.000000'
 * const head = { largestTiltDeg: 60 };
 * sweepSettings({ target: { part: 'ball-on-stem', diameter: 50, stemDiameter: 25 }, head }); // throws beyond-machine
 * ```
 */
export function sweepSettings(options: SweepSettingsOptions): SweepSettings {
  const given = read(options, OPTIONS);
  const { noseRadius, fixedTiltDeg, fixedSweepDiameter } = given;
  const zone = given.target;
  const out = zone.side === 'ball' ? 1 : -1;
  if (zone.radius + out * noseRadius <= 0) {
    return refuse('impossible-geometry', 'noseRadius', noseRadius, "must be less than the socket's radius");
  }
  const wanted = nosePath(zone, noseRadius);
  const pathRadius = wanted.radius;
  const head = onScales(given.head);
  if (fixedTiltDeg !== undefined && zone.from === 0) {
    // Through a pole the sweep cannot lean past square.
    readValue(fixedTiltDeg, number({ above: 0, below: 90 }), 'fixedTiltDeg');
  }
  const fixed = {
    tilt: fixedTiltDeg === undefined ? undefined : radians(fixedTiltDeg),
    radius: fixedSweepDiameter === undefined ? undefined : fixedSweepDiameter / 2,
  };
  const { tilt, half, throughPole } = choose(zone, wanted, fixed);
  const tiltDeg = fixedTiltDeg ?? degrees(tilt.rad);
  const sweepRadius = fixed.radius ?? representable(pathRadius * half.sin, 'target');
  const tipRadius = sweepRadius - out * noseRadius;
  if (tipRadius <= 0) {
    return refuse(
      'impossible-geometry',
      'noseRadius',
      noseRadius,
      say`must be less than the sweep's radius, ${tell(sweepRadius)}`,
    );
  }
  const exact = result(zone, { tiltDeg, sweepRadius, distance: pathRadius * half.cos + 0, noseRadius });

  const reach = { zone, wanted, noseRadius };
  const tiltSetting = orNearest(
    () => setOnAngleScale(tiltDeg, head.scale, 'head.largestTiltDeg'),
    () => `the tilt must be in reach of the head; ${nearestTilt(reach, tiltDeg, head)}`,
  );
  const tip = orNearest(
    () => setOnDial(tipRadius, head.dial, 'head.dial'),
    () => `the sweep must be in reach of the head; ${nearestSweep(reach, tipRadius, head.dial)}`,
  );
  const settableTilt = tiltSetting.settableAngleDeg;
  const settableRadius = tip.settableValue + out * noseRadius;
  if (!(settableTilt > 0 && settableTilt < 180 && settableRadius > 0 && tip.settableValue > 0)) {
    const phrase = 'must have graduations fine enough for a tilt and a sweep above 0';
    return refuse('beyond-machine', 'head', settableTilt, phrase);
  }
  const set = (distance: number): CutSweep => ({
    tiltDeg: settableTilt,
    sweepRadius: settableRadius,
    distance,
    noseRadius,
  });
  const sized = atSize(pathRadius, settableRadius);
  const settable = result(
    zone,
    set(throughPole ? distanceOverPole(plainArithmetic, settableRadius, settableTilt, 0) : sized),
  );
  const settablePipAtSize = zone.from === 0 ? freeDiameter(readSweep(set(sized)), zone.radius) : 0;
  const notes = coverageNotes(exact.coverage);
  if (tip.roundingError !== 0 || tiltSetting.roundingErrorDeg !== 0) {
    const { radius, radiusError } = settable;
    notes.push(note('scales-rounded', { radius, radiusError, pipDiameterAtSize: settablePipAtSize }));
  }
  const settings: SweepSettings = {
    sweep: exact.sweep,
    radius: exact.radius,
    radiusError: exact.radiusError,
    coverage: exact.coverage,
    sweepDiameter: 2 * sweepRadius,
    tipDiameter: 2 * tipRadius,
    headTiltTableFlatDeg: tiltDeg,
    headTiltTableUprightDeg: 90 - tiltDeg,
    dial: tip,
    tilt: tiltSetting,
    settable,
    settablePipAtSize,
    notes,
  };
  return sound(settings, 'target');
}

/** Tilt and angular radius of the sweep that covers the zone, or as much of it as what is fixed allows. */
function choose(
  { from: pole, part }: Zone,
  { radius: pathRadius, middle, half: wanted, from, to }: NosePath,
  fixed: { readonly tilt: number | undefined; readonly radius: number | undefined },
): { readonly tilt: Angle; readonly half: Angle; readonly throughPole: boolean } {
  const throughPole = pole === 0;
  const tilt = fixed.tilt === undefined ? undefined : angle(fixed.tilt);
  if (fixed.radius !== undefined) {
    const sin = fixed.radius / pathRadius;
    if (sin > 1) {
      return refuse(
        'impossible-geometry',
        'fixedSweepDiameter',
        2 * fixed.radius,
        say`must be at most ${tell(2 * pathRadius)}, the diameter of the sphere on which the nose runs`,
      );
    }
    const half = { rad: Math.asin(sin), sin, cos: Math.sqrt((1 - sin) * (1 + sin)) };
    if (tilt !== undefined) return { tilt, half, throughPole: false };
    const placed = part === 'ball-end' ? angle(to - half.rad) : middle;
    return { tilt: throughPole ? half : placed, half, throughPole };
  }
  if (tilt === undefined) return { tilt: middle, half: wanted, throughPole };
  if (throughPole) return { tilt, half: tilt, throughPole };
  // Neither stem may be cut into; over a flat the sweep may run out into the air.
  const half = part === 'ball-end' ? to - tilt.rad : Math.min(tilt.rad - from, to - tilt.rad);
  if (half > 0) return { tilt, half: angle(half), throughPole };
  return refuse(
    'impossible-geometry',
    'fixedTiltDeg',
    degrees(tilt.rad),
    say`must lie between ${tell(degrees(from))} and ${tell(degrees(to))}, the polar angles of the surface`,
  );
}

function angle(rad: number): Angle {
  return { rad, sin: Math.sin(rad), cos: Math.cos(rad) };
}

/** Distance at which a sweep cuts its sphere to size; a sweep too large for it can only lie in the middle. */
function atSize(pathRadius: number, sweepRadius: number): number {
  return Math.sqrt(Math.max(0, (pathRadius - sweepRadius) * (pathRadius + sweepRadius)));
}

/** A sweep that meets the work's axis, as the settings state it. */
type CutSweep = Required<Omit<Sweep, 'skew' | 'miss'>>;

function result(zone: Zone, sweep: CutSweep): SweepResult {
  const { sweepRadius, distance, noseRadius } = sweep;
  const radius = representable(cutRadius(plainArithmetic, zone.side, sweepRadius, distance, noseRadius), 'target');
  return { sweep, radius, radiusError: radius - zone.radius, coverage: coverage(zone, readSweep(sweep), radius) };
}

interface ReadHead {
  readonly scale: AngleScale;
  readonly largestTiltDeg: number;
  readonly dial: Dial;
}

function onScales({ table = 'flat', largestTiltDeg = 180, tiltStepDeg, dial: radial = NO_DIAL }: SweepHead): ReadHead {
  const scale: { -readonly [K in keyof AngleScale]: AngleScale[K] } = {
    reads: table === 'flat' ? 'from-axis' : 'from-across',
    fromDeg: -largestTiltDeg,
    toDeg: largestTiltDeg,
  };
  if (tiltStepDeg !== undefined) scale.stepDeg = tiltStepDeg;
  return { scale, largestTiltDeg, dial: radial };
}

/** Puts a value on a scale; where the scale refuses, the refusal also names what can be cut instead. */
function orNearest<T>(set: () => T, nearest: () => string): T {
  try {
    return set();
  } catch (error) {
    if (!(error instanceof GeneratrixError) || error.code !== 'beyond-machine') throw error;
    return refuse(error.code, error.parameter, error.value, `${error.allowed.phrase}: ${nearest()}`);
  }
}

interface Reach {
  readonly zone: Zone;
  readonly wanted: NosePath;
  readonly noseRadius: number;
}

function nearestTilt(reach: Reach, tiltDeg: number, head: ReadHead): string {
  const { zone } = reach;
  const { reads } = head.scale;
  const limit = reads === 'from-axis' ? head.largestTiltDeg : 90 + Math.sign(tiltDeg - 90) * head.largestTiltDeg;
  const shortest = Math.abs(limit - 90) < 90 && (zone.from > 0 || limit < 90);
  if (!shortest) return 'no tilt of this head cuts the surface';
  return whatIsCut(reach, { tilt: radians(limit), radius: undefined }, `fixedTiltDeg ${limit}`);
}

function nearestSweep(reach: Reach, tipRadius: number, dial: Dial): string {
  const { zone, wanted, noseRadius } = reach;
  const times = dial.reads === 'diameter' ? 2 : 1;
  const { from = -Infinity, to = Infinity } = dial;
  const nose = zone.side === 'ball' ? noseRadius : -noseRadius;
  const radius = (times * tipRadius < from ? from : to) / times + nose;
  if (radius <= 0 || radius > wanted.radius) return 'no sweep of this head fits the sphere';
  return whatIsCut(reach, { tilt: undefined, radius }, `fixedSweepDiameter ${Number((2 * radius).toPrecision(10))}`);
}

function whatIsCut(
  { zone, wanted, noseRadius }: Reach,
  fixed: { readonly tilt: number | undefined; readonly radius: number | undefined },
  what: string,
): string {
  const { tilt, half } = choose(zone, wanted, fixed);
  const tiltDeg = degrees(tilt.rad);
  const sweepRadius = wanted.radius * half.sin;
  const { coverage: cut } = result(zone, { tiltDeg, sweepRadius, distance: wanted.radius * half.cos, noseRadius });
  const set = say`with a tilt of ${tell(tiltDeg)} and a sweep diameter of ${tell(2 * sweepRadius)}`;
  const ends = say`from a diameter of ${tell(cut.freeEnd.diameter)} to one of ${tell(cut.farEnd.diameter)}`;
  return `nearest is ${what}, ${set}, which cuts the sphere ${ends}`;
}
