/** Sentences of the steps that the ways to a taper share, by code. Lengths in `unit`; limits hold either way. */
import { formatAngle } from '../core/angle-text.js';
import { plusMinus, say, tell } from '../core/words.js';

import type { Indicate } from '../method/actions.js';

type Unit = 'mm' | 'in';
type End = 'headstock' | 'tailstock';

/** The steps, in the order of work. */
export const STEPS = {
  'hold-work': (values: { unit: Unit; between: string; workLength: number; blank: number; alike: number }): string => {
    const { unit, between, workLength, blank, alike } = values;
    const long = tell(workLength, { unit });
    return between === 'yes'
      ? say`Turn the blank, ${long} long, to a true cylinder between centres in line, with a diameter of ${tell(blank, { unit })} where the taper comes: both ends alike within ${tell(alike, { unit, limit: alike })}. It serves to find the zero and to check the setting.`
      : say`Hold the work, ${long} long, so that the whole taper can be reached; headstock and tailstock in line, the work running true.`;
  },
  'tool-height': ({ unit, toolHeight, inside }: { unit: Unit; toolHeight: number; inside: string }): string =>
    say`Bring the tip of the tool to the height of the work's axis, ${plusMinus(toolHeight, unit)}, ${inside === 'yes' ? "to cut on the operator's side of the bore" : "on the operator's side of the work"}: off that height it cuts no true cone.`,
  ends: (values: {
    unit: Unit;
    inside: string;
    largeAt: number;
    smallAt: number;
    towards: End;
    stop: string;
    markAt: number;
    farMarkAt: number;
  }): string => {
    const { unit, inside, largeAt, smallAt, towards, stop, markAt, farMarkAt } = values;
    const told = (value: number): string => tell(value, { unit });
    const mark = inside === 'yes' ? 'Note' : 'Mark on the blank';
    return say`${mark} where the taper lies: large end ${told(largeAt)}, small end ${told(smallAt)} from the work's face at the headstock. It is measured at two places: the lower mark ${told(markAt)}, the upper mark ${told(farMarkAt)} from the small end. Cut towards the ${towards}, and set a stop where the ${inside === 'yes' ? 'small' : 'large'} end is${stop}.`;
  },
  drill: ({ unit, drill, depth }: { unit: Unit; drill: number; depth: number }): string =>
    say`Drill first, a hole of at most ${tell(drill, { unit })}, as deep as the small end lies, ${tell(depth, { unit })} from the large end.`,
  indicator: (values: {
    unit: Unit;
    onto: string;
    travel: number;
    needle: number;
    needleFrom: number;
    needleTo: number;
    towards: End;
  }): string => {
    const { unit, onto, travel, needle, needleFrom, needleTo, towards } = values;
    const told = needleTold(unit, needleFrom, needleTo);
    return say`${onto}, its plunger level, on the operator's side, square to the bed and at the height of the axis. While the carriage goes ${tell(travel, { unit })} towards the ${towards} the plunger must be pushed in by ${told(needle)}, from ${told(needleFrom)} to ${told(needleTo)}; if it comes out, the setting leans the wrong way. Always feed in the same direction. Turn the work half a turn and take the mean.`;
  },
  'scale-zero': ({ unit, carrier, check }: { unit: Unit; carrier: string; check: Indicate }): string =>
    say`Put a true cylinder in place of the work. ${stillAlong(unit, carrier, 'it', check)} What the scale then shows is its zero: add it to the reading.`,
  'sine-bar': (values: SineBarValues): string => {
    const { unit, bar, blocks, across, blocksAt, carrier, check } = values;
    const against = across === 'yes' ? 'Against a true faceplate' : 'Against a true cylinder in place of the work';
    return say`${against} lay a sine bar of ${tell(bar, { unit })} on its side, ${tell(blocks, { unit, step: FINE[unit] })} of gauge blocks behind the roller ${blocksAt}. ${stillAlong(unit, carrier, 'the bar', check)}`;
  },
  master: ({ unit, carrier, check }: { unit: Unit; carrier: string; check: Indicate }): string =>
    say`Put the master in place of the work, its large end where that of the taper will be. ${stillAlong(unit, carrier, 'it', check)}`,
  rough: (values: {
    unit: Unit;
    inside: string;
    /** Left on the diameter. */
    leave: number;
    /** Diameter at the large end, if the taper reached it. */
    largeDiameter: number;
    length: number;
    markDiameter: number;
    limit: number;
  }): string => {
    const { unit, inside, leave, length, markDiameter, limit } = values;
    return say`${inside === 'yes' ? 'Bore' : 'Turn'} the taper in light cuts until it measures ${tell(markDiameter, { unit, limit })} at the upper mark, which leaves ${tell(leave, { unit, limit })} on the diameter; the taper is then ${tell(length, { unit })} long. Take the last cut twice without moving the tool in, and run in from the same side each time so that all lost motion is taken up. Mark both places on it again.`;
  },
  difference: (values: Measuring & { inside: string; steep: string }): string => {
    const { inside, steep } = values;
    const how =
      steep === 'yes'
        ? 'taken from a cast or on a projector, for on so steep a side nothing sits still'
        : inside === 'yes'
          ? 'with a bore gauge, the same edge of its feet at each mark'
          : 'with a micrometer, the same edge of its anvils at each mark';
    return say`${COLD} Measure the diameters at both marks, ${apart(values)}, ${how}, each ${plusMinus(values.diameterLimit, values.unit)}: they must differ by ${differ(values)}`;
  },
  'ball-depths': (
    values: Measuring & {
      smallBall: number;
      largeBall: number;
      depth: number;
      depthLimit: number;
      deeper: number;
      counts: number;
    },
  ): string => {
    const { unit, smallBall, largeBall, depth, depthLimit, deeper, counts } = values;
    const told = (value: number): string => tell(value, { unit, limit: depthLimit });
    return say`${COLD} Let a ball of ${tell(smallBall, { unit })} and then one of ${tell(largeBall, { unit })} lie in the bore and measure how deep their tops lie below its mouth: the small one must lie ${told(depth)} deeper, ${within(depthLimit, unit)}. For every ${tell(deeper, { unit })} that it lies deeper than that, the difference of the diameters over ${tell(values.distance, { unit })} is too small by ${tell(counts, { unit, limit: counts / 10 })}. ${judgement(values)}`;
  },
  'on-sine-bar': (
    values: Measuring & {
      bar: number;
      blocks: number;
      upright: string;
      travel: number;
      fall: number;
      counts: number;
    },
  ): string => {
    const { unit, bar, blocks, upright, travel, fall, counts } = values;
    const lies = upright === 'yes' ? 'its axis square to the bar' : 'its axis along the bar';
    return say`${COLD} A micrometer has no place on so steep a side: lay the work on a sine bar of ${tell(bar, { unit })} with ${tell(blocks, { unit, step: FINE[unit] })} of gauge blocks, ${lies}, so that the side on top comes level. Along it an indicator must stand still over ${tell(travel, { unit })} within ${tell(fall, { unit, limit: fall })}. For every ${tell(values.per, { unit })} that the side falls towards its large end, the difference of the diameters over ${tell(values.distance, { unit })} is too small by ${tell(counts, { unit, limit: counts / 10 })}. ${judgement(values)}`;
  },
  blue: ({ inside }: { inside: string }): string => {
    const [gauge, atLarge, atSmall] =
      inside === 'yes'
        ? ['a plug gauge or the mating part', 'flat', 'steep']
        : ['a ring gauge or the mating part', 'steep', 'flat'];
    return say`Now, with stock still left, prove the form with a thin film of marking blue in ${gauge}: marks at the large end only say that the taper is too ${atLarge}, at the small end only that it is too ${atSmall}; in the middle, at both ends or on one side only they say that the angle is not at fault.`;
  },
  again: ({ unit, promise, measuring }: { unit: Unit; promise: string; measuring: number }): string =>
    say`${promise}. One measured difference is in doubt by ${plusMinus(measuring, unit)}: measure more than once and take the mean. Within what the measurement allows leave the setting alone; outside it correct, and repeat trial cut and measurement.`,
  'touch-off': (values: {
    unit: Unit;
    inside: string;
    markDiameter: number;
    limit: number;
    per: number;
    advance: number;
  }): string => {
    const { unit, inside, markDiameter, limit, per, advance } = values;
    const along = tell(advance, { unit, limit: advance / 10 });
    return say`Measure at the upper mark what is ${inside === 'yes' ? 'missing from' : 'left on'} the diameter, touch off again, move the tool ${inside === 'yes' ? 'outwards' : 'inwards'} by half of it, and finish in one cut without stopping the feed: ${tell(markDiameter, { unit, limit })} at the upper mark, ${plusMinus(limit, unit)}. A gauge still has ${along} to go along the axis for every ${tell(per, { unit })} ${inside === 'yes' ? 'missing from' : 'left on'} the diameter.`;
  },
  'final-check': (values: {
    unit: Unit;
    largeDiameter: number;
    smallDiameter: number;
    length: number;
    lowerDiameter: number;
    markDiameter: number;
    touchOff: number;
    /** What the lower mark and the difference may be off by; 0 where there is no such limit, less where nothing is left. */
    lowerLimit: number;
    difference: number;
    differenceLimit: number;
  }): string => {
    const { unit, largeDiameter, smallDiameter, length, lowerDiameter, markDiameter, touchOff } = values;
    const { lowerLimit, difference, differenceLimit } = values;
    const [large, small] = [largeDiameter, smallDiameter].map((end) => tell(end, { unit, step: FINE[unit] }));
    const upper = say`${tell(markDiameter, { unit, limit: touchOff })}, ${plusMinus(touchOff, unit)}, at the upper mark`;
    return say`Break the edges and measure cold: ${upper}, and ${held(lowerDiameter, lowerLimit, unit)} at the lower mark; the difference ${held(difference, differenceLimit, unit)}. So the drawing's sizes are reached: large end ${large as string}, small end ${small as string}, over ${tell(length, { unit })}. Prove the form with marking blue once more: it must bear over the whole length.`;
  },
  'over-rollers': (values: {
    unit: Unit;
    roller: number;
    low: number;
    height: number;
    high: number;
    limit: number;
  }): string => {
    const { unit, roller, low, height, high, limit } = values;
    const told = (value: number): string => tell(value, { unit, limit });
    return say`Off the lathe the finished taper can be proved standing on its small end between two rollers of ${tell(roller, { unit })}: over them it measures ${told(low)} with the rollers on the plate, and ${told(high)} with both raised on blocks of ${tell(height, { unit })}.`;
  },
} as const;

