/** Sentences of the steps that the ways to a taper share, by code, made of their actions. Limits hold either way. */
import { formatAngle } from '../core/angle-text.js';
import { plusMinus, say, tell } from '../core/words.js';
import { band, told, toldHeld, wayTold } from '../method/action-words.js';
import type {
  Amount,
  Blue,
  Correct,
  Count,
  Feed,
  Indicate,
  Lay,
  MarkPlace,
  Measure,
  Repeat,
  Secure,
  SetReading,
  Stop,
  Touch,
  Way,
  Zero,
} from '../method/actions.js';

type Unit = 'mm' | 'in';

/** The steps, in the order of work. */
export const STEPS = {
  ends: (values: {
    large: MarkPlace;
    small: MarkPlace;
    lower: MarkPlace;
    upper: MarkPlace;
    shoulders: string;
  }): string => {
    const { large, small, lower, upper, shoulders } = values;
    return say`Before the work is held mark on it where the taper lies: large end ${told(large.at)}, small end ${told(small.at)} from the work's face at the headstock${shoulders}. It is measured at two places: the lower mark ${told(lower.at)}, the upper mark ${told(upper.at)} from the small end.`;
  },
  'hold-work': ({ unit, hold, workLength }: { unit: Unit; hold: Secure; workLength: number }): string =>
    say`Hold the work, ${tell(workLength, { unit })} long, in the ${hold.by ?? ''} so that the whole taper can be reached; the work must run true.`,
  'turn-blank': (values: {
    unit: Unit;
    hold: Secure;
    turn: Feed;
    alike: Measure;
    follow: Correct;
    repeat: Repeat;
    clamp: readonly Secure[];
    workLength: number;
  }): string => {
    const { unit, turn, alike, follow, workLength } = values;
    const [blank, per, by] = [turn.until, follow.per, follow.by].map((size) => told(size as Amount)) as [
      string,
      string,
      string,
    ];
    return say`Hold the work, ${tell(workLength, { unit })} long, between centres in line, clamp tailstock and barrel, and turn it to a true cylinder, feeding the carriage ${wayTold(turn.way)}, the depth given by the ${name(turn.depth ?? '')}, ${wayTold(turn.deeper ?? turn.way)}, with a diameter of ${blank} where the taper comes. It serves to find the zero and to check the setting, so it must measure alike near both faces, ${band(alike.must)}. For every ${per} that it is larger at the tailstock move the tailstock ${by} ${wayTold(follow.way)}, and turn it again; smaller, as much the other way.`;
  },
  'tool-height': ({ touch }: { touch: Touch }): string =>
    say`Bring the tip of the tool to the height of the work's axis, ${plusMinus(touch.within?.limit ?? 0, touch.within?.unit)}, to cut on the operator's side: off that height it cuts no true cone.`,
  drill: ({ drill }: { drill: Feed }): string =>
    say`Drill first, a hole of at most ${told(drill.size as Amount)}, ${told(drill.to as Amount)} deep from the face at the tailstock, ${wayTold(drill.way)}.`,
  indicator: ({ indicate, onto }: { indicate: Indicate; onto: string }): string => {
    return say`${onto}, its plunger level, on the operator's side, square to the bed and at the height of the axis. While the carriage goes ${told(indicate.travel)} ${wayTold(indicate.way)} the plunger must be pushed in by ${needleTold(indicate)}; if it comes out, the setting leans the wrong way. Always feed in the same direction. Turn the work half a turn and take the mean. Until it does, move the ${part(indicate)}.`;
  },
  'scale-zero': ({ check }: { check: Indicate; zero: Zero }): string =>
    say`Put a true cylinder in place of the work. ${stillAlong('it', check)} What the scale then shows is its zero: note it, and add it to the reading.`,
  'sine-bar': ({ lay, check }: { lay: Lay; check: Indicate }): string => {
    const [bar, blocks] = lay.sizes.map(told) as [string, string];
    const across = lay.what === 'sine-bar-across';
    const against = across ? 'Against a true faceplate' : 'Against a true cylinder in place of the work';
    const roller = across ? (lay.way === 'to-axis' ? 'nearest the axis' : 'farthest from the axis') : wayTold(lay.way);
    return say`${against} lay a sine bar of ${bar} on its side, ${blocks} of gauge blocks behind the roller ${roller}. ${stillAlong('the bar', check)}`;
  },
  master: ({ lay, check }: { lay: Lay; check: Indicate }): string =>
    say`Put the master in place of the work, its large end ${wayTold(lay.way)}. ${stillAlong('it', check)}`,
  rough: (values: { unit: Unit; stop: Stop | undefined; feed: Feed; leave: number; length: number }): string => {
    const { unit, stop, feed, leave, length } = values;
    const stopped = stop ? say`Set a stop where the ${place(stop.at)} is. ` : '';
    const left = tell(leave, { unit, limit: feed.until?.limit ?? 0 });
    return say`${stopped}${cut(feed)} in light cuts until it measures ${told(feed.until as Amount)} at the upper mark, which leaves ${left} on the diameter; the taper is then ${tell(length, { unit })} long. Take the last cut twice without any more depth, and come to each depth from the same side so that all lost motion is taken up. Mark both places on it again. When it is repeated after a correction, cut just until it is clean over its whole length.`;
  },
  difference: (values: Judged & { measure: Measure }): string => {
    const { measure } = values;
    return say`${COLD} Measure the diameters at both marks, ${apart(values)}, with ${measure.with ?? ''}, each ${plusMinus(values.diameterLimit, values.unit)}: the upper one must be larger by ${told(measure.must)}, ${band(measure.must)}. ${judgement(values)}`;
  },
  'ball-depths': (values: Judged & { measure: Measure; count: Count }): string => {
    const { measure, count } = values;
    const [small, large] = measure.sizes as readonly [Amount, Amount];
    return say`${COLD} Let a ball of ${told(small)} and then one of ${told(large)} lie in the bore and measure how deep their tops lie below its mouth: the small one must lie ${told(measure.must)} deeper, ${band(measure.must)}. For every ${told(count.per)} that it lies deeper than that, ${counts(count, values)}. ${judgement(values)}`;
  },
  'on-sine-bar': (values: Judged & { measure: Measure; count: Count; lies: string }): string => {
    const { measure, count, lies } = values;
    const [bar, blocks, travel] = measure.sizes as readonly [Amount, Amount, Amount];
    return say`${COLD} A micrometer has no place on so steep a side: lay the work on a sine bar of ${told(bar)} with ${told(blocks)} of gauge blocks, ${lies}, so that the side on top comes level. Along it an indicator must stand still over ${told(travel)} within ${told({ ...measure.must, value: measure.must.limit ?? 0 })}. For every ${told(count.per)} that the side falls towards its large end, ${counts(count, values)}. ${judgement(values)}`;
  },
  blue: ({ blue }: { blue: Blue }): string =>
    say`Now, with stock still left, prove the form with a thin film of marking blue in a ${blue.with.replace('-', ' ')} or the mating part: marks at the large end only say that the taper is too ${blue.atLargeEnd}, at the small end only that it is too ${blue.atSmallEnd}; in the middle, at both ends or on one side only they say that the angle is not at fault.`,
  again: ({ unit, promise, measuring }: { unit: Unit; repeat: Repeat; promise: string; measuring: number }): string =>
    say`${promise}. One measured difference is in doubt by ${plusMinus(measuring, unit)}: measure more than once and take the mean. Within what the measurement allows leave the setting alone; outside it correct, and repeat trial cut and measurement.`,
  'touch-off': (values: { unit: Unit; touch: Touch; feed: Feed; advance: number; per: number }): string => {
    const { unit, feed, advance, per } = values;
    const along = tell(advance, { unit, limit: advance / 10 });
    const left = feed.deeper === 'operator' ? 'missing from' : 'left on';
    const way = wayTold(feed.deeper ?? feed.way);
    const begun = feed.before
      ? say` ${wayTold(feed.way)}, beginning ${told(feed.before)} before the taper as before`
      : '';
    return say`Measure at the upper mark what is ${left} the diameter, touch off again there, move the tool by half of it ${way}, and finish in one cut${begun}, without stopping the feed: ${toldHeld(feed.until as Amount)}, at the upper mark. A gauge still has ${along} to go along the axis for every ${tell(per, { unit })} ${left} the diameter.`;
  },
  'final-check': (values: {
    unit: Unit;
    upper: Measure;
    lower: Measure;
    difference: Measure;
    largeDiameter: number;
    smallDiameter: number;
    length: number;
  }): string => {
    const { unit, upper, lower, difference, largeDiameter, smallDiameter, length } = values;
    const [large, small] = [largeDiameter, smallDiameter].map((end) => tell(end, { unit, step: FINE[unit] }));
    return say`Break the edges and measure cold: ${toldHeld(upper.must)}, at the upper mark, and ${proved(lower.must)} at the lower mark; the difference ${proved(difference.must)}. So the drawing's sizes are reached: large end ${large as string}, small end ${small as string}, over ${tell(length, { unit })}. Prove the form with marking blue once more: it must bear over the whole length.`;
  },
  'over-rollers': ({ low, high }: { low: Measure; high: Measure }): string => {
    const [roller, height] = high.sizes as readonly [Amount, Amount];
    return say`Off the lathe the finished taper can be proved standing on its small end between two rollers of ${told(roller)}: over them it measures ${told(low.must)} with the rollers on the plate, and ${told(high.must)} with both raised on blocks of ${told(height)}.`;
  },
  'back-to-zero': (values: { back: SetReading; clamp: readonly Secure[]; prove: Indicate; what: string }): string => {
    const { back, prove, what } = values;
    return say`When the last of these parts is done bring the ${what} back to ${told(back.reading)} and clamp it; prove it by an indicator along a true cylinder: over ${told(prove.travel)} of its way ${wayTold(prove.way)} the needle must stand still within ${told({ ...prove.needle, value: prove.needle.limit ?? 0 })}.`;
  },
} as const;

