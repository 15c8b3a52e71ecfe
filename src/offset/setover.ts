/**
 * Set-over between centres: the tailstock moved aside by S turns the work, whose pivots stay L apart, by
 * α, sin α = S/L. The usual rule, S = L(D - d)/2ℓ (any handbook; for example F. D. Jones, Turning and
 * Boring, 1914), is L tan α, too large by 1/cos α. Lengths in any one unit, set-overs on the radius.
 */
import { choice, nonNegative, number, options, positive, representable } from '../core/checks.js';
import { type Dial, type DialSetting, readDial, setOnDial } from '../core/dial.js';
import { refuse } from '../core/errors.js';
import type { Note } from '../core/notes.js';
import { atanDeg } from '../core/trigonometry.js';
import { type ConeDeparture, coneDeparture } from '../revolve/cone-departure.js';
import { readTaper, type Slope, type Taper } from '../taper/taper.js';
import { dialRounded, ruleDiffers, type ShopRule, type TaperCut, taperCut } from './cuts.js';
import { rolledCut } from './rolled-work.js';
import { readCut, SIZED_END, type SizedEnd, type StraightCut, straightCut } from './tool-height.js';

/** What is known of the machine that sets the work over. */
export interface SetoverMachine {
  /** The dial of the tailstock or of the boring head; on the radius, without step or range, if left out. */
  readonly dial?: Dial;
  /** Largest set-over that the machine allows. */
  readonly travel?: number;
  /** Lost motion of the screw, as a movement. */
  readonly backlash?: number;
  /** Axial length of the taper, for figures over that length. */
  readonly length?: number;
}

/** What {@link setoverSettings} needs. */
export interface SetoverOptions extends SetoverMachine {
  /** The taper wanted. */
  readonly taper: Taper;
  /** Distance of the pivots along the work; for plain centres, between the points where they bear. */
  readonly centreDistance: number;
}

/** What a machine of limited travel can do. */
export interface SetoverReach {
  /** Largest half angle at this distance of the pivots, degrees. */
  readonly halfAngleDeg: number;
  /** Rate of that taper. */
  readonly rate: number;
  /** Longest distance of the pivots at which the wanted taper can still be cut. */
  readonly centreDistance: number;
}

/** How far to set over, and what follows from it. */
export interface SetoverSettings extends DialSetting {
  /** The exact set-over, L sin α. */
  readonly offset: number;
  /** Tilt of the work's axis from the machine's at the nearest graduation: how far it stands askew on the centres. */
  readonly tiltDeg: number;
  /** How far the tailstock must follow towards the headstock as the work swings, at the nearest graduation. */
  readonly tailstockAdvance: number;
  /** What the nearest graduation cuts. */
  readonly cuts: TaperCut;
  /** The usual shop rule, L tan α, as the dial reads, and what it would cut; left out where it gives no set-over below L. */
  readonly rule?: ShopRule;
  /** What the travel or the dial's end allows, if either is stated. */
  readonly reach?: SetoverReach;
  /** Error of the difference of the end diameters at the nearest graduation; if the length is given. */
  readonly diameterError?: number;
  /** Change of the difference of the end diameters for one unit of the reading; if the length is given. */
  readonly diameterPerReading?: number;
  /** A graduation that is not exact, a shop rule that would be off, lost motion. */
  readonly notes: readonly Note[];
}

/** The keys of {@link SetoverMachine}. */
export const MACHINE = ['dial', 'travel', 'backlash', 'length'] as const;

/**
 * How far to set the tailstock over for a taper, on its own dial.
 *
 * The distance that counts is that of the two points about which the work turns: for work on plain centres
 * a little less than its overall length, for work between balls see `ballCentresSettings`.
 *
 * @throws GeneratrixError `beyond-machine` if the travel or the dial does not reach, naming what it does.
 *
 * @example
 * ```ts
 * import { setoverSettings } from 'generatrix';
 * const set = setoverSettings({ taper: { perFoot: 0.6 }, centreDistance: 12, dial: { reads: 'radius', step: 0.001 } });
 * set.offset.toFixed(5); // => '0.29991'
 * set.settableReading; // => 0.3
 * set.rule?.value.toFixed(5); // => '0.30000'
 * setoverSettings({ taper: { perFoot: 3 }, centreDistance: 12, travel: 1 }); // throws beyond-machine
 * ```
 */