interface SineBarValues {
  readonly unit: Unit;
  readonly bar: number;
  readonly blocks: number;
  readonly across: string;
  readonly blocksAt: string;
  readonly carrier: string;
  readonly check: Indicate;
}

function stillAlong(unit: Unit, carrier: string, along: string, { travel, needle }: Indicate): string {
  return say`Along ${along} an indicator on ${carrier} must stand still, ${plusMinus(needle.limit ?? 0, unit)}, over ${tell(travel.value, { unit })}: tap it round, clamp it, and read again.`;
}

/** What every measuring of a trial states. */
export interface Measuring {
  readonly unit: Unit;
  /** Distance of the marks, and what their diameters must differ by. */
  readonly distance: number;
  readonly difference: number;
  readonly limit: number;
  readonly diameterLimit: number;
  readonly distanceLimit: number;
  readonly per: number;
  /** Whether this measuring can prove the tolerance; if not, limits of a diameter and of a distance that would do. */
  readonly proves: string;
  readonly diameterNeeded: number;
  readonly distanceNeeded: number;
}

const COLD = 'Stop the spindle, clean the work and let it cool.';

/** As finely as a drawing or a stack of blocks states a size: common practice, no source. */
const FINE = { mm: 0.001, in: 0.0001 } as const;

/** A band for a reading: two digits, rounded down, so that no more is accepted than there is. */
function within(limit: number, unit: Unit): string {
  const step = 10 ** (Math.floor(Math.log10(limit)) - 1);
  return plusMinus(Math.floor(limit / step + 1e-9) * step, unit);
}