function stillAlong(along: string, { on, travel, way, needle, adjust }: Indicate): string {
  const carrier = on === 'top-slide' ? 'the slide' : 'the cross slide, which the bar moves,';
  return say`Along ${along} an indicator on ${carrier} must stand still, ${plusMinus(needle.limit ?? 0, needle.unit)}, over ${told(travel)} ${wayTold(way)}: until it does, tap the ${name(adjust ?? '')} round, clamp it, and read again.`;
}

/** What every measuring of a trial states. */
export interface Judged {
  readonly unit: Unit;
  readonly distance: number;
  readonly diameterLimit: number;
  readonly distanceLimit: number;
  /** Whether this measuring can prove the tolerance; if not, limits of a diameter and of a distance that would do. */
  readonly proves: string;
  readonly diameterNeeded: number;
  readonly distanceNeeded: number;
}

const COLD = 'Stop the spindle, clean the work and let it cool.';

/** As finely as a drawing or a stack of blocks states a size: common practice, no source. */
export const FINE = { mm: 0.001, in: 0.0001 } as const;

function apart({ unit, distance, distanceLimit }: Judged): string {
  return say`${tell(distance, { unit })} apart along the axis, ${plusMinus(distanceLimit, unit)}`;
}

function counts({ by, is }: Count, { unit, distance }: Judged): string {
  return say`the difference of the diameters over ${tell(distance, { unit })} is ${is.replace('-', ' ')} by ${told(by)}`;
}

