/** Cautions of the ways to a taper, by code: common practice, no source, in our own words. */
import type { Limit } from '../method/limits.js';
import type { TaperPart } from './part.js';

export { cautions } from '../method/cautions.js';

/** What a hand or a machine can come to harm by. */
export const CAUTIONS = {
  'driver-dog':
    'The dog swings askew when the work is set over: its tail must move freely in the driver through a whole turn and must not pry the work off its centres. Turn it by hand first; cover the dog.',
  'tailstock-clamp':
    'A tailstock that slips lets the work fly out. Clamp body, cross adjustment and barrel before the spindle starts; check them again after the first cut.',
  'centre-heat':
    'Askew centres bear on little of their seat. Grease them well, go slowly, stop often to ease and feel them: heat lengthens the work, seizes the point and can tear it off.',
  'ball-heat':
    'A ball that does not turn rubs in its seat. Keep it greased, go slowly, stop often to feel it: heat lengthens the work and forces the balls, a dry ball galls and lets go.',
  'head-off-axis':
    'The boring head in the tailstock stands still: see that its shank cannot turn in the barrel under the load from the side, and that its slide is locked.',
  'holder-contact':
    'What holds the ball stands close to the face of the work when it lies askew: look for daylight all round while turning by hand.',
  'slide-overhang':
    'A top slide wound far out is weak and may run off its screw or into the chuck. Keep to its travel, and look where its far end goes.',
  'slide-clamp':
    'A swivel that is only lightly clamped turns under load and digs the tool in: tighten it fully before cutting, and read again afterwards.',
  'shoulder-near':
    'A shoulder stands beside the taper: set a stop, and end each cut by hand. Tool, post and slide come close to it while it turns.',
  inside:
    'Inside a bore the cut cannot be seen and swarf packs: never reach in with a finger, cloth or file while it turns; clear the bore with the spindle stopped.',
} as const;

/** Codes of these cautions. */
export type TaperCaution = keyof typeof CAUTIONS;

/** What a part brings along: a shoulder beside the taper, a bore that cannot be seen. */
export function besideShoulder(part: TaperPart, limits: readonly Limit[]): readonly ('shoulder-near' | 'inside')[] {
  const near = limits.some(({ code }) => code === 'shoulder');
  return [...(near ? (['shoulder-near'] as const) : []), ...(part.side === 'inside' ? (['inside'] as const) : [])];
}
