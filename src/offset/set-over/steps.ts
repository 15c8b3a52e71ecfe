/** Steps of work that is set over, on plain centres or on balls. */
import type { Dial } from '../../core/dial.js';
import { plusMinus, say, tell } from '../../core/words.js';
import type { Means, MeansCode } from '../../method/means.js';
import { type Step, step } from '../../method/steps.js';
import type { Cutting } from '../taper-steps.js';
import type { SetoverCorrection } from './correction.js';
import type { SetoverSettings } from './settings.js';

interface SetValues {
  readonly unit: string;
  /** Before the amount, and after it. */
  readonly how: string;
  readonly afterwards: string;
  readonly towards: string;
  readonly counts: string;
  readonly offset: number;
  readonly reading: number;
  readonly limit: number;
}

/** Sentences by code. */
const WORDS = {
  zero: ({ unit, what, alike, hasDial }: { unit: string; what: string; alike: number; hasDial: string }): string => {
    const [near, noted] = [tell(alike, { unit, limit: alike }), hasDial === 'yes' ? 'its dial' : 'a rule against it'];
    return say`Run an indicator on the carriage along the true cylinder, from end to end: where the needle stands still within ${near} the ${what} is at its zero. If it does not there, move the ${what} until it does. Note the reading of ${noted}: it is added to every reading that follows. Bring the carriage's needle to zero there.`;
  },
  'set-over': (values: SetValues): string => {
    const { unit, how, afterwards, towards, counts, offset, limit, reading } = values;
    const told = tell(reading, { limit });
    const onDial = counts === '' ? '' : say`: the noted reading and ${told} more on its dial, ${counts}`;
    return say`Unclamp the barrel and ease it first, until the work has play. ${how} by ${tell(offset, { unit, limit })}, ${plusMinus(limit, unit)}, ${towards}${onDial}. ${afterwards}`;
  },
  'follow-up': ({
    unit,
    tailstockAdvance,
    tiltDeg,
  }: {
    unit: string;
    tailstockAdvance: number;
    tiltDeg: number;
  }): string => {
    const askew = tell(tiltDeg, { unit: '°', limit: 0.1 });
    const less = tell(tailstockAdvance, { unit, limit: tailstockAdvance });
    return say`The work now stands ${askew} askew and reaches ${less} less far along the bed: bring the barrel up until it turns without play and without force, and clamp the barrel.`;
  },
  restore: ({ unit, what, travel, alike }: { unit: string; what: string; travel: number; alike: number }): string =>
    say`Ease the barrel, take the work out, bring the ${what} back to the noted reading and prove it with a test bar between the centres: over ${tell(travel, { unit })} of the carriage the needle must stand still within ${tell(alike, { unit, limit: alike })}. Until then nothing turned here comes out cylindrical.`,
  'set-over-again': (values: {
    unit: string;
    what: string;
    per: number;
    length: number;
    changeOffset: number;
    changeReading: number;
    hasDial: string;
    toolMove: number;
  }): string => {
    const { unit, what, per, length, changeOffset, changeReading, hasDial, toolMove } = values;
    const more = tell(changeOffset, { unit, limit: changeOffset / 10 });
    const onDial = hasDial === 'yes' ? say` (${tell(changeReading, { limit: changeReading / 10 })} on the dial)` : '';
    const moved = tell(Math.abs(toolMove), { unit, limit: per / 10 });
    return say`For every ${tell(per, { unit })} that the difference is too small over ${tell(length, { unit })}, set the ${what} over ${more} more${onDial}; the tool then has to ${toolMove >= 0 ? 'move in' : 'draw back'} by ${moved} to touch the same diameter again. Too large: as much the other way, and then come back to the reading from below. Ease the barrel before, bring it up and clamp it afterwards.`;
  },
} as const;

/** What is moved, and how it is said. */
export interface Moved {
  readonly what: string;
  readonly how: string;
  readonly afterwards: string;
  readonly dial: Dial | undefined;
  /** The functions that give settings and correction. */
  readonly uses: readonly [settings: string, correction: string];
}

/** Finding the zero of what is moved. */
export function zeroStep({ unit }: Cutting, { what, dial }: Moved, alike: number): Step<'zero'> {
  return step(WORDS, 'prepare', 'zero', { unit, what, alike, hasDial: dial ? 'yes' : 'no' });
}

/** Back to the zero, for the next work. */
export function restoreStep({ unit, part }: Cutting, { what }: Moved, alike: number): Step<'restore'> {
  return step(WORDS, 'finish', 'restore', { unit, what, travel: part.workLength, alike });
}

/** Setting over, and bringing the barrel up afterwards. */
export function setSteps(
  { unit, part }: Cutting,
  settings: SetoverSettings,
  { how, afterwards, dial, uses }: Moved,
  limit: number,
): readonly Step<'set-over' | 'follow-up'>[] {
  const { reading, offset, tailstockAdvance, tiltDeg } = settings;
  return [
    step(
      WORDS,
      'set',
      'set-over',
      {
        unit,
        how,
        afterwards,
        towards:
          part.headstockEnd === 'large'
            ? "towards the tool, to the operator's side"
            : 'away from the tool and the operator',
        counts: dial ? say`which counts on the ${dial.reads}` : '',
        offset,
        reading,
        limit,
      },
      { uses: uses[0] },
    ),
    step(WORDS, 'set', 'follow-up', { unit, tailstockAdvance, tiltDeg }),
  ];
}

/** What to change for a difference that is too small by the error that is told. */
export function changeStep(
  { per, unit, judging }: Cutting,
  settings: SetoverSettings,
  change: SetoverCorrection,
  { what, dial, uses }: Moved,
): Step<'set-over-again'> {
  return step(
    WORDS,
    'correct',
    'set-over-again',
    {
      unit,
      what,
      per,
      length: judging.distance,
      changeOffset: change.settableValue - settings.settableValue,
      changeReading: change.reading - settings.settableReading,
      hasDial: dial ? 'yes' : 'no',
      toolMove: change.toolMove ?? 0,
    },
    { uses: uses[1] },
  );
}

/** How it is read that it was moved so far, by the means that sets it. */
const READ: { readonly [K in MeansCode]?: string } = {
  dial: 'Go by the dial alone, estimating between its marks',
  'by-eye': 'Measure the movement with a rule',
  blocks:
    'With the indicator at zero against it, lay gauge blocks of that height between and move it until the needle is back at zero',
};

/** The sentence of that. */
export function readBy(means: Means | null, what: string): string {
  return say`${(means && READ[means.code]) ?? `Read the movement on an indicator against ${what}`}, moving always towards the set-over, never back.`;
}

/** The dial alone: a change is told without rounding, and may lead anywhere. */
export function endless(dial: Dial | undefined): Dial {
  return { reads: dial?.reads ?? 'radius' };
}

/** Where the tool is touched off again: at the upper mark. */
export function touchOffAt(
  { part, judging, markDiameter }: Cutting,
  protrusion = 0,
): { fromPivot: number; diameter: number; headstockEnd: 'large' | 'small' } {
  const { headstockEnd, largeEndAt, length } = part;
  const inwards = (headstockEnd === 'large' ? 1 : -1) * (length - judging.markAt - judging.distance);
  return { fromPivot: Math.max(0, largeEndAt + inwards + protrusion), diameter: markDiameter, headstockEnd };
}
