/** Sentences of the steps that the ways to a taper share, by code. Lengths in `unit`; limits hold either way. */
import { plusMinus, say, tell } from '../core/words.js';

type Unit = 'mm' | 'in';

/** What {@link STEPS} takes for the trial cut. */
export interface RoughValues {
  readonly unit: Unit;
  readonly inside: string;
  readonly whole: string;
  /** Left on the diameter. */
  readonly leave: number;
  readonly largeDiameter: number;
  readonly length: number;
  /** Limit of the diameter. */
  readonly limit: number;
}

/** The steps, in the order of work. */
export const STEPS = {
  'hold-work': ({ unit, between, workLength }: { unit: Unit; between: string; workLength: number }): string => {
    const long = tell(workLength, { unit });
    return between === 'yes'
      ? say`Turn the blank, ${long} long, to a true cylinder between centres in line: it serves to check the setting.`
      : say`Hold the work, ${long} long, so that the whole taper can be reached; headstock and tailstock in line, the work running true.`;
  },
  'tool-height': ({ unit, toolHeight }: { unit: Unit; toolHeight: number }): string =>
    say`Bring the tip of the tool to the height of the work's axis, ${plusMinus(toolHeight, unit)}: off that height it cuts no true cone.`,
  indicator: (values: {
    unit: Unit;
    onto: string;
    travel: number;
    needle: number;
    needleFrom: number;
    needleTo: number;
  }): string => {
    const { unit, onto, travel, needle, needleFrom, needleTo } = values;
    const limit = (needleTo - needleFrom) / 2;
    const told = (value: number): string => tell(value, { unit, limit });
    return say`${onto}, its plunger level, square to the bed and at the height of the axis. Over ${tell(travel, { unit })} of the carriage it must move by ${told(needle)}, from ${told(needleFrom)} to ${told(needleTo)}, always fed in the same direction. Turn the work half a turn and take the mean.`;
  },
  rough: ({ unit, inside, whole, leave, largeDiameter, length, limit }: RoughValues): string => {
    const left = tell(leave, { unit });
    const until =
      whole === 'yes'
        ? say`until the large end measures ${tell(largeDiameter, { unit, limit })}, which leaves ${left} on the diameter`
        : say`until the taper runs out ${tell(length, { unit })} from its small end, which leaves ${left} on the diameter`;
    return say`${inside === 'yes' ? 'Bore' : 'Turn'} the taper in light cuts ${until}. Take the last cut twice without moving the tool in, and run in from the same side each time so that all lost motion is taken up.`;
  },
  difference: (values: {
    unit: Unit;
    inside: string;
    distance: number;
    difference: number;
    limit: number;
    diameterLimit: number;
    distanceLimit: number;
  }): string => {
    const { unit, inside, distance, difference, limit, diameterLimit, distanceLimit } = values;
    const how =
      inside === 'yes'
        ? 'with two balls of known size and a depth gauge, or with a bore gauge at two known depths'
        : 'with a micrometer at two marks, or over two equal rollers raised on blocks';
    return say`Stop the spindle, clean the work and let it cool. Measure two diameters ${tell(distance, { unit })} apart along the axis, ${plusMinus(distanceLimit, unit)}, ${how}, each ${plusMinus(diameterLimit, unit)}: they must differ by ${tell(difference, { unit, limit })}, ${plusMinus(limit, unit)}.`;
  },
  again: ({ unit, promise, measuring }: { unit: Unit; promise: string; measuring: number }): string =>
    say`${promise}. Leave alone what measuring may be off by, ${plusMinus(measuring, unit)} at worst. After every correction repeat trial cut and measurement.`,
  'touch-off': (values: {
    unit: Unit;
    inside: string;
    largeDiameter: number;
    limit: number;
    per: number;
    advance: number;
  }): string => {
    const { unit, inside, largeDiameter, limit, per, advance } = values;
    const along = tell(advance, { unit, limit: advance / 10 });
    return say`Touch off again and finish the large end to ${tell(largeDiameter, { unit, limit })}, ${plusMinus(limit, unit)}. A gauge still has ${along} to go along the axis for every ${tell(per, { unit })} ${inside === 'yes' ? 'missing from' : 'left on'} the diameter. Finish in one cut without stopping the feed.`;
  },
  'final-check': (values: {
    unit: Unit;
    largeDiameter: number;
    touchOff: number;
    smallDiameter: number;
    length: number;
    difference: number;
    limit: number;
  }): string => {
    const { unit, largeDiameter, touchOff, smallDiameter, length, difference, limit } = values;
    const large = tell(largeDiameter, { unit, limit: touchOff });
    const told = (value: number): string => tell(value, { unit, limit });
    return say`Break the edges and measure cold: large end ${large}, small end ${told(smallDiameter)}, over ${tell(length, { unit })}; the difference ${told(difference)}, ${plusMinus(limit, unit)}. Prove the form with marking blue in a gauge or the mating part: it must bear over the whole length.`;
  },
} as const;

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
  return `so that the tool draws away from the axis towards the ${headstockEnd === 'large' ? 'headstock' : 'tailstock'}`;
}

/** An exact value beside one that was rounded; nothing where they are the same. */
export function exactly(wanted: number, settable: number, unit: string): string {
  return wanted === settable ? '' : say` (exactly ${tell(wanted, { unit })})`;
}