function apart({ unit, distance, distanceLimit }: Measuring): string {
  return say`${tell(distance, { unit })} apart along the axis, ${plusMinus(distanceLimit, unit)}`;
}

function differ(values: Measuring): string {
  const { unit, difference, limit } = values;
  return say`${tell(difference, { unit, limit })}, ${within(limit, unit)}. ${judgement(values)}`;
}

function judgement({ unit, proves, diameterNeeded, distanceNeeded }: Measuring): string {
  if (proves === 'yes') return 'That leaves room for measuring and touching off.';
  const better =
    diameterNeeded > 0
      ? say`a diameter to ${within(diameterNeeded, unit)} and a distance to ${within(distanceNeeded, unit)} would do`
      : 'the large end must first be touched off more closely';
  return say`This measuring cannot prove the tolerance, whatever the plan promises: ${better}; or prove the part in a gauge.`;
}

function held(value: number, limit: number, unit: Unit): string {
  if (limit > 0) return say`${tell(value, { unit, limit })}, ${within(limit, unit)},`;
  const told = tell(value, { unit, step: FINE[unit] });
  return limit === 0 ? told : say`${told}, which this measuring cannot prove,`;
}

/** A needle's movement, as finely as its band. */
export function needleTold(unit: string, from: number, to: number): (value: number) => string {
  return (value) => tell(value, { unit, limit: (to - from) / 2 });
}

/** Codes of the steps that the ways to a taper share. */
export type SharedStep = keyof typeof STEPS;

/** What the plan promises of the first setting and of a correction. */
export const PROMISES = {
  first: ({ chance }: { chance: string }): string =>
    say`By the plan the first setting already holds with a probability of ${chance}`,
  corrected: ({ chance }: { chance: string }): string =>
    say`By the plan one correction is enough with a probability of ${chance}; if it takes more, look for what moves: guide, clamp, tool or work`,
  short: ({ chance }: { chance: string }): string =>
    say`By the plan the tolerance is met with a probability of ${chance} only, after one correction made by the scale: go by the indicator, and expect to repeat it`,
} as const;

/** Which way a guide is swung so that the taper's large end lies at the named end of the machine. */
export function leaning(headstockEnd: 'large' | 'small'): string {
  return `so that the tool draws away from the axis, to the operator's side, as it goes towards the ${headstockEnd === 'large' ? 'headstock' : 'tailstock'}`;
}

/** Where the taper's small end looks. */
export function smallEndTowards(headstockEnd: 'large' | 'small'): End {
  return headstockEnd === 'large' ? 'tailstock' : 'headstock';
}

/** An angle in degrees and minutes, as a vernier shows it. */
export function inMinutes(angleDeg: number): string {
  return formatAngle(angleDeg, { smallest: 'minute', decimals: 1 }).replace('°', '° ').replace("'", ' minutes');
}
