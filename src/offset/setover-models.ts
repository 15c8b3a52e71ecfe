/**
 * Models for error budgets of set-over work: the diameter at the small end, with the tool touched off to
 * size at the large end, which lies towards the headstock. The same surface as `setoverSurface`.
 */
import type { Arithmetic, Model, Quantity } from '../budget/model.js';
import { CUT, type CutInput, SMALL_DIAMETER, smallDiameter } from './straight-models.js';

/** What every set-over model takes. */
export type SetoverInput = CutInput | 'offset' | 'zeroError' | 'rollDeg' | 'distance';

const SETOVER: Readonly<Record<SetoverInput, Quantity>> = {
  offset: { kind: 'length', meaning: 'set-over that the dial shows, as a movement' },
  zeroError: { kind: 'length', meaning: 'true set-over minus the one that the dial shows' },
  rollDeg: { kind: 'angleDeg', meaning: 'how far out of level the set-over goes' },
  distance: { kind: 'length', meaning: 'distance of the large end from the headstock pivot' },
  ...CUT,
  toolHeight: { kind: 'length', meaning: 'height of the tool above the headstock pivot' },
};

/** See rolled-work.ts: work set over out of level is level work with the tool at another height. */
function setOverDiameter<T>(
  a: Arithmetic<T>,
  centreDistance: T,
  { offset, zeroError, rollDeg, distance, ...cut }: Readonly<Record<SetoverInput, T>>,
): T {
  const one = a.constant(1);
  const sine = a.divide(a.add(offset, zeroError), centreDistance);
  const cosine = a.sqrt(a.subtract(one, a.square(sine)));
  const [u, v] = [a.cosDeg(rollDeg), a.sinDeg(rollDeg)];
  const rise = a.multiply(sine, v);
  const q = a.subtract(one, a.square(rise));
  const radius = a.multiply(a.constant(0.5), cut.largeDiameter);
  const below = a.subtract(a.multiply(distance, rise), cut.toolHeight);
  const reach = a.sqrt(a.subtract(a.multiply(q, a.square(radius)), a.square(below)));
  const level = a.multiply(a.multiply(sine, u), a.subtract(distance, a.multiply(rise, cut.toolHeight)));
  const x = a.divide(a.add(level, a.multiply(cosine, reach)), q);
  const toolHeight = a.subtract(a.multiply(cut.toolHeight, u), a.multiply(x, v));
  return smallDiameter(a, a.divide(sine, cosine), { ...cut, toolHeight });
}

/** The diameter at the small end of a taper cut with the tailstock set over. */
export const setoverModel: Model<SetoverInput | 'centreDistance'> = {
  name: 'setover',
  result: SMALL_DIAMETER,
  inputs: { centreDistance: { kind: 'length', meaning: 'distance of the pivots along the work' }, ...SETOVER },
  evaluate: (a, { centreDistance, ...inputs }) => setOverDiameter(a, centreDistance, inputs),
};

/** The diameter at the small end of a taper cut between balls, the length measured over the balls. */
export const ballCentresModel: Model<SetoverInput | 'lengthOverBalls' | 'headstockBall' | 'tailstockBall'> = {
  name: 'ball-centres',
  result: SMALL_DIAMETER,
  inputs: {
    lengthOverBalls: { kind: 'length', meaning: 'length over both balls in their holes' },
    headstockBall: { kind: 'length', meaning: "diameter of the headstock's ball" },
    tailstockBall: { kind: 'length', meaning: "diameter of the tailstock's ball" },
    ...SETOVER,
  },
  evaluate: (a, { lengthOverBalls, headstockBall, tailstockBall, ...inputs }) => {
    const radii = a.multiply(a.constant(0.5), a.add(headstockBall, tailstockBall));
    return setOverDiameter(a, a.subtract(lengthOverBalls, radii), inputs);
  },
};
