/**
 * A job as plain data: the part, the machines that may cut it, and how well things can be set and
 * measured here. Lengths are all in the job's unit, angles in degrees, limits are plus or minus.
 * `docs/job.schema.json` is generated from these types.
 */
import type { LatheBase, MillBase } from '../method/method.js';
import type { Shop } from '../method/shop.js';
import type { SOURCES } from '../method/sources.js';
import type { EquipmentOn, Part } from './methods.js';

/** What to make, on what, how well. */
export interface Job {
  /** What the part is called. */
  readonly title: string;
  /** Unit of all lengths; for labels only. */
  readonly unit: 'mm' | 'in';
  /** The part. */
  readonly part: Part;
  /** Lathes that may cut it. */
  readonly lathes?: readonly Lathe[];
  /** Milling machines that may cut it. */
  readonly mills?: readonly Mill[];
  /** What the shop has to set things with; indicators left out are assumed, and the plan says so. */
  readonly shop?: Shop;
  /** How well things can be set here, by whatever means: a limit that is stated wins; what is left out is assumed, and the plan says so. */
  readonly setting?: SettingLimits;
  /** How well things can be measured here; what is left out is assumed, and the plan says so. */
  readonly measuring?: MeasuringLimits;
  /** Coverage probability of stated intervals, 0.5 to 0.9999. @defaultValue 0.95 */
  readonly coverage?: number;
}

/** A lathe; leave out what it does not have. */
export interface Lathe extends LatheBase, EquipmentOn<'lathes'> {}

/** A milling machine with a rotary table; leave out what it does not have. */
export interface Mill extends MillBase, EquipmentOn<'mills'> {}

/** How well things can be set, plus or minus. */
export type SettingLimits = { readonly [K in keyof typeof SOURCES]?: number } & {
  /** How well a change of a setting is made, as a fraction of the limit of setting it afresh. */
  readonly resettingFraction?: number;
};

/** How well things can be measured, plus or minus. */
export interface MeasuringLimits {
  /** A diameter. */
  readonly diameter?: number;
  /** A distance along the axis. */
  readonly length?: number;
}
