/** Steps of a sphere that is cut at many places one after the other: a table of positions. */
import { plusMinus, say, tell } from '../core/words.js';
import { type Step, type StepTable, step } from '../method/steps.js';
import type { Cutting } from './sphere-steps.js';

/** Sentences by code. */
export const WORDS = {
  'hold-work': ({ how }: { how: string }): string => how,
  zero: ({ unit, how, where, limit }: { unit: string; how: string; where: string; limit: number }): string =>
    say`${how}, ${plusMinus(limit, unit)}, and ${where}; set both dials to zero there and come to every position from the same side.`,
  'clear-sweep': (_values: { positions: number }): string =>
    'With the power off go to the first and the last position by hand: nothing but the cutting edge may touch.',
  rough: ({ unit, leave, added }: { unit: string; leave: number; added: string }): string =>
    say`Cut at all positions with ${tell(leave, { unit })} ${added} each distance from the axis.`,
  size: ({
    unit,
    over,
    stands,
    diameterLimit,
  }: {
    unit: string;
    over: number;
    stands: string;
    diameterLimit: number;
  }): string =>
    say`Stop the spindle. Measure the widest place that was cut, ${plusMinus(diameterLimit, unit)}: it must stand ${tell(Math.abs(over), { unit })} ${stands} its diameter.`,
  'zero-again': (values: { unit: string; per: number; zeroChange: number; way: string; limit: number }): string => {
    const { unit, per, zeroChange, way, limit } = values;
    return say`For every ${tell(per, { unit })} that the diameter is too large move the zero across the axis ${way} by ${tell(Math.abs(zeroChange), { unit })}; its limit was ${plusMinus(limit, unit)} on the diameter.`;
  },
  positions: ({ unit, leftover, position }: { unit: string; leftover: number; position: number }): string =>
    say`Cut at these positions, each ${plusMinus(position, unit)}. Ridges of ${tell(leftover, { unit, limit: leftover })} are left to blend.`,
} as const;

/** What differs between turning by steps and passes of a cutter. */
export interface Positions {
  readonly hold: string;
  /** How the zero is found: across the axis, and along it. */
  readonly zero: readonly [how: string, where: string];
  /** Limit of the zero, and the same on the diameter. */
  readonly limits: readonly [zero: number, onDiameter: number];
  readonly table: StepTable;
  readonly leftover: number;
  readonly position: number;
  readonly diameterLimit: number;
  readonly uses: string;
}

/** The steps. */
export function tableSteps(
  { unit, ball, leave, per }: Cutting,
  { hold, zero: [how, where], limits, table, leftover, position, diameterLimit, uses }: Positions,
): readonly Step<keyof typeof WORDS>[] {
  const added = ball ? 'added to' : 'taken from';
  const way = ball ? 'in' : 'back';
  return [
    step(WORDS, 'prepare', 'hold-work', { how: hold }),
    step(WORDS, 'set', 'zero', { unit, how, where, limit: limits[0] }),
    step(WORDS, 'check', 'clear-sweep', { positions: table.rows.length }),
    step(WORDS, 'trial-cut', 'rough', { unit, leave, added }),
    step(WORDS, 'measure', 'size', {
      unit,
      over: (ball ? 2 : -2) * leave,
      stands: ball ? 'over' : 'under',
      diameterLimit,
    }),
    step(WORDS, 'correct', 'zero-again', { unit, per, zeroChange: -per / 2, way, limit: limits[1] }),
    step(WORDS, 'finish', 'positions', { unit, leftover, position }, { uses, table }),
  ];
}