export function setoverSettings(set: SetoverOptions): SetoverSettings {
  const given = options(set, 'set', ['taper', 'centreDistance'], MACHINE);
  const slope = readTaper(given['taper'] as Taper);
  return setOver(slope, positive(given['centreDistance'], 'centreDistance'), given);
}

/** As {@link setoverSettings}, of an options object whose keys were checked. */
export function setOver(
  { sin, cos, tan }: Slope,
  distance: number,
  given: Readonly<Record<string, unknown>>,
): SetoverSettings {
  const dial = given['dial'] === undefined ? ({ reads: 'radius' } as const) : readDial(given['dial'], 'dial');
  const times = dial.reads === 'diameter' ? 2 : 1;
  const offset = representable(distance * sin, 'centreDistance');
  const reach = readReach(given['travel'], dial.to === undefined ? undefined : dial.to / times, distance, sin, offset);
  const set = setOnDial(offset, dial, 'dial');
  const cuts = taperCut(set.settableValue === offset ? tan : tangent(set.settableValue, distance), tan);
  const rule =
    tan < 1 ? { value: times * distance * tan, cuts: taperCut(tangent(distance * tan, distance), tan) } : undefined;
  const length = given['length'] === undefined ? undefined : positive(given['length'], 'length');
  const perReading = length === undefined ? 0 : (2 * length) / (times * distance * cos ** 3);
  const cosine = 1 / Math.sqrt(1 + (cuts.rate / 2) ** 2);
  return {
    ...set,
    offset,
    tiltDeg: cuts.halfAngleDeg,
    tailstockAdvance: ((set.settableValue / distance) * set.settableValue) / (1 + cosine),
    cuts,
    ...(rule && { rule }),
    ...(reach && { reach }),
    ...(length === undefined
      ? {}
      : { diameterError: cuts.rateError * length + 0, diameterPerReading: representable(perReading, 'length') }),
    notes: [
      ...dialRounded(set.reading, set.settableReading, cuts.rateError),
      ...(rule ? ruleDiffers(rule.cuts) : []),
      ...lostMotion(given['backlash'], set.settableValue, distance, cuts),
    ],
  };
}

/** Tangent of the angle whose sine is offset / distance. */
function tangent(offset: number, distance: number): number {
  const sine = offset / distance;
  return representable(sine / Math.sqrt((1 - sine) * (1 + sine)), 'dial');
}

function readReach(
  stated: unknown,
  dialEnd: number | undefined,
  distance: number,
  sin: number,
  offset: number,
): SetoverReach | undefined {
  const travel = stated === undefined ? undefined : positive(stated, 'travel');
  const end = Math.min(travel ?? Infinity, dialEnd ?? Infinity);
  if (!(end > 0 && end < distance)) return undefined;
  const tan = tangent(end, distance);
  const reach = { halfAngleDeg: atanDeg(tan), rate: 2 * tan, centreDistance: end / sin };
  // A set-over computed to be the very end may miss it by a few units in the last place.
  if (travel !== undefined && offset > travel * (1 + 1e-14)) {
    return refuse(
      'beyond-machine',
      'travel',
      travel,
      `must be at least ${offset}; it allows a rate of ${reach.rate}, or this taper up to a centre distance of ${reach.centreDistance}`,
    );
  }
  return reach;
}

function lostMotion(stated: unknown, offset: number, distance: number, cuts: TaperCut): readonly Note[] {
  const backlash = nonNegative(stated ?? 0, 'backlash');
  if (backlash === 0) return [];
  const rateError = 2 * tangent(Math.max(offset - backlash, 0), distance) - cuts.rate;
  return [
    {
      code: 'backlash',
      message: 'Come to the reading from the same side each time; from the other side the lost motion is missing.',
      values: { backlash, rateError },
    },
  ];
}

