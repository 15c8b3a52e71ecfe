/** Sentences of the steps of plain turning beside its table, by code. */
import { say } from '../../core/words.js';
import { held, moving, told, toldHeld } from '../../method/action-words.js';
import type { Amount, Provide, Touch, Zero } from '../../method/actions.js';
import { shouldered } from '../table-steps.js';

type Found = Zero & { readonly reads: Amount };

export const TURNING_WORDS = {
  'hold-work': (values: { stock?: Provide; freeStem?: Provide; corner: Provide; height: Found }): string => {
    const { stock, freeStem, corner, height } = values;
    const bar = stock ? say`, stock of at least ${told(stock.size)} across` : '';
    return say`Hold the work true, its end faced${bar}.${freeStem ? shouldered(freeStem) : ''} Take a tool with a round nose of radius ${told(corner.size)}, clear on both sides, at the height of the work's axis, ${held(height.reads)}.`;
  },
  zero: (values: { side: Touch & { readonly within: Amount }; across: Zero; face: Touch; along: Found }): string => {
    const { side, face, along } = values;
    return say`On the operator's side ${moving(side)} until the nose touches a turned diameter, and let the dial across read what that measures, ${held(side.within)}; then ${moving(face)} until the nose touches ${face.on === 'shoulder' ? 'the shoulder where the free stem begins' : 'the end face'}, and let the dial along read ${toldHeld(along.reads)}. Come to every position from the same side.`;
  },
} as const;
