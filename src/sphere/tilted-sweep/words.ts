/**
 * Sentences of the steps of a tilted sweep, by code. Directions are those of the mill's frame in docs/conventions.md:
 * seen from the front, a level work axis with the free end on the right, a flat table with the free end up.
 */
import { plusMinus, say, tell } from '../../core/words.js';
import type { Indicate } from '../../method/actions.js';

type Unit = string;
type Table = 'flat' | 'upright';
type Side = 'ball' | 'socket';

/** A table move that brings the tip deeper into the work, along its axis. */
const DEEPER = { flat: 'raise the table', upright: 'move the table to the right' } as const;
/** The same the other way. */
const BACK = { flat: 'lower the table', upright: 'move the table to the left' } as const;
/** Square to the work's axis in the plane of both axes, the table's move that brings the tip towards the spindle. */
const TO_SPINDLE = { flat: 'move the table to the left', upright: 'lower the table' } as const;
/** The same either way. */
const ACROSS = { flat: 'move the table to the left or right', upright: 'raise or lower the table' } as const;

/** The place of the sweep that meets the pole. */
function pole(side: Side, table: Table): string {
  const [where, height] = [
    side === 'ball' ? 'nearest the free end' : 'deepest in the work',
    (side === 'ball') === (table === 'flat') ? 'highest' : 'lowest',
  ];
  return say`its place ${where}, the ${height} of its circle,`;
}

const WIDE = 'Stop spindle and table. Measure the ball at its widest place, at several places round';
const BEFORE_MOVING = 'Draw the tool back along the spindle before anything else is moved.';

function size(change: number, unit: Unit): string {
  return tell(Math.abs(change), { unit, limit: Math.abs(change) });
}

/** A change so much smaller than the one beside it can neither be set nor seen. */
const NEGLIGIBLE = 1e-3;

/** Change of the sweep and of the feed along the spindle. */
function sweepAndFeed(unit: Unit, sweepRadiusChange: number, distanceChange: number): string {
  const open = sweepRadiusChange > 0 ? 'open' : 'close';
  const further = distanceChange > 0 ? 'less far' : 'further';
  const [sweep, feed] = [Math.abs(sweepRadiusChange), Math.abs(distanceChange)];
  const told = [
    sweep < NEGLIGIBLE * feed ? '' : say`${open} the sweep by ${size(sweep, unit)} on the radius`,
    feed < NEGLIGIBLE * sweep ? '' : say`feed ${size(feed, unit)} ${further} than to zero`,
  ];
  return told.filter((part) => part !== '').join(' and ');
}

/** Of stock that was stated and is too small. */
function tooSmall(unit: Unit, stated: number | undefined): string {
  return stated === undefined ? '' : say` The stock stated, ${tell(stated, { unit })}, is too small for this trial.`;
}

