/** Sentences of the steps of a tilted sweep, by code. */
import { plusMinus, say, tell } from '../../core/words.js';

type Unit = string;

/** What to do, in sentences; `towards` words are made by the steps from the signs of their numbers. */
export const WORDS = {
  'axes-meet': ({ unit, table, skew }: { unit: Unit; table: string; skew: number }): string =>
    say`Clamp the rotary table with its axis ${table}, the work running true on it. Bring the table's axis and the spindle's into one plane, ${plusMinus(skew, unit)}, by an indicator in the spindle before the head is tilted: only where the two axes meet is the cut a sphere.`,
  tilt: (values: {
    readingDeg: number;
    exactReadingDeg: number;
    limitDeg: number;
    stepDeg: number | undefined;
  }): string => {
    const { readingDeg, exactReadingDeg, limitDeg, stepDeg } = values;
    const told = tell(Math.abs(readingDeg), { unit: '°', step: stepDeg, limit: limitDeg });
    const exact =
      readingDeg === exactReadingDeg ? '' : say` (exactly ${tell(Math.abs(exactReadingDeg), { unit: '°' })})`;
    return say`Tilt the head to ${told} from upright${exact}, ${plusMinus(limitDeg, '°')}, and clamp it.`;
  },
  sweep: (values: {
    unit: Unit;
    reading: number;
    exactReading: number;
    tipDiameter: number;
    limit: number;
    readingLimit: number;
    dialStep: number | undefined;
  }): string => {
    const { unit, reading, tipDiameter, limit, readingLimit, dialStep } = values;
    const told = tell(reading, { unit, step: dialStep, limit: readingLimit });
    return say`Set the boring head to ${told} on its dial, coming up from below: the tip then turns on a circle of ${tell(tipDiameter, { unit, limit: 2 * limit })} across.`;
  },
  'place-at-pole': (values: { unit: Unit; feedFromTouch: number; miss: number; position: number }): string => {
    const { unit, feedFromTouch, miss, position } = values;
    const deep =
      feedFromTouch <= position
        ? 'the pole will lie in it'
        : say`from it the sphere lies ${tell(feedFromTouch, { unit, limit: position })} deep along the work's axis`;
    return say`Set the tip at its lowest over the centre of the slowly turned work, ${plusMinus(miss, unit)}: a centre mark must neither widen nor keep a ring. Touch the end face there: ${deep}.`;
  },
  place: (values: {
    unit: Unit;
    spindleAtFace: number;
    centreFromFace: number;
    miss: number;
    position: number;
  }): string => {
    const { unit, spindleAtFace, centreFromFace, miss, position } = values;
    const [across, along] = [
      tell(spindleAtFace, { unit, limit: miss }),
      tell(Math.abs(centreFromFace), { unit, limit: position }),
    ];
    return say`Bring the spindle's axis to ${across} from the work's axis at the level of the free end, ${plusMinus(miss, unit)}; the sphere's centre lies ${along} from that face, ${plusMinus(position, unit)}.`;
  },
  indicator: ({ unit, travel, needle, limit }: { unit: Unit; travel: number; needle: number; limit: number }): string =>
    say`Run an indicator on the quill along an upright square: over ${tell(travel, { unit })} of the quill it must move by ${tell(needle, { unit, limit })}, ${plusMinus(limit, unit)}.`,
  'test-ring': ({
    unit,
    turns,
    tipDiameter,
    limit,
  }: {
    unit: Unit;
    turns: string;
    tipDiameter: number;
    limit: number;
  }): string =>
    say`Let the same tool ${turns} a test ring about the spindle's axis: it must measure ${tell(tipDiameter, { unit, limit })}, ${plusMinus(limit, unit)}. What it is off goes onto the dial.`,
  'clear-sweep': (_values: Record<never, never>): string =>
    'With the power off turn the spindle by hand through a whole turn, and the work too: head, tool and clamps must clear work and table everywhere.',
  'rough-along-spindle': (values: {
    unit: Unit;
    left: number;
    leave: number;
    diameter: number;
    limit: number;
    per: number;
  }): string => {
    const { unit, left, diameter, limit, per } = values;
    return say`Turning the work slowly, feed along the spindle in small steps until ${tell(left, { unit, limit: per })} are left to go: the ball then measures ${tell(diameter, { unit, limit })}.`;
  },
  'rough-deep': ({ unit, leave }: { unit: Unit; leave: number }): string =>
    say`Turning the work slowly, sink the socket with the sweep closed and the spindle lowered in proportion, so that its radius is ${tell(leave, { unit })} short.`,
  'rough-along-work': ({
    unit,
    depth,
    leave,
    limit,
  }: {
    unit: Unit;
    depth: number;
    leave: number;
    limit: number;
  }): string =>
    say`Turning the work slowly, feed along its axis in small steps until the cut is ${tell(depth, { unit, limit })} deep: ${tell(leave, { unit })} are left.`,
  size: ({ unit, diameterLimit }: { unit: Unit; diameter: number; diameterLimit: number }): string =>
    say`Stop spindle and table. Measure the ball at its widest place, ${plusMinus(diameterLimit, unit)}, at several places round, and the pip at the free end.`,
  'size-and-depth': (values: {
    unit: Unit;
    where: string;
    depth: number;
    diameter: number;
    diameterLimit: number;
    depthLimit: number;
  }): string => {
    const { unit, where, depth, diameter, diameterLimit, depthLimit } = values;
    const deep = tell(depth, { unit, limit: depthLimit });
    return say`Stop spindle and table. Measure the diameter ${where}, ${plusMinus(diameterLimit, unit)}, and the depth, ${plusMinus(depthLimit, unit)}: at a depth of ${deep} it must be ${tell(diameter, { unit, limit: diameterLimit })}. Look for a pip in the middle.`;
  },
  'sweep-and-distance': (values: {
    unit: Unit;
    per: number;
    sweepRadiusChange: number;
    distanceChange: number;
  }): string => {
    const { unit, per, sweepRadiusChange, distanceChange } = values;
    const size = (change: number): string => tell(Math.abs(change), { unit, limit: Math.abs(change) });
    const open = sweepRadiusChange > 0 ? 'open' : 'close';
    const raise = distanceChange > 0 ? 'raise' : 'lower';
    return say`A pip of a given diameter: the tip misses the centre by half of it; move the table by that much. For every ${tell(per, { unit })} that the finished radius would be too large, ${open} the sweep by ${size(sweepRadiusChange)} on the radius and ${raise} the spindle by ${size(distanceChange)} along its axis. Too small: as much the other way.`;
  },
  'tilt-again': ({ unit, per, tiltChangeDeg }: { unit: Unit; per: number; tiltChangeDeg: number }): string =>
    say`A pip of a given diameter: the tip misses the centre by half of it; move the table by that much. For every ${tell(per, { unit })} that the radius found from diameter and depth is too large, tilt the head so that the angle between the two axes grows by ${tell(60 * tiltChangeDeg, { unit: '′', limit: 0.1 })}, with the tip over the centre again. Too small: as much less.`,
} as const;
