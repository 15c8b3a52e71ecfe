/**
 * What to set on a swivelling tool: the sphere's radius from the swivel's centre to the tip. Beside a stem the swing
 * ends where the nose touches sphere and stem, sin θ = (d/2 + n) / (R + n). Lengths in one unit.
 */

import { defaulted, type Fields, nonNegative, read, sound } from '../../core/read.js';
import { noseOnSphere } from '../scallop.js';
import { degrees, nosePath, type SphereTarget, sphereTarget, zoneOf } from '../target.js';

/** What {@link swivelSettings} needs. */
export interface SwivelSettingsOptions {
  /** The part that is wanted. */
  readonly target: SphereTarget;
  /** Radius of the tool's nose, less than a socket's radius, at most a million times a ball's. @defaultValue 0 */
  readonly noseRadius?: number;
}

/** What to set on a swivelling tool. */
export interface SwivelSettings {
  /** From the swivel's centre to the tip: the sphere's radius. */
  readonly swivelRadius: number;
  /** From the swivel's centre to the centre of the nose. */
  readonly noseCentreRadius: number;
  /** Where the swing begins, from the work axis at the free end. */
  readonly swingFromDeg: number;
  /** Where the swing must end; beside a stem the nose then touches both. */
  readonly swingToDeg: number;
  /** Distance of the swivel's centre from the free end's pole along the work axis. */
  readonly centreFromPole: number;
}

const OPTIONS: Fields<SwivelSettingsOptions, 'noseRadius'> = {
  target: sphereTarget,
  noseRadius: defaulted(nonNegative, 0),
};

/**
 * What to set for a ball or a socket cut by a swivelling tool.
 * @throws GeneratrixError `out-of-range` for a nose that does not fit the socket.
 * @example
 * ```ts
 * import { swivelSettings } from 'generatrix/sphere';
 * const set = swivelSettings({ target: { part: 'ball-on-stem', diameter: 50, stemDiameter: 25 } });
 * set.swivelRadius; // => 25
 * set.swingToDeg.toFixed(6); // => '150.000000'
 * ```
 */
export function swivelSettings(options: SwivelSettingsOptions): SwivelSettings {
  const { target, noseRadius } = read(options, OPTIONS);
  const zone = zoneOf(target);
  noseOnSphere(zone.side, zone.radius, noseRadius, 'noseRadius');
  const { radius: noseCentreRadius, from, to } = nosePath(zone, noseRadius);
  return sound({
    swivelRadius: zone.radius,
    noseCentreRadius,
    swingFromDeg: degrees(from),
    swingToDeg: degrees(to),
    centreFromPole: zone.radius,
  });
}
