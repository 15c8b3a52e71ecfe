/**
 * The sentences of this room, by the code of their note: another language is one more table. A note's code is
 * stable; its sentence may change. A table for each kind of result, so that a bundle takes only what it tells.
 */
import { note as noteOf, say, tell } from '../core/words.js';

type Numbers = Readonly<Record<string, number>>;

/** Sentences on a sweep as it is set. */
const SWEEP = {
  'free-end-uncut': ({ diameter, passesOver }: Numbers & { diameter: number; passesOver: number }): string =>
    say`The sweep ${passesOver === 1 ? 'passes over' : 'stops short of'} the free end and leaves a diameter of ${tell(diameter)} uncut.`,
  'free-stem-undercut': (values: Numbers): string => undercut('free stem', values),
  'free-stem-severed': (_: Numbers): string => 'The sweep cuts through the free stem.',
  'stem-undercut': (values: Numbers): string => undercut('stem', values),
  'stem-severed': (_: Numbers): string => 'The sweep cuts through the stem.',
  'far-end-uncut': ({ diameter }: Numbers & { diameter: number }): string =>
    say`The sweep ends at a diameter of ${tell(diameter)}, before the end of the surface.`,
  'scales-rounded': ({ radius }: Numbers & { radius: number }): string =>
    say`The nearest graduations cut a radius of ${tell(radius)} if the tip is set over the centre.`,
  'tip-off-centre': ({ tipFromCentre }: { readonly tipFromCentre: number }): string =>
    say`The tip passes the centre at ${tell(tipFromCentre)} and leaves a pip of twice that diameter.`,
} as const;

/** Sentences on the form of what is cut. */
export const FORM = {
  'not-a-sphere': ({ formDeviation, skew }: { readonly formDeviation: number; readonly skew: number }): string =>
    say`The axes pass each other by ${tell(Math.abs(skew))}, so the form deviation is ${tell(formDeviation)}.`,
  'passes-barely-meet': (_: { readonly height: number; readonly heightReached: number }): string =>
    'The passes stop meeting before the ridges reach the height allowed.',
  'past-widest-place': (_: { readonly lastPolarAngleDeg: number }): string =>
    'Past the widest place a cutter must come in tilted: one parallel to the work axis cannot reach.',
} as const;

/** Sentences on a correction. */
export const CORRECTION = {
  'smaller-than-sweep': ({ given, radius }: { readonly given: number; readonly radius: number }): string =>
    say`The ball is smaller than a sweep of radius ${tell(given)} cuts: the axes pass each other, or the radius is nearer ${tell(radius)}; the tilt is taken as given.`,
  'past-size': ({ allowance }: { readonly allowance: number }): string =>
    say`The part is past its size by ${tell(-allowance)} on the radius: it needs a fresh cut deeper along the work axis.`,
} as const;

/** Sentences on a diagnosis. */
export const DIAGNOSIS = {
  'distance-or-sideways': (_: { readonly distance: number; readonly sideways: number }): string =>
    'An error of distance and a sideways error in the plane of the axes leave the same marks.',
  'skew-side-unknown': ({ skew }: { readonly skew: number }): string =>
    say`The axes pass each other by about ${tell(skew)}; the part does not show on which side.`,
  'not-told-apart': (change: Numbers): string => {
    const words = Object.entries(change).map(([setting, value]) => {
      const [, name = setting, deg] = /^(.*?)(Deg)?$/.exec(setting) ?? [];
      return say`${name} by ${tell(value, { unit: deg ? '°' : '' })}`;
    });
    return say`Changing ${words.join(' together with ')} leaves what was measured as it is.`;
  },
  'several-explanations': (_: { readonly probability: number; readonly explanations: number }): string =>
    'The tip may stop short of the pole or pass over it; where the cut ends at the stem or the rim decides.',
  'readings-disagree': ({ misfit }: { readonly misfit: number; readonly measurement: number }): string =>
    say`One reading is ${tell(misfit)} of its own uncertainties away from the best explanation: measure it again.`,
} as const;

/** `stemLeft` is what is left of a stem; without one it is a body that is cut into. */
function undercut(what: string, { stemLeft }: Numbers): string {
  if (stemLeft === undefined) return 'The sweep cuts into what stands behind the surface.';
  return say`The sweep cuts into the ${what} and leaves a diameter of ${tell(stemLeft)}.`;
}

/** Codes of the notes of this room's results. */
export type SphereNoteCode = keyof (typeof SWEEP & typeof FORM & typeof CORRECTION & typeof DIAGNOSIS);

/** What a caller should know of a sphere but did not ask. */
export interface SphereNote {
  /** Stable code, for programs. */
  readonly code: SphereNoteCode;
  /** One sentence, for people. */
  readonly message: string;
  /** The numbers that the sentence speaks of, by name. */
  readonly values: Numbers;
}

/** A note on a sweep as it is set. */
export function note<C extends keyof typeof SWEEP>(code: C, values: Parameters<(typeof SWEEP)[C]>[0]): SphereNote {
  return noteOf(SWEEP, code, values);
}
