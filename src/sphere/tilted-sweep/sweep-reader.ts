/** Reads a sweep that can cut a sphere. */
import { anyNumber, object, optional, type Reader, vouched } from '../../core/read.js';
import { type ReadSweep, readSweep, type Sweep } from '../../revolve/sweep.js';

/** Reads a sweep and refuses what cannot cut a sphere. */
export const sweepReader: Reader<Sweep> = vouched(
  object<Sweep>({
    tiltDeg: anyNumber,
    sweepRadius: anyNumber,
    distance: anyNumber,
    skew: optional(anyNumber),
    miss: optional(anyNumber),
    noseRadius: optional(anyNumber),
  }),
  sweepOf,
);

/** What calculations need of a sweep that was read. */
export function sweepOf(sweep: Sweep): ReadSweep {
  return readSweep(sweep, '');
}
