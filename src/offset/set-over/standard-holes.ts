/** Standard centre holes of 60°, by series and pilot diameter. */
import { refuse } from '../../core/errors.js';
import { readValue, text } from '../../core/read.js';

/** Sizes of a centre hole, in one unit. */
export interface HoleSizes {
  /** Diameter of the cone at the end face. */
  readonly mouthDiameter: number;
  /** Diameter of the pilot hole where the cone ends, less than the mouth. */
  readonly pilotDiameter: number;
  /** Included angle of the cone, degrees. @defaultValue 60 */
  readonly holeAngleDeg?: number;
}

/** Pilot and mouth in millimetres. */
type Row = readonly [pilot: number, mouth: number];

/** ISO 866, type A: from memory; the depth of the cone follows from both and agrees with the printed one in all rows. */
const ISO_866_A: readonly Row[] = [
  [0.5, 1.06],
  [0.63, 1.32],
  [0.8, 1.7],
  [1, 2.12],
  [1.25, 2.65],
  [1.6, 3.35],
  [2, 4.25],
  [2.5, 5.3],
  [3.15, 6.7],
  [4, 8.5],
  [5, 10.6],
  [6.3, 13.2],
  [8, 17],
  [10, 21.2],
];

/** DIN 332, form A, of the older series, mouth 2.5 times the pilot: an engineering reference page on DIN 332, one source. */
const DIN_332_A: readonly Row[] = [
  [0.8, 2],
  [1, 2.5],
  [1.25, 3.15],
  [1.6, 4],
  [2, 5],
  [2.5, 6.3],
  [3.15, 8],
  [4, 10],
  [5, 12.5],
  [6.3, 16],
];

const HOLES: Readonly<Record<string, Row>> = Object.fromEntries([
  ...ISO_866_A.map((row) => [`iso-866-a-${row[0]}`, row] as const),
  ...DIN_332_A.map((row) => [`din-332-a-${row[0]}`, row] as const),
]);

/**
 * Names of standard centre holes: series and pilot in millimetres.
 * @example
 * ```ts
 * import { standardCentreHoleNames } from 'generatrix/offset';
 * standardCentreHoleNames().filter((name) => name.endsWith('-2.5')); // => ['iso-866-a-2.5', 'din-332-a-2.5']
 * ```
 */
export function standardCentreHoleNames(): readonly string[] {
  return Object.keys(HOLES);
}

/**
 * Sizes of a standard centre hole, in millimetres.
 * @param name - One of {@link standardCentreHoleNames}.
 * @throws GeneratrixError `no-data` for a name that is none.
 * @example
 * ```ts
 * import { standardCentreHole } from 'generatrix/offset';
 * standardCentreHole('iso-866-a-2.5'); // => { mouthDiameter: 5.3, pilotDiameter: 2.5, holeAngleDeg: 60 }
 * standardCentreHole('iso-866-a-3'); // throws no-data
 * ```
 */
export function standardCentreHole(name: string): Required<HoleSizes> {
  const row = HOLES[readValue(name, text(), 'name')];
  if (!row || !Object.hasOwn(HOLES, name)) {
    const choices = standardCentreHoleNames();
    return refuse('no-data', 'name', name, { kind: 'choice', choices, phrase: `must be one of ${choices.join(', ')}` });
  }
  const [pilotDiameter, mouthDiameter] = row;
  return { mouthDiameter, pilotDiameter, holeAngleDeg: 60 };
}
