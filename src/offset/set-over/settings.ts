/**
 * Set-over between centres: the tailstock moved aside by S turns the work, whose pivots stay L apart, by
 * α, sin α = S/L. The usual rule, S = L(D - d)/2ℓ (any handbook; for example F. D. Jones, Turning and
 * Boring, 1914), is L tan α, too large by 1/cos α. Lengths in any one unit, set-overs on the radius.
 */
import { type Dial, type DialSetting, dial, NO_DIAL, perMovement, setOnDial } from '../../core/dial.js';
import { refuse } from '../../core/errors.js';
import {
  defaulted,
  type Fields,
  type Filled,
  nonNegative,
  optional,
  positive,
  read,
  representable,
} from '../../core/read.js';
import { atanDeg } from '../../core/trigonometry.js';
import { note } from '../../core/words.js';
import { type Slope, slopeOf, type Taper, taper } from '../../taper/taper.js';
import { type Draft, type ShopRule, settingNotes, type TaperCut, taperCut } from '../taper-cut.js';
import { type OffsetNote, SETTING } from '../words.js';

/** What is known of the machine that sets the work over. */
export interface SetoverMachine {
  /** The dial of the tailstock or of the boring head. @defaultValue on the radius, without step or range */
  readonly dial?: Dial;
  /** Largest set-over that the machine allows. @defaultValue no limit but the dial's */
  readonly travel?: number;
  /** Lost motion of the screw, as a movement. @defaultValue 0 */
  readonly backlash?: number;
  /** Axial length of the taper, for figures over that length. @defaultValue none: these figures are left out */
  readonly length?: number;
}

/** Readers of {@link SetoverMachine}. */
export const MACHINE: Fields<SetoverMachine, 'dial' | 'backlash'> = {
  dial: defaulted(dial, NO_DIAL),
  travel: optional(positive),
  backlash: defaulted(nonNegative, 0),
  length: optional(positive),
};

/** What {@link setoverSettings} needs. */
export interface SetoverOptions extends SetoverMachine {
  /** The taper wanted. */
  readonly taper: Taper;
  /** Distance of the pivots along the work; for plain centres, between the points where they bear. */
  readonly centreDistance: number;
}

const OPTIONS: Fields<SetoverOptions, 'dial' | 'backlash'> = { taper, centreDistance: positive, ...MACHINE };

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
  readonly differenceError?: number;
  /** Change of the difference of the end diameters for one unit of the reading; if the length is given. */
  readonly diameterPerReading?: number;
  /** A graduation that is not exact, a shop rule that would be off, lost motion. */
  readonly notes: readonly OffsetNote[];
}

/**
 * How far to set the tailstock over for a taper, on its own dial.
 *
 * The distance that counts is that of the two points about which the work turns: for work on plain centres
 * a little less than its overall length, for work between balls see `ballCentresSettings`.
 * @throws GeneratrixError `beyond-machine` if the travel or the dial does not reach, naming what it does.
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
export function setoverSettings(options: SetoverOptions): SetoverSettings {
  const given = read(options, OPTIONS);
  return setOver(slopeOf(given.taper), given.centreDistance, given);
}

/** As {@link setoverSettings}, for pivots at a distance. */
export function setOver(
  { sin, cos, tan }: Slope,
  distance: number,
  { dial, travel, backlash, length }: Filled<SetoverMachine, 'dial' | 'backlash'>,
): Draft<SetoverSettings> {
  const times = perMovement(dial.reads);
  const offset = representable(distance * sin, 'centreDistance');
  const end = Math.min(travel ?? Infinity, dial.to === undefined ? Infinity : dial.to / times);
  const reach = end > 0 && end < distance ? reachOf(end, distance, sin) : undefined;
  // A set-over computed to be the very end may miss it by a few units in the last place.
  if (reach && travel !== undefined && offset > travel * (1 + 1e-14)) {
    const phrase = `must be at least ${offset}; it allows a rate of ${reach.rate}, or this taper up to a centre distance of ${reach.centreDistance}`;
    return refuse('beyond-machine', 'travel', travel, { kind: 'number', min: offset, phrase });
  }
  const { reading, settableReading, settableValue, roundingError } = setOnDial(offset, dial, 'dial');
  const cuts = taperCut(settableValue === offset ? tan : tangentOf(settableValue, distance), tan);
  const rule = tan < 1 ? shopRule(distance, tan, times) : undefined;
  const notes = settingNotes(reading, settableReading, cuts, rule);
  if (backlash > 0) {
    const rateError = 2 * tangentOf(Math.max(settableValue - backlash, 0), distance) - cuts.rate;
    notes.push(note(SETTING, 'backlash', { backlash, rateError }));
  }
  const cosine = 1 / Math.sqrt(1 + (cuts.rate / 2) ** 2);
  const settings: Draft<SetoverSettings> = {
    reading,
    settableReading,
    settableValue,
    roundingError,
    offset,
    tiltDeg: cuts.halfAngleDeg,
    tailstockAdvance: ((settableValue / distance) * settableValue) / (1 + cosine),
    cuts,
    notes,
  };
  if (rule) settings.rule = rule;
  if (reach) settings.reach = reach;
  if (length !== undefined) {
    settings.differenceError = cuts.rateError * length + 0;
    settings.diameterPerReading = representable((2 * length) / (times * distance * cos ** 3), 'length');
  }
  return settings;
}

/** L tan α as the dial reads, and what that cuts. */
function shopRule(distance: number, tan: number, times: number): ShopRule | undefined {
  const value = times * distance * tan;
  return value < Infinity ? { value, cuts: taperCut(tangentOf(distance * tan, distance), tan) } : undefined;
}

/** What a set-over of at most `end` allows. */
function reachOf(end: number, distance: number, sin: number): SetoverReach {
  const tan = tangentOf(end, distance);
  return { halfAngleDeg: atanDeg(tan), rate: 2 * tan, centreDistance: representable(end / sin, 'travel') };
}

/** Tangent of the angle whose sine is offset / distance. */
export function tangentOf(offset: number, distance: number): number {
  const sine = offset / distance;
  return representable(sine / Math.sqrt((1 - sine) * (1 + sine)), 'dial');
}
