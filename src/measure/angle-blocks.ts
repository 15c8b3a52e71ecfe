/**
 * Angle gauge blocks: the fewest blocks, each added or turned round and subtracted, that make up an
 * angle. Angles are counted in whole seconds of arc, so a build is exact or it is not.
 */
import { array, defaulted, type Fields, number, read, whole } from '../core/read.js';
import { type Note, note } from '../core/words.js';
import { SENTENCES } from './words.js';

/**
 * The usual set: 1, 3, 9, 27, 41 degrees; 1, 3, 9, 27 minutes; 3, 9, 27 seconds (Mechanical Engineer's
 * Data Handbook, p. 270, through a metrology course).
 */
const USUAL_SECONDS: readonly number[] = [
  ...[1, 3, 9, 27, 41].map((degrees) => degrees * 3600),
  ...[1, 3, 9, 27].map((minutes) => minutes * 60),
  ...[3, 9, 27],
];

/** An angle to be built. */
export interface AngleBlockOptions {
  /** Angle in degrees, 0 to 180. */
  readonly angleDeg: number;
  /**
   * Sizes of the blocks at hand in whole seconds of arc, at most 16.
   * @defaultValue the usual set: 1, 3, 9, 27, 41 degrees, 1, 3, 9, 27 minutes and 3, 9, 27 seconds
   */
  readonly blocksSeconds?: readonly number[];
}

/** Angle blocks for an angle. */
export interface AngleBlockStack {
  /** Blocks to add, in seconds of arc, largest first. */
  readonly addSeconds: readonly number[];
  /** Blocks to turn round and subtract, in seconds of arc, largest first. */
  readonly subtractSeconds: readonly number[];
  /** Angle of the build, in degrees. */
  readonly angleDeg: number;
  /** Angle asked for less angle of the build, in seconds of arc. */
  readonly remainderSeconds: number;
  /** Says when the angle cannot be built exactly. */
  readonly notes: readonly Note<'angle-not-exact'>[];
}

const FIELDS: Fields<AngleBlockOptions, 'blocksSeconds'> = {
  angleDeg: number({ min: 0, max: 180 }),
  // The search doubles with every block.
  blocksSeconds: defaulted(array(whole({ min: 1, max: 180 * 3600 }), 1, 16), USUAL_SECONDS),
};

/**
 * The fewest angle blocks for an angle; where none build it exactly, the nearest angle that they build.
 * @throws GeneratrixError for an angle outside 0 to 180 degrees, or sizes that are not whole seconds.
 * @example
 * ```ts
 * import { angleBlockStack } from 'generatrix';
 * const { addSeconds, subtractSeconds } = angleBlockStack({ angleDeg: 14 });
 * [addSeconds.map((s) => s / 3600), subtractSeconds.map((s) => s / 3600)]; // => [[41], [27]]
 * ```
 */
export function angleBlockStack(options: AngleBlockOptions): AngleBlockStack {
  const { angleDeg, blocksSeconds } = read(options, FIELDS);
  const wanted = angleDeg * 3600;
  const build = fewest(
    [...blocksSeconds].sort((a, b) => b - a),
    wanted,
  );
  const total = build.reduce((sum, size) => sum + size, 0);
  // Degrees times 3600 can miss a whole second by a rounding: that is no remainder.
  const remainderSeconds = Math.abs(wanted - total) < 1e-9 ? 0 : wanted - total;
  const values = { nearestSeconds: total, remainderSeconds };
  return {
    addSeconds: build.filter((size) => size > 0),
    subtractSeconds: build.filter((size) => size < 0).map((size) => -size),
    angleDeg: total / 3600,
    remainderSeconds,
    notes: remainderSeconds === 0 ? [] : [note(SENTENCES, 'angle-not-exact', values)],
  };
}

/** Signed sizes of the build nearest to an angle, and of those the one with the fewest blocks. */
function fewest(blocks: readonly number[], wanted: number): readonly number[] {
  // Sum of all blocks from the i-th on: beyond its reach no choice of signs can help.
  const reach = blocks.map((_, i) => blocks.slice(i).reduce((sum, size) => sum + size, 0));
  let best: readonly number[] = [];
  let missing = wanted;
  const search = (i: number, left: number, build: readonly number[]): void => {
    const better = Math.abs(left) - Math.abs(missing);
    if (better < -1e-9 || (better < 1e-9 && build.length < best.length)) {
      best = build;
      missing = left;
    }
    if (Math.abs(left) - (reach[i] ?? 0) > Math.abs(missing) + 1e-9) return;
    blocks.slice(i).forEach((size, skipped) => {
      search(i + skipped + 1, left - size, [...build, size]);
      search(i + skipped + 1, left + size, [...build, -size]);
    });
  };
  search(0, wanted, []);
  return best;
}