/** How the work lies while it is cut, and what is wrong with that. */
export interface SetoverErrors {
  /** True set-over minus the one stated; 0 if left out. */
  readonly zeroError?: number;
  /** Height of the tool's tip above the headstock pivot; 0 if left out. */
  readonly toolHeight?: number;
  /** How far out of level the set-over goes; positive if the tailstock's pivot stands high. 0 if left out. */
  readonly rollDeg?: number;
  /** Distance of the sized end from the headstock pivot, along the work; needed with `rollDeg`. */
  readonly distance?: number;
  /** Which end of the taper lies towards the headstock; `large` if left out. */
  readonly headstockEnd?: 'large' | 'small';
}

/** What {@link setoverSurface} needs. */
export type SetoverSurfaceOptions = SizedEnd &
  SetoverErrors & {
    /** The set-over, as a movement. */
    readonly offset: number;
    /** Distance of the pivots along the work. */
    readonly centreDistance: number;
    /** Axial length of the taper. */
    readonly length: number;
  };

/** What work that is set over is really cut to. */
export interface SetoverCut extends StraightCut {
  /** Least distance between the tool's line and the work's axis: the waist of the hyperboloid, 0 for a cone. */
  readonly waist: number;
  /** How much larger the sized end comes out if the cross slide is set for level work and a tool on centre, not touched off. */
  readonly diameterShift: number;
  /** Departure from the straight cone of the true set-over, and from the cone that fits best. */
  readonly departure: ConeDeparture;
}

/** The keys of {@link SetoverErrors}, of {@link SizedEnd}, and of the cut. */
export const SURFACE: readonly string[] = [
  'zeroError',
  'toolHeight',
  'rollDeg',
  'distance',
  'headstockEnd',
  ...SIZED_END,
];

/**
 * The surface that work set over between centres is really cut to: a cone, or a hyperboloid if the
 * tool is off centre height or the set-over out of level. Rates are compared with the taper of the
 * set-over stated.
 *
 * @throws GeneratrixError `impossible-geometry` if the tool passes clear of the sized end or would run
 * past the axis, or if the zero error turns the taper round.
 *
 * @example
 * ```ts
 * import { setoverSurface } from 'generatrix';
 * const cut = setoverSurface({ offset: 5, centreDistance: 200, length: 100, largeDiameter: 30, distance: 40, rollDeg: 2 });
 * cut.surface.kind; // => 'hyperboloid'
 * cut.waist.toFixed(4); // => '0.5582'
 * cut.diameterError.toFixed(5); // => '0.00416'
 * ```
 */
export function setoverSurface(cut: SetoverSurfaceOptions): SetoverCut {
  const given = options(cut, 'cut', ['offset', 'centreDistance', 'length'], SURFACE);
  return cutSetOver(positive(given['centreDistance'], 'centreDistance'), given);
}

/** As {@link setoverSurface}, of an options object whose keys were checked. */
export function cutSetOver(centreDistance: number, given: Readonly<Record<string, unknown>>): SetoverCut {
  const offset = number(given['offset'], 'offset', { min: 0, below: centreDistance });
  const sine = (offset + number(given['zeroError'] ?? 0, 'zeroError')) / centreDistance;
  if (!(sine >= 0 && sine < 1)) {
    return refuse('impossible-geometry', 'zeroError', given['zeroError'], 'must leave a set-over from 0 to below L');
  }
  const rollDeg = number(given['rollDeg'] ?? 0, 'rollDeg', { min: -90, max: 90 });
  if (rollDeg !== 0 && given['distance'] === undefined) {
    return refuse('missing-option', 'distance', undefined, 'must be given with rollDeg');
  }
  const checked = readCut(given);
  const { height, diameterShift } = rolledCut({
    sine,
    rollDeg,
    towards: choice(given['headstockEnd'] ?? 'large', 'headstockEnd', ['large', 'small']) === 'large' ? 1 : -1,
    distance: nonNegative(given['distance'] ?? 0, 'distance'),
    radius: checked.diameter / 2,
    toolHeight: checked.toolHeight,
  });
  const shown = tangent(offset, centreDistance);
  const perSide = tangent(sine, 1);
  const straight = straightCut(perSide, shown, { ...checked, toolHeight: height });
  return {
    ...straight,
    waist: Math.abs(height),
    diameterShift: diameterShift + 0,
    departure: coneDeparture({ surface: straight.surface, fromZ: 0, toZ: checked.length, perSide }),
  };
}