/** What to do, in sentences. */
export const WORDS = {
  'axes-meet': ({ unit, table, skew }: { unit: Unit; table: Table; skew: number }): string => {
    const axis = table === 'flat' ? 'upright, the free end up' : 'level, the free end on the right seen from the front';
    return say`Clamp the rotary table with its axis ${axis}, the work running true on it. Bring the table's axis and the spindle's into one plane, ${plusMinus(skew, unit)}, by an indicator in the spindle before the head is tilted: only where the two axes meet is the cut a sphere.`;
  },
  stock: (values: {
    unit: Unit;
    across: number;
    faceStock: number;
    limit: number;
    stated: number | undefined;
  }): string => {
    const { unit, across, faceStock, stated, limit } = values;
    return say`Take stock that is at least ${tell(across, { unit, limit })} across, and leave ${tell(faceStock, { unit, limit })} on the end face beyond the finished pole: the trial shows itself there.${tooSmall(unit, stated)}`;
  },
  'stock-with-flat': (values: { unit: Unit; across: number; limit: number; stated: number | undefined }): string => {
    const { unit, across, stated, limit } = values;
    return say`Take stock that is at least ${tell(across, { unit, limit })} across, and face its free end to length.${tooSmall(unit, stated)}`;
  },
  'stock-with-stems': (values: {
    unit: Unit;
    across: number;
    limit: number;
    stated: number | undefined;
    freeStem: number;
    stem: number;
    fromHeight: number;
    toHeight: number;
  }): string => {
    const { unit, across, stated, limit, freeStem, stem, fromHeight, toHeight } = values;
    const ends = say`${tell(fromHeight, { unit, limit })} from the sphere's centre towards the free end and ${tell(toHeight, { unit, limit })} towards the held end`;
    return say`Take stock that is at least ${tell(across, { unit, limit })} across. Turn the free stem to ${tell(freeStem, { unit, limit })} and the held one to ${tell(stem, { unit, limit })} first; they begin ${ends}.${tooSmall(unit, stated)}`;
  },
  tilt: (values: { readingDeg: number; limitDeg: number }): string => {
    const { readingDeg, limitDeg } = values;
    const told = tell(Math.abs(readingDeg), { unit: '°', limit: limitDeg });
    const side =
      readingDeg > 0
        ? 'from upright, its upper end to the right: clockwise seen from the front'
        : readingDeg < 0
          ? 'from upright, its upper end to the left: anticlockwise seen from the front'
          : 'upright';
    return readingDeg === 0
      ? say`Set the head ${side}, ${told}, ${plusMinus(limitDeg, '°')}, and clamp it.`
      : say`Tilt the head to ${told} ${side}, ${plusMinus(limitDeg, '°')}, and clamp it.`;
  },
  indicator: (values: {
    unit: Unit;
    face: 'upright' | 'level';
    travel: number;
    needle: number;
    limit: number;
  }): string => {
    const { unit, face, travel, needle, limit } = values;
    const along = face === 'upright' ? 'the upright side of a square' : 'a level block on the table';
    return say`Prove this tilt: run an indicator on the quill against ${along}, its plunger square to it: over ${tell(travel, { unit })} of the quill it must move by ${tell(needle, { unit, limit })}, ${plusMinus(limit, unit)}.`;
  },
  'sine-bar': (values: {
    unit: Unit;
    bar: number;
    blocks: number;
    along: 'square' | 'bar';
    roller: 'left' | 'right';
    check: Indicate;
  }): string => {
    const { unit, bar, blocks, along, roller, check } = values;
    const { travel, needle } = check;
    const on = along === 'bar' ? 'the top of the bar' : 'the upright side of a square that stands on the bar';
    return say`Set this tilt by a sine bar of ${tell(bar, { unit })} across the table, ${tell(blocks, { unit, step: unit === 'mm' ? 0.001 : 0.0001 })} of gauge blocks under its ${roller} roller: along ${on} an indicator on the quill must stand still, ${plusMinus(needle.limit ?? 0, unit)}, over ${tell(travel.value, { unit })} of the quill.`;
  },
  sweep: (values: {
    unit: Unit;
    reading: number;
    tipDiameter: number;
    limit: number;
    readingLimit: number;
  }): string => {
    const { unit, reading, tipDiameter, limit, readingLimit } = values;
    const told = tell(reading, { unit, limit: readingLimit });
    return say`Set the boring head to ${told} on its dial, coming up from below: the tip then turns on a circle of ${tell(tipDiameter, { unit, limit: 2 * limit })} across.`;
  },
  'test-ring': (values: { unit: Unit; turns: 'turn' | 'bore'; tipDiameter: number; limit: number }): string => {
    const { unit, turns, tipDiameter, limit } = values;
    return say`Let the same tool ${turns} a test ring about the spindle's axis: it must measure ${tell(tipDiameter, { unit, limit })}, ${plusMinus(limit, unit)}. What it is off goes onto the dial.`;
  },
  'place-for-spindle-feed': (values: {
    unit: Unit;
    side: Side;
    table: Table;
    total: number;
    miss: number;
    position: number;
  }): string => {
    const { unit, side, table, total, miss, position } = values;
    return say`Turn the tip by hand to ${pole(side, table)} and set it there over the centre of the slowly turned work, ${plusMinus(miss, unit)}: a centre mark must neither widen nor keep a ring. Touch the end face there and set the dial of the spindle's feed to zero: the finished feed will end there. Draw the tool back along the spindle, then ${DEEPER[table]} by ${tell(total, { unit, limit: position })}, ${plusMinus(position, unit)}.`;
  },
  'place-for-work-feed': (values: {
    unit: Unit;
    side: Side;
    table: Table;
    total: number;
    miss: number;
    position: number;
  }): string => {
    const { unit, side, table, total, miss, position } = values;
    return say`Turn the tip by hand to ${pole(side, table)} and set it there over the centre of the slowly turned work, ${plusMinus(miss, unit)}: a centre mark must neither widen nor keep a ring. Touch the end face there and set the dial along the work's axis to zero; lock the spindle's feed. The finished surface lies ${tell(total, { unit, limit: position })} from there, ${plusMinus(position, unit)}: ${DEEPER[table]} to reach it. Now ${BACK[table]} until the whole sweep is clear of the work.`;
  },
  'place-at-flat': (values: {
    unit: Unit;
    table: Table;
    across: number;
    further: number;
    miss: number;
    position: number;
  }): string => {
    const { unit, table, across, further, miss, position } = values;
    const then =
      Math.abs(further) < position / 10
        ? ''
        : say` Draw the tool back along the spindle and ${further > 0 ? DEEPER[table] : BACK[table]} by ${tell(Math.abs(further), { unit, limit: position })}.`;
    return say`Turn the tip by hand to its place nearest the free end and set it there over the centre of the slowly turned work, ${plusMinus(miss, unit)}; then, clear of the work, ${TO_SPINDLE[table]} by ${tell(across, { unit, limit: miss })}, so that the tip stands at the edge of the flat. Touch the end face there and set the dial of the spindle's feed to zero: the finished feed will end there.${then}`;
  },
  'place-at-stem': (values: {
    unit: Unit;
    fromCentre: number;
    back: number;
    miss: number;
    position: number;
  }): string => {
    const { unit, fromCentre, back, miss, position } = values;
    const where =
      Math.abs(back) < miss / 10
        ? 'there'
        : say`${tell(Math.abs(back), { unit, limit: miss })} ${back > 0 ? 'back from there' : 'beyond that'} along the spindle`;
    return say`Turn the tip by hand to its place nearest the free end. Bring it along the work's axis to ${tell(fromCentre, { unit, limit: position })} from where the sphere's centre shall lie, on the side of the free end, ${plusMinus(position, unit)}, and touch the free stem with it on the spindle's side, ${plusMinus(miss, unit)}. Set the dial of the spindle's feed to zero ${where}: the finished feed will end at zero. Draw the tool back along the spindle.`;
  },
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
    return say`Turning the work slowly, feed along the spindle in small steps until ${tell(left, { unit, limit: per })} are left to the zero of its dial: by the settings the ball then measures ${tell(diameter, { unit, limit })}.`;
  },
  'rough-along-work': (values: { unit: Unit; table: Table; fed: number; leave: number; limit: number }): string => {
    const { unit, table, fed, leave, limit } = values;
    return say`Turning the work slowly, ${DEEPER[table]} in small steps to ${tell(fed, { unit, limit })} from zero: ${tell(leave, { unit })} are left.`;
  },
  size: ({ unit, diameterLimit }: { unit: Unit; diameter: number; diameterLimit: number }): string =>
    say`${WIDE}, ${plusMinus(diameterLimit, unit)}.`,
  'size-and-pip': (values: {
    unit: Unit;
    table: Table;
    diameter: number;
    pip: number;
    diameterLimit: number;
  }): string => {
    const { unit, table, diameter, pip, diameterLimit } = values;
    const told = (value: number): string => tell(value, { unit, limit: diameterLimit });
    const stands = table === 'flat' ? 'to the right of' : 'above';
    return say`${WIDE}, and the pip at the free end, ${plusMinus(diameterLimit, unit)}. The ball must measure ${told(diameter)}. The pip must be there and measure ${told(pip)}: the tip still stops short of the centre, ${stands} it.`;
  },
  'size-and-flat': (values: { unit: Unit; diameter: number; flat: number; diameterLimit: number }): string => {
    const { unit, diameter, flat, diameterLimit } = values;
    const told = (value: number): string => tell(value, { unit, limit: diameterLimit });
    return say`${WIDE}, and the flat at the free end, ${plusMinus(diameterLimit, unit)}. The ball must measure ${told(diameter)}, the flat ${told(flat)}.`;
  },
  'size-and-depth': (values: {
    unit: Unit;
    side: Side;
    depth: number;
    diameter: number;
    diameterLimit: number;
    depthLimit: number;
  }): string => {
    const { unit, side, depth, diameter, diameterLimit, depthLimit } = values;
    const deep = tell(depth, { unit, limit: depthLimit });
    const [where, what, at] =
      side === 'ball'
        ? ['where the dome ends', 'its height there, from the pole', 'height']
        : ['of the opening', 'the depth', 'depth'];
    return say`Stop spindle and table. Measure the diameter ${where}, ${plusMinus(diameterLimit, unit)}, and ${what}, ${plusMinus(depthLimit, unit)}: by the settings it is ${tell(diameter, { unit, limit: diameterLimit })} at a ${at} of ${deep}. Look for a pip in the middle: there must be none.`;
  },
  'sweep-and-distance': (values: {
    unit: Unit;
    diameter: number;
    perDiameter: number;
    sweepRadiusChange: number;
    distanceChange: number;
  }): string => {
    const { unit, diameter, perDiameter, sweepRadiusChange, distanceChange } = values;
    const over = tell(diameter, { unit, limit: perDiameter });
    return say`${BEFORE_MOVING} For every ${size(perDiameter, unit)} that the ball measures over ${over}, ${sweepAndFeed(unit, sweepRadiusChange, distanceChange)}. Under: as much the other way.`;
  },
  pip: (values: {
    unit: Unit;
    per: number;
    pip: number;
    limit: number;
    sweepRadiusChange: number;
    distanceChange: number;
  }): string => {
    const { unit, per, pip, limit, sweepRadiusChange, distanceChange } = values;
    return say`A pip as it must be goes with the rest of the feed: move nothing for it. For every ${tell(per, { unit })} that it is wider than ${tell(pip, { unit, limit })}, ${sweepAndFeed(unit, sweepRadiusChange, distanceChange)}, beside the change for the size. Narrower: as much the other way.`;
  },
  flat: (values: { unit: Unit; per: number; flat: number; limit: number; deeper: number; table: Table }): string => {
    const { unit, per, flat, limit, deeper, table } = values;
    return say`With the ball as it must be, for every ${tell(per, { unit })} that the flat is wider than ${tell(flat, { unit, limit })}, ${DEEPER[table]} by ${size(deeper, unit)}. Narrower: ${BACK[table]} by as much.`;
  },
  'pip-either-way': ({ side, table }: { side: Side; table: Table }): string =>
    say`If there is a pip, turn the tip by hand to ${pole(side, table)} and see where it stands: at the edge of the pip. First ${BACK[table]} until the sweep is clear, then ${ACROSS[table]} by half the pip's diameter, so that the tip comes over the pip's middle.`,
  'tilt-again': (values: {
    unit: Unit;
    per: number;
    radius: number;
    limit: number;
    tiltChangeDeg: number;
    towards: 'towards' | 'away from';
  }): string => {
    const { unit, per, radius, limit, tiltChangeDeg, towards } = values;
    const change = tell(60 * Math.abs(tiltChangeDeg), { unit: '′', limit: 60 * Math.abs(tiltChangeDeg) });
    return say`The radius is the diameter squared, divided by 8 times the depth, and half the depth on top. With the sweep clear of the work, for every ${tell(per, { unit })} that it is over ${tell(radius, { unit, limit })} tilt the head by ${change} ${towards} upright, by the indicator. Under: as much the other way. Set the tip over the centre and touch again.`;
  },
  'feed-along-spindle': (_values: Record<never, never>): string =>
    'Turning the work slowly, feed along the spindle to the zero of its dial, or as far from it as the corrections say.',
  'feed-along-work': (values: { unit: Unit; table: Table; total: number; limit: number }): string => {
    const { unit, table, total, limit } = values;
    return say`Turning the work slowly, ${DEEPER[table]} to ${tell(total, { unit, limit })} from zero.`;
  },
} as const;
