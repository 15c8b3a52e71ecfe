/** Sentences of the steps of a swivelling tool, by code, made of their actions. */
import { say } from '../../core/words.js';
import { held, locking, moving, told } from '../../method/action-words.js';
import type {
  Amount,
  Clear,
  Correct,
  Feed,
  Indicate,
  Measure,
  Provide,
  Reckon,
  Secure,
  SetReading,
  Touch,
  Turn,
  Withdraw,
  Zero,
} from '../../method/actions.js';

type Found = Zero & { readonly reads: Amount };

/** The carriage where the swing belongs. */
interface Placed {
  readonly turn: Turn;
  readonly touch: Touch;
  readonly zero: Found;
  readonly draw: Withdraw;
  readonly set: SetReading;
  readonly lock: Secure;
}

const COLD = 'Stop the spindle.';

/** What to do, in sentences. */
export const WORDS = {
  stock: (values: { stock: Provide; face?: Provide; freeStem?: Provide; stem?: Provide }): string => {
    const { stock, face, freeStem, stem } = values;
    const at = ({ at: begins }: Provide): string => (begins ? told(begins) : '');
    const more =
      freeStem && stem
        ? say`. Turn the free stem first, to ${told(freeStem.size)}, as far as a shoulder ${at(freeStem)} from the sphere's centre, then the held one, to ${told(stem.size)}; it begins ${at(stem)} on the other side of that centre`
        : face
          ? say`, and leave ${told(face.size)} on the end face beyond the finished pole`
          : ', and face its free end to length';
    return say`Take stock that is at least ${told(stock.size)} across${more}.`;
  },
  drill: ({ hole }: { hole: Provide }): string =>
    say`Drill the middle first, a hole of at most ${told(hole.size)}, its point at most ${hole.at ? told(hole.at) : ''} deep.`,
  'tool-height': ({ height }: { height: Found }): string =>
    say`Bring the tip of the tool to the height of the work's axis, ${held(height.reads)}.`,
  'swivel-centre': (values: { centre: Found; lock: Secure }): string =>
    say`Bring the swivel's centre under the work's axis, ${held(values.centre.reads)}, and ${locking(values.lock)}.`,
  indicator: (values: { needle: Indicate; unlock: Secure; again: Correct; lock: Secure }): string => {
    const { needle, unlock, again, lock } = values;
    return say`Prove it with a true cylinder in the spindle and an indicator on the swivel: swung through ${told(needle.travel)} from your side of the cylinder to the far one it must read the same, ${held(needle.needle)}. If not, ${locking(unlock)}; for every ${told(again.per)} that it is pushed in more on the far side ${moving(again)} by ${told(again.by)}, less: as much the other way; ${locking(lock)} and prove it again.`;
  },
  'swivel-radius': ({ set }: { set: SetReading }): string =>
    say`Set the tip ${told(set.reading)} from the swivel's centre for the trial, ${held(set.reading)}.`,
  'place-at-pole': (values: Placed): string => {
    const { turn, touch, draw, set, lock } = values;
    const looks = turn.way === 'tailstock' ? 'towards the tailstock' : 'towards the headstock';
    return say`Swing the tip into line with the axis, on the side ${looks}. ${capital(moving(touch))} until it touches the end face in the middle, and let the carriage's dial read zero. ${capital(moving(draw))} until it is clear and swing the tip aside; then set the carriage ${told(set.reading)} ${past(set)}, ${held(set.reading)}, and ${locking(lock)}.`;
  },
  'place-at-shoulder': (values: Placed): string => {
    const { touch, draw, set, lock } = values;
    return say`Swing the tip square to the axis, on your side. ${capital(moving(touch))} until it touches the shoulder where the free stem begins, and let the carriage's dial read zero. ${capital(moving(draw))} until it is clear and swing the tip aside; then set the carriage ${told(set.reading)} ${past(set)}, ${held(set.reading)}, and ${locking(lock)}.`;
  },
  stops: ({ first, last }: { first: SetReading; last: SetReading }): string =>
    say`Set stops for the swing: from ${told(first.reading)} to ${told(last.reading)}, each ${held(first.reading)}, counted from the axis on the side of the ${first.way === 'tailstock' ? 'tailstock' : 'headstock'}, through your side.`,
  'clear-sweep': (_values: { tool: Clear }): string =>
    'With the power off swing the tool by hand from stop to stop: it must clear chuck, stem and slide.',
  rough: ({ feed }: { feed: Feed }): string => {
    const from = feed.from ? say` from ${told(feed.from)}, where it first touches,` : '';
    return say`Swing by hand from stop to stop, and ${moving(feed)}${from} by at most ${feed.each ? told(feed.each) : ''} for each swing, until the tip is ${feed.to ? told(feed.to) : ''} from the centre and cuts all over.`;
  },
  'size-aslant': (values: { diameter: Measure; aslant: Measure; difference: Reckon }): string => {
    const { diameter, aslant, difference } = values;
    return say`${COLD} Measure the ball across at its widest place: it must be ${told(diameter.must)}, ${held(diameter.must)}. Measure it with the micrometer leaning 45° to the axis too: ${told(aslant.must)}, ${held(aslant.must)}. Both must be the same, ${held(difference.must)}.`;
  },
  size: ({ diameter }: { diameter: Measure }): string =>
    say`${COLD} Measure the ball across at its widest place: it must be ${told(diameter.must)}, ${held(diameter.must)}.`,
  'size-and-depth': ({ depth, diameter, radius }: { depth: Measure; diameter: Measure; radius: Reckon }): string => {
    const dome = diameter.what === 'base';
    const [where, what, at] = dome
      ? ['where the dome ends', 'its height there, from the pole', 'height']
      : ['of the opening', 'the depth', 'depth'];
    return say`${COLD} Measure ${what}, ${told(depth.must)}, ${held(depth.must)}, and the diameter ${where}, ${told(diameter.must)}, ${held(diameter.must)}. The radius is the diameter squared, divided by 8 times the ${at}, and half the ${at} on top: it must be ${told(radius.must)}, ${held(radius.must)}.`;
  },
  'radius-and-centre': (values: {
    size: Correct;
    unlock?: Secure;
    centre?: Correct;
    lock?: Secure;
    radius?: Correct;
  }): string => {
    const { size, unlock, centre, lock, radius } = values;
    const what = size.measured === 'radius' ? 'radius' : 'diameter across';
    const aslant =
      unlock && centre && lock && radius
        ? say` If it is not the same aslant, ${locking(unlock)}; for every ${told(centre.per)} that it is larger across ${moving(centre)} by ${told(centre.by)} and ${moving(radius)} by ${told(radius.by)} beside that, smaller: as much the other way; ${locking(lock)} again.`
        : '';
    return say`If it measures otherwise: for every ${told(size.per)} that the ${what} is larger ${moving(size)} by ${told(size.by)}, smaller: as much the other way.${aslant}`;
  },
  'swing-to-size': ({ feed }: { feed: Feed }): string =>
    say`Swing by hand from stop to stop, and ${moving(feed)} by at most ${feed.each ? told(feed.each) : ''} for each swing, until the tip is ${feed.to ? told(feed.to) : ''} from the centre, or as far as the corrections say.`,
} as const;

function past({ way }: SetReading): string {
  return way === 'headstock' ? 'past zero, towards the headstock' : 'short of zero, towards the tailstock';
}

function capital(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}
