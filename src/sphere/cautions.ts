/** Cautions of the ways to a sphere, by code: common practice, no source, in our own words. */
export { cautions } from '../method/cautions.js';

/** What a hand or a machine can come to harm by. */
export const CAUTIONS = {
  'head-off-balance':
    'A boring head that is opened wide is out of balance: stay well below its greatest speed, start low, and stop at the first trembling. Tool and set screws must be tight.',
  'head-tilt-clamp':
    'A tilted head is heavy: hold it before its clamps are loosened, lock all of them again, and try by hand that nothing can move before the spindle starts.',
  'open-sweep':
    'The tool sweeps a wide circle and comes round unseen behind the work: keep hands, clamps and the table handle outside it. Turn the work by hand or slow feed only, from outside the sweep.',
  'table-lock':
    'Lock every slide that does not have to move; a rotary table is turned against the cut, never so that the cutter can draw it along.',
  'swivel-swing':
    'The swinging tool can dig in where it meets the stem: set its stops first, take light cuts, and keep both hands on its lever.',
  blending:
    'Blending by file or abrasive cloth at a turning chuck catches hands: a file with a handle, no cloth wrapped round the work or a finger, sleeves tight, guard in place where it can be.',
} as const;
