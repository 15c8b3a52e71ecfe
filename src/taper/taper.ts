/**
 * The one way every function takes a taper: an object with one key that says how it is stated.
 * Terms follow ISO 3040: rate of taper C = (D - d)/L = 2 tan(half angle), also written 1 : x.
 */
import { number, options, positive, representable } from '../core/checks.js';
import { refuse } from '../core/errors.js';

/** A taper, stated in any one of these ways. */
export type Taper =
  | {
      /** Rate of taper C = (D - d)/L, a plain ratio. */
      readonly rate: number;
    }
  | {
      /** x of the ratio 1 : x. */
      readonly oneIn: number;
    }
  | {
      /** Inches of diameter per foot of length: 12 C. */
      readonly perFoot: number;
    }
  | {
      /** Inches of diameter per inch of length: the same number as the rate. */
      readonly perInch: number;
    }
  | {
      /** Change of radius per unit of length: the tangent of the half angle. */
      readonly perSide: number;
    }
  | {
      /** 100 C. */
      readonly percent: number;
    }
  | {
      /** Millimetres of diameter per 100 mm of length: the same number as percent. */
      readonly mmPer100mm: number;
    }
  | {
      /** Cone angle, between opposite sides, in degrees. */
      readonly includedAngleDeg: number;
    }
  | {
      /** Half the cone angle: between side and axis, in degrees. */
      readonly halfAngleDeg: number;
    }
  | {
      /** Diameter at the large end. */
      readonly largeDiameter: number;
      /** Diameter at the small end; 0 for a point. */
      readonly smallDiameter: number;
      /** Axial distance between the two diameters. */
      readonly length: number;
    };

/** A taper reduced to what calculations need; every field has its full digits. */
export interface Slope {
  /** Tangent of the half angle: change of radius per unit of length along the axis. */
  readonly tan: number;
  /** Sine of the half angle. */
  readonly sin: number;
  /** Cosine of the half angle. */
  readonly cos: number;
  /** Half angle in degrees. */
  readonly halfAngleDeg: number;
}

/** Reads a taper however it is stated, and refuses what is none. */
export function readTaper(taper: Taper, parameter = 'taper'): Slope {
  const tan = tangent(taper, parameter);
  const cos = 1 / Math.sqrt(1 + tan * tan);
  return { tan, sin: tan * cos, cos, halfAngleDeg: (Math.atan(tan) * 180) / Math.PI };
}

const RATES = { rate: 1, perInch: 1, perFoot: 12, percent: 100, mmPer100mm: 100, perSide: 0.5 } as const;

function tangent(taper: Taper, parameter: string): number {
  const given = options(
    taper,
    parameter,
    [],
    [...Object.keys(RATES), 'oneIn', 'includedAngleDeg', 'halfAngleDeg', 'largeDiameter', 'smallDiameter', 'length'],
  );
  const keys = Object.keys(given).filter((key) => given[key] !== undefined);
  if (keys.includes('largeDiameter') || keys.includes('smallDiameter') || keys.includes('length')) {
    const { largeDiameter, smallDiameter, length } = options(taper, parameter, [
      'largeDiameter',
      'smallDiameter',
      'length',
    ]);
    const large = positive(largeDiameter, `${parameter}.largeDiameter`);
    const small = number(smallDiameter, `${parameter}.smallDiameter`, { min: 0, below: large });
    return representable((large - small) / (2 * positive(length, `${parameter}.length`)), parameter);
  }
  const [key] = keys;
  if (key === undefined || keys.length > 1) {
    return refuse(
      key === undefined ? 'missing-option' : 'contradiction',
      parameter,
      keys,
      'must state the taper in exactly one way',
    );
  }
  const path = `${parameter}.${key}`;
  if (key === 'includedAngleDeg') return Math.tan((number(given[key], path, { above: 0, below: 180 }) / 360) * Math.PI);
  if (key === 'halfAngleDeg') return Math.tan((number(given[key], path, { above: 0, below: 90 }) / 180) * Math.PI);
  if (key === 'oneIn') return representable(0.5 / positive(given[key], path), path);
  return representable(positive(given[key], path) / (2 * RATES[key as keyof typeof RATES]), path);
}