function judgement({ unit, proves, diameterNeeded, distanceNeeded }: Judged): string {
  if (proves === 'yes') return 'That leaves room for measuring and touching off.';
  const room = (limit: number): string => band({ value: 0, unit, limit });
  const better =
    diameterNeeded > 0
      ? say`a diameter to ${room(diameterNeeded)} and a distance to ${room(distanceNeeded)} would do`
      : 'the large end must first be touched off more closely';
  return say`This measuring cannot prove the tolerance, whatever the plan promises: ${better}; or prove the part in a gauge.`;
}

/** A size that is judged, one that measuring can't prove (limit 0), or one without a tolerance of its own. */
function proved(size: Amount): string {
  const { value, unit, limit } = size;
  if (limit === undefined || limit > 0) return limit ? say`${told(size)}, ${band(size)},` : told(size);
  return say`${tell(value, { unit, step: FINE[unit as Unit] })}, which this measuring cannot prove,`;
}

/** How a taper is cut: with what, which way, from where, and what gives the depth. */
function cut({ control, way, before, depth, deeper }: Feed): string {
  const what = (deeper ?? way) === 'operator' ? 'Bore the taper' : 'Turn the taper';
  if (!depth || !deeper) return say`${what}, the ${name(control)} feeding the edge straight in, ${wayTold(way)},`;
  const from = before ? say`, each cut beginning ${told(before)} before the taper` : '';
  return say`${what}, feeding the ${name(control)} ${wayTold(way)}${from}, the depth given by the ${name(depth)}, ${wayTold(deeper)},`;
}

/** A place on the work in words. */
export function place(of: string): string {
  return of.replace('-', ' ');
}

/** A control in words. */
export function name(control: string): string {
  return control.replace('tailstock-head', 'boring head').replace('-', ' ');
}

function part({ adjust }: Indicate): string {
  return name(adjust ?? '');
}

/** What a needle must show, and between what, as finely as its band. */
export function needleTold({ needle }: Pick<Indicate, 'needle'>): string {
  const { value, unit, limit = 0, step } = needle;
  const at = (shown: number): string => tell(shown, { unit, limit, step });
  return say`${at(value)}, from ${at(value - limit)} to ${at(value + limit)}`;
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

/** Which way a guide is swung out of the line of the bed, seen from above: its large end leans to the operator. */
export function swungWay(headstockEnd: 'large' | 'small'): 'clockwise' | 'anticlockwise' {
  return headstockEnd === 'large' ? 'anticlockwise' : 'clockwise';
}

/** What a guide does that is swung a way. */
export function leaning(way: Way | undefined): string {
  return say`${wayTold(way ?? 'clockwise')} seen from above, so that the tool draws away from the axis, to the operator's side, as it goes towards the ${way === 'anticlockwise' ? 'headstock' : 'tailstock'}`;
}

/** Where the taper's small end looks. */
export function smallEndTowards(headstockEnd: 'large' | 'small'): 'headstock' | 'tailstock' {
  return headstockEnd === 'large' ? 'tailstock' : 'headstock';
}

/** An angle in degrees and minutes, as a vernier shows it. */
export function inMinutes(angleDeg: number): string {
  return formatAngle(angleDeg, { smallest: 'minute', decimals: 1 }).replace('°', '° ').replace("'", ' minutes');
}
