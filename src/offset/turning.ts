/** Turning a guide, or an edge, by so much for what a difference of two diameters is off. */
import { say } from '../core/words.js';
import { amount, told, wayTold } from '../method/action-words.js';
import type { Control, Correct } from '../method/actions.js';
import type { Cutting } from './taper-steps.js';

/** Steeper by so much for every difference that is too small by the error that is told. */
export function turning(
  { per, unit }: Pick<Cutting, 'per' | 'unit'>,
  control: Control,
  minutes: number,
  shows: Pick<Correct, 'needle' | 'over' | 'reading'>,
): Correct {
  return {
    do: 'correct',
    measured: 'difference',
    off: 'too-small',
    per: amount(per, unit),
    control,
    by: amount(minutes, 'minutes of arc', minutes / 10),
    way: 'steeper',
    ...shows,
  };
}

/** The same in words; `what` is turned. */
export function turned({ off, per, by, way, needle, over, reading }: Correct, what: string, length: string): string {
  const other = way === 'steeper' ? 'flatter' : 'steeper';
  const shown =
    needle && over
      ? say`: an indicator on it then moves ${told(needle)} more over ${told(over)}`
      : reading
        ? say`, which changes its reading by ${told(reading)}`
        : '';
  return say`For every ${told(per)} that the difference is ${off.replace('-', ' ')} ${length}, turn the ${what} ${told(by)} ${wayTold(way)}${shown}. ${off === 'too-small' ? 'Too large' : 'Too small'}: as much ${other}. Come to it from the same side as before, and clamp it.`;
}
