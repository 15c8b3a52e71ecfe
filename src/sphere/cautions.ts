/** Cautions of the ways to a sphere, by code: common practice, no source, in our own words. */
export { cautions } from '../method/cautions.js';

/** What a hand or a machine can come to harm by. */
export const CAUTIONS = {
  'head-off-balance': [
    'A boring head that is opened wide is out of balance: tighten tool and screws, start slowly, stop at any trembling.',
    'sweep',
    'test-ring',
  ],
  'head-tilt-clamp': [
    'A tilted head is heavy: hold it before its clamps are loosened, lock all of them again, try it by hand.',
    'tilt',
    'tilt-cutter',
  ],
  'open-sweep': [
    'The tool comes round unseen behind the work: keep hands, clamps and handles outside the sweep; turn the work slowly.',
    'rough-along-spindle',
    'rough-along-work',
  ],
  'table-lock': [
    'Lock every slide that need not move; turn a rotary table against the cut, never so that the cutter draws it along.',
    'clear-sweep',
  ],
  'swivel-swing': [
    'The swinging tool can dig in where it meets the stem: set its stops first, cut lightly, both hands on its lever.',
    'rough',
  ],
  blending: [
    'Blending at a turning chuck catches hands: a file with a handle, no cloth wrapped round work or finger, sleeves tight.',
    'positions',
  ],
} as const;
