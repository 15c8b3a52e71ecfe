/**
 * Sentences of the steps of a tilted sweep, by code, made of their actions. Directions are those of the mill's frame
 * in docs/conventions.md: seen from the front, a level work axis with the free end on the right, a flat table with the
 * free end up.
 */
import { say } from '../../core/words.js';
import { held, locking, moving, told, toldHeld } from '../../method/action-words.js';
import type {
  Amount,
  Clear,
  Correct,
  Feed,
  Indicate,
  Measure,
  Move,
  Provide,
  Reckon,
  Repeat,
  Secure,
  SetReading,
  Touch,
  Turn,
  Withdraw,
  Zero,
} from '../../method/actions.js';
import { nearest, sides, turned } from '../mill-words.js';

/** A zero that a dial is told. */
type Found = Zero & { readonly reads: Amount };

/** What is done about a sweep and a feed that were found off. */
export interface Changes {
  readonly unlock?: Secure;
  readonly sweep?: Correct;
  readonly lock?: Secure;
  readonly feed?: Correct;
}

/** The finished feed, as a dial along the spindle tells it. */
const ZERO = "let the dial of the spindle's feed read zero there: the finished feed will end at zero";
const WIDE = 'Stop spindle and table. Measure the ball at its widest place, at several places round';
const OVER = 'over the centre of the slowly turned work';
const MARK = 'a centre mark must neither widen nor keep a ring';

function changed({ unlock, sweep, lock, feed }: Changes): string {
  const parts = [
    sweep && unlock && lock
      ? say`${moving(sweep)} by ${told(sweep.by)} on its dial (${locking(unlock)}, and ${locking(lock)} again)`
      : '',
    feed ? say`feed ${told(feed.by)} ${feed.way === 'forward' ? 'further' : 'less far'} than to zero` : '',
  ];
  return parts.filter((part) => part !== '').join(' and ');
}

/** Of stock that was stated and is too small. */
function tooSmall(stated: Amount | undefined): string {
  return stated === undefined ? '' : say` The stock stated, ${told(stated)}, is too small for this trial.`;
}

function cuts({ each }: Feed): string {
  return each ? say` in cuts of at most ${told(each)}` : ' in light cuts';
}

