/** The taper within a piece of work, as drawings of it need it. */
import { number, options, positive } from '../core/checks.js';

/** The taper within a piece of work. */
export interface TaperedWork {
  /** Diameter of the taper's large end. */
  readonly largeDiameter: number;
  /** Diameter of its small end. */
  readonly smallDiameter: number;
  /** Axial length of the taper. */
  readonly length: number;
}

/** Checks a taper; `longest` is the room that it has. */
export function readWork(value: unknown, longest: number = Infinity): TaperedWork {
  const work = options(value, 'work', ['largeDiameter', 'smallDiameter', 'length']);
  const largeDiameter = positive(work['largeDiameter'], 'work.largeDiameter');
  return {
    largeDiameter,
    smallDiameter: number(work['smallDiameter'], 'work.smallDiameter', { min: 0, below: largeDiameter }),
    length: number(work['length'], 'work.length', { above: 0, max: longest }),
  };
}
