/** The sentences of this room, by code: what a result says beside its numbers. */
import { say, tell } from '../core/words.js';

/** Sentences of notes, each from its values. Lengths bear no unit: they are in the caller's own. */
export const SENTENCES = {
  'stack-not-exact': ({
    height,
    nearest,
    mostBlocks,
    step,
  }: {
    readonly height: number;
    readonly nearest: number;
    readonly remainder: number;
    readonly mostBlocks: number;
    /** The last decimal place that height or blocks have. */
    readonly step: number;
  }): string =>
    say`No stack of at most ${tell(mostBlocks)} blocks is ${tell(height, { step })} high; the nearest is ${tell(nearest, { step })}.`,
  'fewest-not-proven': ({ blocks }: { readonly blocks: number }): string =>
    say`Not all stacks could be tried: two exact ones of fewer than ${tell(blocks)} blocks together may exist.`,
  'angle-not-exact': ({
    nearestSeconds,
  }: {
    readonly nearestSeconds: number;
    readonly remainderSeconds: number;
  }): string =>
    say`These blocks do not build the angle exactly; the nearest is ${tell(nearestSeconds, { step: 1 })} seconds of arc.`,
  'points-poorly-spread': (_: { readonly condition: number; readonly digitsLost: number }): string =>
    'The points cover too little of the surface: some combination of the parameters is poorly determined.',
} as const;

/** Codes of the notes of this room. */
export type MeasureNoteCode = keyof typeof SENTENCES;