/** What to do, in sentences. */
export const WORDS = {
  'axes-meet': ({ hold, plane, lock }: { hold: Secure; plane: Found; lock: Secure }): string =>
    say`Clamp the rotary table with its axis ${hold.way === 'up' ? 'upright, the free end up' : 'level, the free end on the right seen from the front'}, the work running true on it. Bring the table's axis and the spindle's into one plane, ${held(plane.reads)}, by an indicator in the spindle before the head is tilted: only where the two axes meet is the cut a sphere. Then ${locking(lock)}.`,
  stock: ({ stock, face, stated }: { stock: Provide; face: Provide; stated: Amount | undefined }): string =>
    say`Take stock that is at least ${told(stock.size)} across, and leave ${told(face.size)} on the end face beyond the finished pole: the trial shows itself there.${tooSmall(stated)}`,
  'stock-with-flat': ({ stock, stated }: { stock: Provide; stated: Amount | undefined }): string =>
    say`Take stock that is at least ${told(stock.size)} across, and face its free end to length.${tooSmall(stated)}`,
  'stock-with-stems': (values: {
    stock: Provide;
    freeStem: Provide;
    stem: Provide;
    stated: Amount | undefined;
  }): string => {
    const { stock, freeStem, stem, stated } = values;
    const at = ({ at: begins }: Provide): string => (begins ? told(begins) : '');
    return say`Take stock that is at least ${told(stock.size)} across. Turn the free stem first, to ${told(freeStem.size)}, as far as a shoulder ${at(freeStem)} from the sphere's centre, then the held one, to ${told(stem.size)}; it begins ${at(stem)} on the other side of that centre.${tooSmall(stated)}`;
  },
  tilt: ({ head, lock }: { head: SetReading; lock: Secure }): string => say`${turned(head)}, and ${locking(lock)}.`,
  indicator: (values: { needle: Indicate; unlock: Secure; again: Correct; lock: Secure }): string => {
    const { needle, unlock, again, lock } = values;
    const { against, travel, sense } = needle;
    const rests =
      against === 'level-face'
        ? 'a level block on the table, its plunger upright'
        : 'the upright side of a square that stands on its left, its plunger level';
    const does =
      sense === 'still'
        ? 'stand still'
        : say`${sense === 'in' ? 'be pushed in' : 'come out'} by ${told(needle.needle)}`;
    const off = sense === 'still' ? 'is pushed in' : again.off === 'too-small' ? 'moves less' : 'moves more';
    return say`Prove this tilt with an indicator on the quill, against ${rests}: while the quill goes ${told(travel)} down the plunger must ${does}, ${held(needle.needle)}. If not, ${locking(unlock)}; for every ${told(again.per)} that it ${off} ${moving(again)} by ${told(again.by)}, the other way: as much back; ${locking(lock)} and prove it again.`;
  },
  'sine-bar': (values: {
    bar: Provide;
    blocks: Provide;
    needle: Indicate;
    unlock: Secure;
    again: Correct;
    lock: Secure;
  }): string => {
    const { bar, blocks, needle, unlock, again, lock } = values;
    const on =
      needle.against === 'sine-bar'
        ? 'the top of the bar, its plunger square to it,'
        : 'the upright side of a square that stands on the bar, on its left,';
    return say`Set this tilt by a sine bar of ${told(bar.size)} across the table, ${told(blocks.size)} of gauge blocks under its ${blocks.way ?? ''} roller: while the quill goes ${told(needle.travel)} down along ${on} an indicator on it must stand still, ${held(needle.needle)}. If not, ${locking(unlock)}; for every ${told(again.per)} that it is pushed in ${moving(again)} by ${told(again.by)}, the other way: as much back; ${locking(lock)} and prove it again.`;
  },
  sweep: ({ set, lock }: { set: SetReading; lock: Secure }): string => {
    const { reading, exact } = set;
    const nearestTo =
      exact === undefined
        ? ''
        : say`, the graduation nearest to ${told({ ...reading, value: exact, step: undefined })}`;
    return say`Set the boring head to ${told(reading)} on its dial${nearestTo}, coming up from ${set.from ?? 'below'}, and ${locking(lock)}.`;
  },
  'test-ring': (values: {
    cut: 'turn' | 'bore';
    ring: Measure;
    unlock: Secure;
    again: Correct;
    lock: Secure;
  }): string => {
    const { cut, ring, unlock, again, lock } = values;
    return say`Let the same tool ${cut} a test ring about the spindle's axis: it must measure ${told(ring.must)}, ${held(ring.must)}. If not, ${locking(unlock)}, for every ${told(again.per)} that it is too large ${moving(again)} by ${told(again.by)} on the dial, too small: as much the other way; ${locking(lock)} again.`;
  },
  'place-for-spindle-feed': (values: {
    turn: Turn;
    centre: Found;
    touch: Touch;
    zero: Found;
    draw: Withdraw;
    deeper: Move;
    lock: Secure;
    lockHeight: Secure;
  }): string => {
    const { turn, centre, touch, draw, deeper, lock, lockHeight } = values;
    return say`Turn the tip by hand to ${nearest(turn)}, and set it there ${OVER}, ${held(centre.reads)}: ${MARK}. ${capital(moving(touch))} until it touches the end face, and ${ZERO}. ${capital(moving(draw))} until it is clear, then ${moving(deeper)} by ${told(deeper.by)}, ${held(deeper.by)}, on in the same direction; ${locking(lock)} and ${locking(lockHeight)}.`;
  },
  'place-for-work-feed': (values: {
    lockFeed: Secure;
    turn: Turn;
    centre: Found;
    lock: Secure;
    touch: Touch;
    zero: Found;
    draw: Withdraw;
  }): string => {
    const { lockFeed, turn, centre, lock, touch, draw } = values;
    return say`${capital(locking(lockFeed))}. Turn the tip by hand to ${nearest(turn)}, and set it there ${OVER}, ${held(centre.reads)}: ${MARK}. Then ${locking(lock)}. ${capital(moving(touch))} until it touches the end face, and let the dial of this movement read zero. Now ${moving(draw)} until the whole sweep is clear of the work.`;
  },
  'place-at-flat': (values: {
    turn: Turn;
    centre: Found;
    clear: Withdraw;
    across: Move;
    touch: Touch;
    zero: Found;
    draw: Withdraw;
    further?: Move;
    lock: Secure;
    lockHeight: Secure;
  }): string => {
    const { turn, centre, clear, across, touch, draw, further, lock, lockHeight } = values;
    const then = further ? say`, then ${moving(further)} by ${toldHeld(further.by)}` : '';
    return say`Turn the tip by hand to ${nearest(turn)}, and set it there ${OVER}, ${held(centre.reads)}. ${capital(moving(clear))} until it is clear, then ${moving(across)} by ${told(across.by)}, so that the tip stands at the edge of the flat. ${capital(moving(touch))} until it touches the end face there, and ${ZERO}. ${capital(moving(draw))} until it is clear${then}; ${locking(lock)} and ${locking(lockHeight)}.`;
  },
  'place-at-stem': (values: {
    turn: Turn;
    shoulder: Touch;
    along: Move;
    stem: Touch;
    back?: Move;
    zero: Found;
    draw: Withdraw;
    lock: Secure;
    lockHeight: Secure;
  }): string => {
    const { turn, shoulder, along, stem, back, zero, draw, lock, lockHeight } = values;
    const where =
      back !== undefined
        ? say`${moving(back)} by ${told(back.by)} and let the dial of the spindle's feed read zero there`
        : zero.reads.value > 0
          ? say`let the dial of the spindle's feed read there that ${told(zero.reads)} are left to zero`
          : "let the dial of the spindle's feed read zero there";
    return say`Turn the tip by hand to ${nearest(turn)}. Beside the free stem, on the spindle's side, ${moving(shoulder)} until the tip touches the shoulder where that stem begins, and ${moving(along)} by ${told(along.by)}, ${held(along.by)}. ${capital(moving(stem))} until the tip touches the stem, ${stem.within ? held(stem.within) : ''}. Then ${where}: the finished feed will end at zero. ${capital(moving(draw))} until it is clear; ${locking(lock)} and ${locking(lockHeight)}.`;
  },
  'clear-sweep': (_values: { spindle: Clear; table: Clear }): string =>
    'With the power off turn the spindle by hand through a whole turn, and the work too: head, tool and clamps must clear work and table everywhere.',
  'rough-along-spindle': ({ feed }: { feed: Feed }): string => {
    const meets = feed.from ? say`; the tool first meets the stock where ${told(feed.from)} are left` : '';
    return say`Turning the work slowly, ${moving(feed)}${cuts(feed)} until ${feed.to ? told(feed.to) : ''} are left to the zero of its dial${meets}.`;
  },
  'rough-along-work': ({ feed }: { feed: Feed }): string =>
    say`Turning the work slowly, ${moving(feed)}${cuts(feed)} to ${feed.to ? told(feed.to) : ''} from zero.`,
  size: ({ diameter }: { diameter: Measure }): string =>
    say`${WIDE}: it must be ${told(diameter.must)}, ${held(diameter.must)}.`,
  'size-and-pip': ({ diameter, pip }: { diameter: Measure; pip: Measure }): string =>
    say`${WIDE}: it must be ${told(diameter.must)}, ${held(diameter.must)}. Measure the pip at the free end: it must be there, ${told(pip.must)} across, ${held(pip.must)}: the tip still stops short of the centre, ${sides(pip.way)} it.`,
  'size-and-flat': ({ diameter, flat }: { diameter: Measure; flat: Measure }): string =>
    say`${WIDE}: it must be ${told(diameter.must)}, ${held(diameter.must)}. Measure the flat at the free end: it must be ${told(flat.must)} across, ${held(flat.must)}.`,
  'size-and-depth': (values: { depth: Measure; diameter: Measure; radius: Reckon; pip: Measure }): string => {
    const { depth, diameter, radius, pip } = values;
    const [where, what, at] =
      diameter.what === 'base'
        ? ['where the dome ends', 'its height there, from the pole', 'height']
        : ['of the opening', 'the depth', 'depth'];
    return say`Stop spindle and table. Measure ${what}, ${held(depth.must)}, and the diameter ${where}, ${held(diameter.must)}: by the settings it is ${told(diameter.must)} at a ${at} of ${told(depth.must)}. The radius is the diameter squared, divided by 8 times the ${at}, and half the ${at} on top: it must be ${told(radius.must)}, ${held(radius.must)}. Look for a pip in the middle: there must be none, ${held(pip.must)}.`;
  },
  'sweep-and-distance': ({ draw, ...changes }: { draw: Withdraw } & Changes): string => {
    const per = changes.sweep ?? changes.feed;
    return say`If it measures otherwise: ${moving(draw)} before anything else is moved. For every ${per ? told(per.per) : ''} that the ball is larger, ${changed(changes)}. Smaller: as much the other way.`;
  },
  pip: ({ draw, ...changes }: { draw: Withdraw } & Changes): string => {
    const per = changes.sweep ?? changes.feed;
    return say`A pip as it must be goes with the rest of the feed: move nothing for it. If it is otherwise: ${moving(draw)} first. For every ${per ? told(per.per) : ''} that it is wider than it must be, ${changed(changes)}, beside the change for the size. Narrower: as much the other way.`;
  },
  flat: (values: { draw: Withdraw; unlock: Secure; deeper: Correct; lock: Secure }): string => {
    const { draw, unlock, deeper, lock } = values;
    return say`With the ball as it must be and the flat not, ${moving(draw)} and ${locking(unlock)}; for every ${told(deeper.per)} that it is wider ${moving(deeper)} by ${told(deeper.by)}, narrower: as much the other way; ${locking(lock)} again.`;
  },
  'pip-either-way': (values: { turn: Turn; draw: Withdraw; unlock: Secure; across: Correct; lock: Secure }): string => {
    const { draw, turn, unlock, across, lock } = values;
    return say`If there is a pip, turn the tip by hand to ${nearest(turn)}, and see where it stands: at the edge of the pip. Then ${moving(draw)} until the sweep is clear and ${locking(unlock)}. If the tip stands ${sides(across.way)} the pip's middle, ${moving(across)} by ${told(across.by)} for every ${told(across.per)} of the pip's diameter, on the other side: as much the other way; ${locking(lock)} again.`;
  },
  'tilt-again': (values: {
    draw: Withdraw;
    unlock: Secure;
    tilt: Correct;
    lock: Secure;
    free: Secure;
    again: Repeat;
  }): string => {
    const { draw, unlock, tilt, lock, free } = values;
    return say`If the radius is otherwise, ${moving(draw)} until the sweep is clear and ${locking(unlock)}: for every ${told(tilt.per)} that it is larger ${moving(tilt)} by ${told(tilt.by)}, by the indicator; smaller: as much the other way; ${locking(lock)} again. Then ${locking(free)}, set the tip over the centre and touch again, as before.`;
  },
  'feed-along-spindle': ({ feed }: { feed: Feed }): string =>
    say`Turning the work slowly, ${moving(feed)} to ${feed.to ? zeroOr(feed.to) : ''} of its dial, or as far from it as the corrections say.`,
  'feed-along-work': ({ feed }: { feed: Feed }): string =>
    say`Turning the work slowly, ${moving(feed)}${cuts(feed)} to ${feed.to ? told(feed.to) : ''} from zero.`,
} as const;

function zeroOr(to: Amount): string {
  return to.value === 0 ? 'the zero' : say`${told(to)} before the zero`;
}

function capital(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}
