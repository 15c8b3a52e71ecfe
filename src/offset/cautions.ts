/** Cautions of the ways to a taper, by code: common practice, no source, in our own words. */
import type { Limit } from '../method/limits.js';
import type { TaperPart } from './part.js';

export { cautions } from '../method/cautions.js';

/** What a hand or a machine can come to harm by. */
export const CAUTIONS = {
  'driver-dog': [
    'The dog swings askew: its tail must move freely in the driver through a whole turn. Turn it by hand first; cover it.',
    'hold-work',
    'turn-blank',
    'length',
    'balls',
  ],
  'tailstock-clamp': [
    'A tailstock that slips lets the work fly out: clamp body, cross adjustment and barrel; again after the first cut.',
    'set-over',
    'follow-up',
  ],
  'centre-heat': [
    'Askew centres bear on little of their seat and seize: grease them, go slowly, stop often to ease and feel them.',
    'rough',
  ],
  'ball-heat': ['A ball rubs in its seat and seizes when dry: grease it, go slowly, stop often to feel it.', 'rough'],
  'head-off-axis': [
    'The load from the side must turn neither the shank in the barrel nor the head: see that shank and slide are locked.',
    'level-head',
  ],
  'holder-contact': [
    'What holds the ball stands close to the face of the work: look for daylight all round while turning by hand.',
    'set-over',
  ],
  'slide-overhang': [
    'A top slide wound far out is weak, may run off its screw or into the chuck: look where its far end goes.',
    'clear-travel',
  ],
  'slide-clamp': [
    'A swivel that is clamped lightly turns under load and digs in: tighten it fully before cutting, then read again.',
    'indicator',
    'edge-indicator',
    'sine-bar',
    'master',
  ],
  'shoulder-near': [
    'Beside a shoulder set a stop and end each cut by hand: tool, post and slide come close to it while it turns.',
    'rough',
  ],
  inside: [
    'Inside a bore swarf packs unseen: nothing is put in, no finger, cloth or file, while it turns; clear it stopped.',
    'rough',
  ],
} as const;

/** Codes of these cautions. */
export type TaperCaution = keyof typeof CAUTIONS;

/** What a part brings along: a shoulder beside the taper, a bore that cannot be seen. */
export function besideShoulder(part: TaperPart, limits: readonly Limit[]): readonly ('shoulder-near' | 'inside')[] {
  const near = limits.some(({ code }) => code === 'shoulder');
  return [...(near ? (['shoulder-near'] as const) : []), ...(part.side === 'inside' ? (['inside'] as const) : [])];
}
