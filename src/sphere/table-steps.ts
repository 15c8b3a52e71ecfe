/** Steps of a sphere that is cut at many places one after the other: a table of positions. */
import { plusMinus, say, tell } from '../core/words.js';
import { type Step, type StepTable, step } from '../method/steps.js';
import type { Cutting } from './sphere-steps.js';

/** Sentences by code. */
export const WORDS = {
  'hold-work': ({ how }: { how: string }): string => how,
  zero: (values: {
    unit: string;
    across: string;
    along: string;
    alongReads: number;
    limit: number;
    position: number;
  }): string => {
    const { unit, across, along, alongReads, limit, position } = values;
    return say`${across}, ${plusMinus(limit, unit)}; ${along} ${tell(alongReads, { unit, limit: position })}. Come to every position from the same side.`;
  },
  'clear-sweep': (_values: { positions: number }): string =>
    'With the power off go to the first and the last position by hand: nothing but the cutting edge may touch.',
  rough: ({ unit, leave, added }: { unit: string; leave: number; added: 'added to' | 'taken from' }): string =>
    say`Cut at all positions with ${tell(leave, { unit })} ${added} each distance from the axis, twice that on a diameter.`,
  size: (values: { unit: string; over: number; stands: 'over' | 'under'; diameterLimit: number }): string => {
    const { unit, over, stands, diameterLimit } = values;
    return say`Stop the spindle. Measure the widest place that was cut, ${plusMinus(diameterLimit, unit)}: it must stand ${tell(Math.abs(over), { unit })} ${stands} its finished diameter.`;
  },
  'zero-again': (values: { unit: string; per: number; zeroChange: number; limit: number }): string => {
    const { unit, per, zeroChange, limit } = values;
    return say`For every ${tell(per, { unit })} that the diameter is larger than that cut all positions ${tell(Math.abs(zeroChange), { unit })} nearer to the axis than the table says; smaller: as much farther from it. The limit of the zero was ${plusMinus(limit, unit)} on the diameter.`;
  },
  positions: ({ unit, leftover, position }: { unit: string; leftover: number; position: number }): string =>
    say`Cut at these positions, each ${plusMinus(position, unit)}. Ridges of ${tell(leftover, { unit, limit: leftover })} are left to blend.`,
} as const;

/** What differs between turning by steps and passes of a cutter. */
export interface Positions {
  readonly hold: string;
  /** How the zeros are found: across the axis, and along it. */
  readonly zero: readonly [across: string, along: string];
  /** What the dial along must read there. */
  readonly alongReads: number;
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
  { hold, zero: [across, along], alongReads, limits, table, leftover, position, diameterLimit, uses }: Positions,
): readonly Step<keyof typeof WORDS>[] {
  const added = ball ? 'added to' : 'taken from';
  return [
    step(WORDS, 'prepare', 'hold-work', { how: hold }),
    step(WORDS, 'set', 'zero', { unit, across, along, alongReads, limit: limits[0], position }),
    step(WORDS, 'check', 'clear-sweep', { positions: table.rows.length }),
    step(WORDS, 'trial-cut', 'rough', { unit, leave, added }),
    step(WORDS, 'measure', 'size', {
      unit,
      over: (ball ? 2 : -2) * leave,
      stands: ball ? 'over' : 'under',
      diameterLimit,
    }),
    step(WORDS, 'correct', 'zero-again', { unit, per, zeroChange: -per / 2, limit: limits[1] }),
    step(WORDS, 'finish', 'positions', { unit, leftover, position }, { uses, table }),
  ];
}
