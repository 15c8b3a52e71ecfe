/**
 * Where a taper is measured in the shop, and what it may then show. Two marks a round distance apart, clear of both
 * edges, where an anvil has a place to stand. A tolerance is spent once: what touching off and measuring may be off by
 * is taken from it before a reading is accepted. At the trial, where a wrong decision is found later, the guard band
 * is twice the standard uncertainty (JCGM 106:2012, 8.3.2, from memory); at the finished part all limits are added up,
 * so that what is accepted does hold. Limits of ± a are taken as evenly spread: u = a/√3. Lengths in the job's unit.
 */
import { roundBelow } from '../method/steps.js';
import type { Slope } from '../taper/taper.js';
import type { TaperPart, TaperWork } from './part.js';

/** Where to measure, and what readings are accepted. */
export interface Judging {
  /** The mark at the small end, counted from that end, and how far beyond it the other one lies. */
  readonly markAt: number;
  readonly distance: number;
  /** How far a measured difference is in doubt, twice its standard uncertainty. */
  readonly doubt: number;
  /** What the difference over the distance may be off by at the trial. */
  readonly trial: number;
  /** What the finished part may be off by at the lower mark, and in the difference; none where it has no such tolerance. */
  readonly small: number;
  readonly difference: number;
  /** Whether this measuring can prove the tolerance; if not, how well it would have to measure (0: touching off alone spends it). */
  readonly proves: boolean;
  readonly share: number;
}

/** Share of a length between the marks at most: common practice, no source. */
const BETWEEN = 0.8;

/** Part of a tolerance that must be left for the reading, or measuring proves nothing: common practice, no source. */
const LEFT = 1 / 4;

/** What is measured on a trial of a length, and what is accepted. */
export function judged(
  { part, setting, measuring }: TaperWork,
  { tan }: Slope,
  trialLength: number,
  angleTolerance: number,
): Judging {
  const distance = roundBelow(BETWEEN * trialLength);
  const markAt = roundBelow((trialLength - distance) / 2);
  const { smallDiameter = Infinity } = part.tolerance;
  const { touchOff } = setting;
  // Touched off at the upper mark, the small end is off by that and by (mark + distance)/distance of the difference's error.
  const reach = (markAt + distance) / distance;
  const place = 2 * tan * measuring.length;
  const measured = Math.hypot(measuring.diameter, measuring.diameter, place);
  const bySmall = guarded(smallDiameter / reach, measured, touchOff / reach);
  const byAngle = guarded((angleTolerance * distance) / part.length, measured, 0);
  // Both readings, the place of the marks and the touched-off diameter at their limits, carried on to the small end.
  const beyond = markAt / distance;
  const carried = touchOff * beyond + measuring.diameter * (1 + 2 * beyond) + place * reach;
  const small = (smallDiameter - carried) / reach;
  const difference = (angleTolerance * distance) / part.length - 2 * measuring.diameter - place;
  const share = Math.min(bySmall.share, byAngle.share);
  return {
    markAt,
    distance,
    doubt: (2 * measured) / Math.sqrt(3),
    trial: Math.min(bySmall.band, byAngle.band),
    small,
    difference,
    proves: share >= 1 && small > 0 && difference > 0,
    share: Math.min(share, small > 0 && difference > 0 ? 1 : LEFT),
  };
}

function guarded(tolerance: number, measured: number, touchOff: number): { band: number; share: number } {
  const band = tolerance - (2 * Math.hypot(measured, touchOff)) / Math.sqrt(3);
  const most = (((1 - LEFT) * tolerance * Math.sqrt(3)) / 2) ** 2 - touchOff ** 2;
  return { band: Math.max(band, LEFT * tolerance), share: Math.sqrt(Math.max(0, most)) / measured };
}

/** Diameter of the finished taper at a distance from its small end. */
export function diameterAtMark({ largeDiameter, length }: TaperPart, { tan }: Slope, fromSmallEnd: number): number {
  return largeDiameter - 2 * tan * (length - fromSmallEnd);
}
