/** Sentences of the steps of a ball-ended cutter beside its table, by code; sides are those of docs/conventions.md. */
import { say } from '../../core/words.js';
import { held, locking, moving, told, toldHeld } from '../../method/action-words.js';
import type { Amount, Provide, Secure, SetReading, Touch, Way, Zero } from '../../method/actions.js';
import { turned } from '../mill-words.js';
import { shouldered } from '../table-steps.js';

type Found = Zero & { readonly reads: Amount };

export const CUTTER_WORDS = {
  'hold-work': ({ hold, cutter, plane }: { hold: Secure; cutter: Provide; plane: Found }): string =>
    say`Hold the work true on the rotary table, the free end ${hold.way === 'up' ? 'up' : 'on the right seen from the front'}, and fit the ball-ended cutter of ${told(cutter.size)}. Bring the spindle's axis and the table's into one plane, ${held(plane.reads)}, by the table's movement to and from you.`,
  stock: ({ stock, freeStem }: { stock: Provide; freeStem?: Provide }): string =>
    say`Take stock that is at least ${told(stock.size)} across, and face its free end to length.${freeStem ? shouldered(freeStem) : ''}`,
  'tilt-cutter': ({ head, lock, side }: { head: SetReading; lock: Secure; side: Way | 'inside' }): string => {
    const cuts = {
      right: 'Cut on the right of the work only, where the shank leans away from it.',
      up: 'Cut above the work only, in the plane of its axis.',
      inside: 'The cutter enters along the work axis.',
    }[side as 'right'];
    return say`${turned(head)}, and ${locking(lock)}. ${cuts}`;
  },
  zero: (values: { across: Found; touch: Touch; along: Found }): string => {
    const { across, touch, along } = values;
    const over = across.control === 'table' ? "over the table's axis" : "to the height of the table's axis";
    const face = touch.on === 'shoulder' ? 'the shoulder where the free stem begins' : 'the end face';
    const end = touch.with === 'end-nearest-held' ? 'its place nearest the held end' : 'its place deepest in the work';
    return say`Bring the centre of the ball end ${over}, ${held(across.reads)}, and let the dial across read zero. Then ${moving(touch)} until the ball end, ${end}, touches ${face}, and let the dial along read ${toldHeld(along.reads)}. Come to every position from the same side.`;
  },
} as const;
