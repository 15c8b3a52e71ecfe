/** Sentences of the steps of a ball-ended cutter beside its table, by code; sides are those of docs/conventions.md. */
import { plusMinus, say, tell } from '../../core/words.js';

export const CUTTER_WORDS = {
  'tilt-cutter': (values: {
    tiltDeg: number;
    limitDeg: number;
    stepDeg: number | undefined;
    where: 'right' | 'above' | 'inside';
  }): string => {
    const { tiltDeg, limitDeg, stepDeg, where } = values;
    const told = tell(tiltDeg, { unit: '°', step: stepDeg, limit: limitDeg });
    const within = plusMinus(limitDeg, '°');
    const head =
      tiltDeg === 0
        ? say`Set the head upright, ${told}, ${within}, and clamp it.`
        : say`Tilt the head to ${told} from upright, its upper end to the right: clockwise seen from the front, ${within}, and clamp it.`;
    const cuts = {
      right: 'Cut on the right of the work only, where the shank leans away from it.',
      above: 'Cut above the work only, in the plane of its axis.',
      inside: 'The cutter enters along the work axis.',
    }[where];
    return say`${head} ${cuts}`;
  },
} as const;
