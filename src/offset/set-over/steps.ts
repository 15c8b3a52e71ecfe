/** Steps of work that is set over, on plain centres or on balls. */
import type { Dial } from '../../core/dial.js';
import { plusMinus, say, tell } from '../../core/words.js';
import { type Step, step } from '../../method/steps.js';
import { exactly } from '../step-words.js';
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
  readonly exactOffset: number;
  readonly reading: number;
  readonly exactReading: number;
  readonly limit: number;
  readonly dialStep: number | undefined;
}

/** Sentences by code. */
const WORDS = {
  'set-over': (values: SetValues): string => {
    const { unit, how, afterwards, towards, counts, offset, limit, reading, exactReading, dialStep } = values;
    const told = tell(reading, { step: dialStep, limit });
    const onDial = counts === '' ? '' : say`: ${told} on its dial, ${counts}${exactly(exactReading, reading, '')}`;
    return say`${how} by ${tell(offset, { unit, limit })}, ${plusMinus(limit, unit)}, ${towards}${onDial}. ${afterwards}`;
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
    return say`For every ${tell(per, { unit })} that the difference is too small over ${tell(length, { unit })}, set the ${what} over ${more} more${onDial}; the tool then has to ${toolMove >= 0 ? 'move in' : 'draw back'} by ${moved} to touch the large end again. Too large: as much the other way, and then come back to the reading from below.`;
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

/** Setting over, and bringing the barrel up afterwards. */
export function setSteps(
  { unit, part }: Cutting,
  settings: SetoverSettings,
  { how, afterwards, dial, uses }: Moved,
  limit: number,
): readonly Step<'set-over' | 'follow-up'>[] {
  const { settableValue, settableReading, reading, offset, tailstockAdvance, tiltDeg } = settings;
  return [
    step(
      WORDS,
      'set',
      'set-over',
      {
        unit,
        how,
        afterwards,
        towards: part.headstockEnd === 'large' ? 'towards the tool' : 'away from the tool',
        counts: dial ? say`which counts on the ${dial.reads}` : '',
        offset: settableValue,
        exactOffset: offset,
        reading: settableReading,
        exactReading: reading,
        limit,
        dialStep: dial?.step,
      },
      { uses: uses[0] },
    ),
    step(WORDS, 'set', 'follow-up', { unit, tailstockAdvance, tiltDeg }),
  ];
}

/** What to change for a difference that is too small by the error that is told. */
export function changeStep(
  { per, unit, trialLength }: Cutting,
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
      length: trialLength,
      changeOffset: change.settableValue - settings.settableValue,
      changeReading: change.reading - settings.settableReading,
      hasDial: dial ? 'yes' : 'no',
      toolMove: change.toolMove ?? 0,
    },
    { uses: uses[1] },
  );
}

/** The dial alone: a change is told without rounding, and may lead anywhere. */
export function endless(dial: Dial | undefined): Dial {
  return { reads: dial?.reads ?? 'radius' };
}

/** Where the tool is touched off again. */
export function touchOffAt(
  { part }: Cutting,
  protrusion = 0,
): { fromPivot: number; diameter: number; headstockEnd: 'large' | 'small' } {
  const fromPivot = Math.max(0, part.largeEndAt + protrusion);
  return { fromPivot, diameter: part.largeDiameter, headstockEnd: part.headstockEnd };
}
