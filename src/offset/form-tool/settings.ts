/**
 * A form tool with a straight edge, set to the half angle of a short taper and fed straight in: what to set, how much
 * edge that takes, how far it goes in. Lengths in any one unit, angles in degrees from the axis of the work.
 * Indicators have their plunger square across the axis of the work, at centre height.
 */
import { refuse } from '../../core/errors.js';
import {
  defaulted,
  type Fields,
  nonNegative,
  number,
  optional,
  positive,
  read,
  representable,
} from '../../core/read.js';
import { slopeOf, type Taper, taper } from '../../taper/taper.js';

/** What {@link formToolSettings} needs. */
export interface FormToolOptions {
  /** The taper wanted. */
  readonly taper: Taper;
  /** Axial length of the taper. */
  readonly length: number;
  /**
   * How far the edge shall stand out beyond the taper, along itself, both ends together.
   *
   * @defaultValue 0
   */
  readonly overlap?: number;
  /**
   * Length of the tool's straight edge.
   *
   * @defaultValue none: as long as is needed
   */
  readonly width?: number;
  /**
   * Stock on the radius over the end that is cut last: the large end of an outside taper turned from a cylinder, the
   * small end of an inside one turned from a plain bore.
   *
   * @defaultValue 0
   */
  readonly allowance?: number;
  /**
   * Travel over which an indicator will be watched.
   *
   * @defaultValue the length of the taper
   */
  readonly indicatorTravel?: number;
}

const OPTIONS: Fields<FormToolOptions, 'overlap' | 'allowance'> = {
  taper,
  length: positive,
  overlap: defaulted(nonNegative, 0),
  width: optional(positive),
  allowance: defaulted(nonNegative, 0),
  indicatorTravel: optional(positive),
};

/** How to set a form tool. */
export interface FormToolSettings {
  /** Angle of the edge from the axis of the work. */
  readonly halfAngleDeg: number;
  /** Angle of the edge from a face square to the axis: what a protractor laid on the face or the chuck shows. */
  readonly fromFaceDeg: number;
  /** Length of edge that is in the cut when the tool stands at size. */
  readonly edgeInCut: number;
  /** Length of edge that the tool must have: the same and the overlap. */
  readonly widthNeeded: number;
  /** What an indicator standing still against the edge shows while the carriage makes the indicator's travel. */
  readonly indicatorOnEdge: number;
  /**
   * What an indicator carried along a true cylinder shows, over the same travel of a slide that stands parallel to the
   * edge (against the edge it shows nothing).
   */
  readonly indicatorOnCylinder: number;
  /** How far the tool goes in from first touching the stock, fed square to the axis. */
  readonly squareInfeed: number;
  /** The same, fed along the edge's own normal. */
  readonly normalInfeed: number;
  /** How far that takes the tool along the axis, from the small end towards the large one. */
  readonly normalShift: number;
  /** Change of the difference of the end diameters for a degree of the edge (its slope there). */
  readonly diameterPerDegree: number;
  /** The same for a minute of arc. */
  readonly diameterPerMinute: number;
}

/**
 * Settings of a form tool for a short taper: its straight edge stands at the half angle and is as long as the side.
 *
 * The side of a taper of length ℓ is ℓ/cos α long. Over a travel t of the carriage the edge draws away from a plunger
 * by t tan α; a slide parallel to it runs off a true cylinder by t sin α. Fed square to the axis into stock that stands
 * proud of the far end by s, the edge goes in by p = s + ℓ tan α; along its own normal by p cos α, which is p sin α cos α
 * along the axis.
 *
 * @param options - Taper, length, and what is known of the tool and the stock. Lengths in one unit.
 * @throws GeneratrixError `beyond-machine` if the edge is too short.
 * @example
 * ```ts
 * import { formToolSettings } from 'generatrix';
 * const set = formToolSettings({ taper: { includedAngleDeg: 90 }, length: 4, overlap: 1 });
 * set.halfAngleDeg; // => 45
 * set.widthNeeded.toFixed(3); // => '6.657'
 * set.squareInfeed.toFixed(3); // => '4.000'
 * set.normalInfeed.toFixed(3); // => '2.828'
 * ```
 */
export function formToolSettings(options: FormToolOptions): FormToolSettings {
  const { taper: wanted, length, overlap, width, allowance, indicatorTravel = length } = read(options, OPTIONS);
  const { tan, sin, cos, halfAngleDeg } = slopeOf(wanted);
  const edgeInCut = representable(length / cos, 'length');
  const widthNeeded = representable(edgeInCut + overlap, 'overlap');
  // A width computed to fit exactly may be off by a few units in the last place.
  if (width !== undefined && widthNeeded - width > 1e-14 * widthNeeded) {
    return refuse('beyond-machine', 'width', width, number({ min: widthNeeded }).allowed);
  }
  const squareInfeed = representable(allowance + length * tan, 'length');
  const normalInfeed = squareInfeed * cos;
  const perRadian = (2 * length) / cos / cos;
  return {
    halfAngleDeg,
    fromFaceDeg: 90 - halfAngleDeg,
    edgeInCut,
    widthNeeded,
    indicatorOnEdge: representable(indicatorTravel * tan, 'indicatorTravel'),
    indicatorOnCylinder: indicatorTravel * sin,
    squareInfeed,
    normalInfeed,
    normalShift: normalInfeed * sin,
    diameterPerDegree: representable((perRadian * Math.PI) / 180, 'length'),
    diameterPerMinute: (perRadian * Math.PI) / 10800,
  };
}
