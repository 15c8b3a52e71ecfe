/** Steps of work that is set over, on plain centres or on balls. */
import { type Dial, perMovement } from '../../core/dial.js';
import { plusMinus, say, tell } from '../../core/words.js';
import { amount, told, wayTold } from '../../method/action-words.js';
import type { Action, Control, Correct, Indicate, Secure, SetReading, Touch, Zero } from '../../method/actions.js';
import type { Means, MeansCode } from '../../method/means.js';
import { roundBelow, type Step, step } from '../../method/steps.js';
import { name } from '../step-words.js';
import { type Cut, type Cutting, clamp } from '../taper-steps.js';
import type { SetoverCorrection } from './correction.js';
import type { SetoverSettings } from './settings.js';

/** Sentences by code. */
const WORDS = {
  zero: ({ prove }: { prove: Indicate; zero: Zero }): string => {
    const moved = name(prove.adjust ?? '');
    return say`Run an indicator on the carriage along the true cylinder, ${told(prove.travel)} ${wayTold(prove.way)}, its plunger level, on the operator's side: where the needle stands still within ${told({ ...prove.needle, value: prove.needle.limit ?? 0 })} the ${moved} is at its zero. Until it does, ease the barrel, move the ${moved}, bring the barrel up and read again. Note what its dial, or a rule against it, then reads: that is added to every reading that follows.`;
  },
  'set-over': ({
    set,
    counts,
    offset,
    unit,
    how,
    limit,
  }: {
    unit: string;
    ease: readonly Secure[];
    set: SetReading;
    clamp: Secure;
    offset: number;
    limit: number;
    counts: string;
    how: string;
  }): string => {
    const { reading, way } = set;
    const moved = name(set.control);
    const onDial = counts === '' ? '' : say`: the noted reading and ${told(reading)} more, ${counts}`;
    const by = say`${tell(offset, { unit, limit })}, ${plusMinus(limit, unit)}`;
    return say`Unclamp the barrel and ease it first, until the work has play; unclamp the ${moved} and set it over by ${by}, ${wayTold(way ?? 'operator')}${onDial}. ${how} Clamp the ${moved} and read again.`;
  },
  'follow-up': (values: {
    unit: string;
    follow: Touch;
    clamp: Secure;
    tailstockAdvance: number;
    tiltDeg: number;
  }): string => {
    const { unit, tailstockAdvance, tiltDeg } = values;
    const less = tell(tailstockAdvance, { unit, limit: tailstockAdvance });
    return say`The work now stands ${tell(tiltDeg, { unit: '°', limit: 0.1 })} askew and reaches ${less} less far along the bed: bring the barrel up until the work turns without play and without force, and clamp the barrel.`;
  },
  restore: ({
    back,
    prove,
  }: {
    ease: readonly Secure[];
    back: SetReading;
    after: readonly Secure[];
    prove: Indicate;
  }): string =>
    say`Ease the barrel, take the work out, unclamp the ${name(back.control)}, bring it back to the noted reading, clamp it, and prove it with a test bar between the centres: over ${told(prove.travel)} of the carriage ${wayTold(prove.way)} the needle must stand still within ${told({ ...prove.needle, value: prove.needle.limit ?? 0 })}. Until then nothing turned here comes out cylindrical.`,
  'set-over-again': (values: {
    unit: string;
    length: number;
    ease: readonly Secure[];
    correct: Correct;
    after: readonly Action[];
    follow: Correct;
    toolMove: number;
  }): string => {
    const { unit, length, correct, follow } = values;
    const onDial = correct.reading ? say` (${told(correct.reading)} on the dial)` : '';
    const moved = name(correct.control);
    return say`Ease the barrel, unclamp the ${moved}. For every ${told(correct.per)} that the difference is ${correct.off.replace('-', ' ')} over ${tell(length, { unit })}, set the ${moved} over ${told(correct.by)} more, ${wayTold(correct.way)}${onDial}; the tool then has to ${follow.way === 'operator' ? 'draw back' : 'move in'} by ${told(follow.by)} to touch the same diameter again. Too large: as much the other way, and then come back to the reading from below. Clamp the ${moved}, bring the barrel up and clamp it.`;
  },
} as const;

/** How work between centres is cut: the carriage feeds, the cross slide gives the depth. */
export const SLIDING: Cut = { control: 'carriage', depth: 'cross-slide', hold: 'centres' };

/** What the needle of the check runs along. */
export const ALONG_BLANK = 'Along the cylindrical blank run an indicator on the carriage';

/** The barrel comes up until the work has neither play nor force. */
export const BROUGHT_UP: Touch = { do: 'touch', on: 'work', control: 'barrel', way: 'headstock' };

/** What is moved, and how it is said. */
export interface Moved {
  readonly what: 'tailstock' | 'tailstock-head';
  /** How the reading is taken. */
  readonly how: string;
  readonly dial: Dial | undefined;
  /** The functions that give settings and correction. */
  readonly uses: readonly [settings: string, correction: string];
}

/** The barrel eased first, so that nothing is forced; then what moves is freed. */
function freed(what: Control): readonly Secure[] {
  return [clamp('barrel', 'unclamp'), clamp('barrel', 'ease'), clamp(what, 'unclamp')];
}

/** The needle that stands still along work in line. */
function still({ unit, part }: Cutting, alike: number, adjust: Control | undefined): Indicate {
  const indicate: Indicate = {
    do: 'indicate',
    on: 'carriage',
    against: 'work',
    control: 'carriage',
    travel: amount(roundBelow(part.workLength * 0.8), unit),
    way: 'headstock',
    needle: amount(0, unit, alike),
    sense: 'still',
  };
  return adjust ? { ...indicate, adjust } : indicate;
}

/** Finding the zero of what is moved. */
export function zeroStep(cutting: Cutting, { what }: Moved, alike: number): Step<'zero'> {
  return step(WORDS, 'prepare', 'zero', {
    prove: still(cutting, alike, what),
    zero: { do: 'zero', control: what, where: 'where the needle stands still' },
  });
}

/** Back to the zero, for the next work. */
export function restoreStep(cutting: Cutting, { what }: Moved, alike: number): Step<'restore'> {
  return step(WORDS, 'finish', 'restore', {
    ease: [clamp('barrel', 'unclamp'), clamp('barrel', 'ease'), clamp('work', 'take-out'), clamp(what, 'unclamp')],
    back: { do: 'set', control: what, reading: amount(0, cutting.unit) },
    after: [clamp(what), clamp('barrel')],
    prove: { ...still(cutting, alike, what), against: 'test bar' },
  });
}

/** Setting over, and bringing the barrel up afterwards. */
export function setSteps(
  { unit, part }: Cutting,
  settings: SetoverSettings,
  { what, how, dial, uses }: Moved,
  limit: number,
): readonly Step<'set-over' | 'follow-up'>[] {
  const { reading, offset, tailstockAdvance, tiltDeg } = settings;
  const set: SetReading = {
    do: 'set',
    control: what,
    reading: amount(reading, unit, limit * perMovement(dial?.reads ?? 'radius')),
    way: part.headstockEnd === 'large' ? 'operator' : 'away-from-operator',
    from: 'below',
  };
  const counts = dial ? say`which counts on the ${dial.reads}` : '';
  return [
    step(
      WORDS,
      'set',
      'set-over',
      { unit, ease: freed(what), set, clamp: clamp(what), offset, limit, counts, how },
      { uses: uses[0] },
    ),
    step(WORDS, 'set', 'follow-up', {
      unit,
      follow: BROUGHT_UP,
      clamp: clamp('barrel'),
      tailstockAdvance,
      tiltDeg,
    }),
  ];
}

/** What to change for a difference that is too small by the error that is told. */
export function changeStep(
  { per, unit, judging, part }: Cutting,
  settings: SetoverSettings,
  change: SetoverCorrection,
  { what, dial, uses }: Moved,
): Step<'set-over-again'> {
  const [by, onDial] = [change.settableValue - settings.settableValue, change.reading - settings.settableReading];
  const tool = change.toolMove ?? 0;
  const off = { do: 'correct', measured: 'difference', off: 'too-small', per: amount(per, unit) } as const;
  const correct: Correct = {
    ...off,
    control: what,
    by: amount(by, unit, by / 10),
    way: part.headstockEnd === 'large' ? 'operator' : 'away-from-operator',
  };
  return step(
    WORDS,
    'correct',
    'set-over-again',
    {
      unit,
      length: judging.distance,
      ease: freed(what),
      correct: dial ? { ...correct, reading: amount(onDial, unit, onDial / 10) } : correct,
      after: [clamp(what), BROUGHT_UP, clamp('barrel')],
      follow: {
        ...off,
        control: 'cross-slide',
        by: amount(Math.abs(tool), unit, per / 10),
        way: tool >= 0 ? 'away-from-operator' : 'operator',
      },
      toolMove: tool,
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
