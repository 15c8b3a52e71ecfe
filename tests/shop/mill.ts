/**
 * A mill in space: seen from the front, x to the right, y away, z up. A head that tilts, a quill, a boring head, a
 * table that goes left and right, in and out, up and down, and on it a rotary table, flat or upright. Whatever no
 * action has set stands somewhere wrong, and whatever is not locked creeps while something is fed.
 */
import type { Control, SphereTarget, Way } from 'generatrix';
import { drawingOf, inside, judged, judgedStops, type Stop, type Verdict } from './part.js';
import { type Bench, Mishap } from './person.js';
import { dot, length, type Place, plus, radians, revolved, sphereThrough, type V } from './space.js';

/** How far off things are: drawn anew each time that one is set. Lengths in the job's unit. */
export interface MillErrors {
  /** Seen by the needle, and not. */
  readonly nearTiltDeg: () => number;
  readonly headTiltDeg: () => number;
  readonly sweepRadius: () => number;
  readonly miss: () => number;
  readonly skew: () => number;
  readonly position: () => number;
  /** Of a boring head or a feed that is changed after measuring. */
  readonly sweepChange: () => number;
  readonly feedChange: () => number;
  readonly headChange: () => number;
  /** Of instruments. */
  readonly diameter: () => number;
  readonly length: () => number;
}

const NONE = (): number => 0;
export const NO_ERRORS: MillErrors = {
  nearTiltDeg: NONE,
  headTiltDeg: NONE,
  sweepRadius: NONE,
  miss: NONE,
  skew: NONE,
  position: NONE,
  sweepChange: NONE,
  feedChange: NONE,
  headChange: NONE,
  diameter: NONE,
  length: NONE,
};

/** What the mill is, as the job states it. */
export interface MillOf {
  readonly target: SphereTarget;
  readonly unit: 'mm' | 'in';
  /** Whether the boring head's dial counts on the diameter. */
  readonly dial: 'radius' | 'diameter';
}

const WAYS: Partial<Record<Way, V>> = {
  left: [-1, 0, 0],
  right: [1, 0, 0],
  up: [0, 0, 1],
  down: [0, 0, -1],
  operator: [0, -1, 0],
  'away-from-operator': [0, 1, 0],
};
const MOVES: Partial<Record<Control, readonly Way[]>> = {
  table: ['left', 'right'],
  knee: ['up', 'down'],
  saddle: ['operator', 'away-from-operator'],
};
const SLIDES: readonly Control[] = ['table', 'saddle', 'knee', 'quill', 'head', 'boring-head'];
/** Points of a turn of the sweep. */
const POINTS = 120;

/** A mill with a part on it, and how the part came out. */
export interface Mill extends Bench {
  readonly verdict: () => Verdict;
  /** What a sweep has left. */
  readonly left: () => readonly Place[];
}

export function mill({ target, unit, dial }: MillOf, hidden: MillErrors): Mill {
  const drawing = drawingOf(target);
  const mm = unit === 'mm' ? 1 : 1 / 25.4;
  const big = 4 * drawing.radius;
  const made = new Map<
    string,
    { readonly size: number; readonly at: number | undefined; readonly way: Way | undefined }
  >();
  const locked = new Set<Control>();
  const zeros = new Map<Control, number>();
  /** Every pass: where the points of the sweep passed in the work. */
  const passes: Place[][] = [];

  let axis: V | undefined;
  // Nothing is where it should be until somebody has set it.
  let lean = radians(11);
  /** What no needle shows. */
  let leanError = 0;
  let reading = drawing.radius * 0.7;
  let sweepError = 0;
  let work: V = [0, 3.3 * mm, 0];
  let quill = 0;
  let place: Way | undefined;
  /** What the edge rests against. */
  let against: string | undefined;

  const times = dial === 'diameter' ? 2 : 1;
  const radius = (): number => reading / times + sweepError;
  const spindle = (unseen = leanError): V => [Math.sin(lean + unseen), 0, Math.cos(lean + unseen)];
  const acrossSpindle = (): V => [Math.cos(lean + leanError), 0, -Math.sin(lean + leanError)];
  const free = (): V => axis ?? fail('the work is not clamped');
  /** Square to the work's axis in the plane of the head, on the spindle's side. */
  const side = (): V => {
    const a = free();
    const across = plus(spindle(), a, -dot(spindle(), a));
    // Axes in line have no side: the one that the others would have.
    if (length(across) < 1e-12) return a[2] === 1 ? [1, 0, 0] : [0, 0, 1];
    return plus([0, 0, 0], across, 1 / length(across));
  };
  const centre = (): V => plus([0, 0, 0], spindle(), quill);
  const tip = (): V => {
    if (!place) return fail('nobody has turned the tip to a place');
    const u = acrossSpindle();
    const sign = Math.sign(dot(u, WAYS[place] ?? fail(`no ${place} on a sweep`)));
    if (sign === 0) return fail(`no place ${place} on this sweep`);
    return plus(centre(), u, sign * radius());
  };
  /** Moves the work so that the tip comes to a height and a distance on the spindle's side. */
  const bring = (to: { readonly along?: number; readonly across?: number }): void => {
    const from = plus(tip(), work, -1);
    if (to.along !== undefined) work = plus(work, free(), dot(from, free()) - to.along);
    if (to.across !== undefined) work = plus(work, side(), dot(from, side()) - to.across);
  };
  const face = (): number => {
    if (drawing.side === 'socket') return drawing.free.z;
    return drawing.free.z + (drawing.freeIs === 'pole' ? (made.get('face-stock')?.size ?? 0) : 0);
  };
  const stockRadius = (): number => (made.get('stock')?.size ?? 2 * big) / 2;

  function fail(why: string): never {
    throw new Mishap(why);
  }

  function free_(control: Control): void {
    if (locked.has(control)) fail(`${control} is locked`);
  }

  /** The movement of a slide of the table. */
  function movement(control: Control, way: Way): V {
    if (!MOVES[control]?.includes(way)) fail(`${control} does not go ${way}`);
    free_(control);
    return WAYS[way] ?? fail(way);
  }

  /** A ball end from stop to stop. */
  let stops: Stop[] = [];
  let ridges = { leaves: 0, cutter: 0 };
  let shift = 0;
  let offset = 0;
  let touchedAt = 0;

  /** Where the sweep passes in the work. */
  function ring(points = POINTS): Place[] {
    const [u, v, c, r] = [acrossSpindle(), [0, 1, 0] as const, centre(), radius()];
    return Array.from({ length: points }, (_, i) => {
      const t = (2 * Math.PI * i) / points;
      return revolved(plus(plus(c, u, r * Math.cos(t)), v, r * Math.sin(t)), work, free());
    });
  }

  function inStock({ rho, z }: Place): number {
    if (drawing.side === 'socket') return face() - z;
    return Math.min(stockRadius() - rho, face() - z);
  }

  /** Whatever is not locked creeps. */
  function creep(fed: Control): void {
    const step = 0.3 * mm;
    for (const one of SLIDES) {
      if (one === fed || locked.has(one)) continue;
      if (one === 'head') lean += radians(0.3);
      else if (one === 'boring-head') sweepError += step;
      else if (one === 'quill') quill -= step;
      else work = plus(work, WAYS[(MOVES[one] ?? [])[1] as Way] as V, step);
    }
  }

  /** What is left of the ball, or of the socket: of two places at one height the nearer to the axis, or the farther. */
  function surface(): Place[] {
    const last = passes[passes.length - 1] ?? fail('nothing is cut');
    const choose = drawing.side === 'ball' ? Math.min : Math.max;
    return last.slice(0, POINTS / 2 + 1).map(({ rho, z }, i) => {
      const other = last[(POINTS - i) % POINTS] as Place;
      return { rho: choose(rho, other.rho), z };
    });
  }

  /** The widest place of a ball: of both halves of the sweep the narrower stands, each at the top of a parabola. */
  function widest(): number {
    const [fine, half] = [ring(1440), 720];
    const top = (from: number): number => {
      const rho = fine.slice(from, from + half + 1).map((place) => place.rho);
      const at = Math.min(Math.max(1, rho.indexOf(Math.max(...rho))), rho.length - 2);
      const [a, b, c] = [rho[at - 1], rho[at], rho[at + 1]] as [number, number, number];
      return b - (a - c) ** 2 / (8 * (a - 2 * b + c));
    };
    fine.push(fine[0] as Place);
    return Math.min(top(0), top(half));
  }

  /** The pip, negative where the tip has passed the middle. */
  function pip(): number {
    const from = plus(tip(), work, -1);
    const rho = length(plus(from, free(), -dot(from, free())));
    return 2 * rho * (dot(from, side()) < 0 ? -1 : 1);
  }

  const sine = (cosine: number): number => Math.sqrt(Math.max(0, 1 - cosine ** 2));

  function sizeOf(what: string): number {
    if (stops.length > 0) {
      if (what === 'radius') return drawing.radius;
      if (what === 'form') return 0;
      const out = drawing.side === 'ball' ? 1 : -1;
      // At the height where each pass touches the sphere.
      const { cutter } = ridges;
      return 2 * Math.max(...stops.map(({ rho, z }) => rho - out * cutter * sine(z / (drawing.radius + out * cutter))));
    }
    if (what === 'ring') return 2 * radius();
    if (what === 'pip') return pip();
    const left = surface();
    const fit = sphereThrough(left);
    const chordAt = (z: number): number => 2 * Math.sqrt(Math.max(0, fit.radius ** 2 - (z - fit.centre) ** 2));
    const heights = left.map(({ z }) => z);
    switch (what) {
      case 'diameter':
        return 2 * widest();
      case 'flat':
      case 'opening':
        return chordAt(face());
      case 'depth':
        return face() - Math.min(...heights);
      case 'base':
        return 2 * stockRadius();
      case 'height':
        return fit.radius - Math.sqrt(Math.max(0, fit.radius ** 2 - stockRadius() ** 2));
      case 'radius':
        return fit.radius;
      case 'form': {
        const distances = left.map(({ rho, z }) => Math.hypot(rho, z - fit.centre));
        return Math.max(...distances) - Math.min(...distances);
      }
      default:
        return fail(`nobody can measure ${what} here`);
    }
  }

  const LENGTHS = ['depth', 'height'];

  return {
    secure: ({ do: how, what, way }) => {
      if (how === 'clamp' && what === 'rotary-table') axis = WAYS[way as Way] ?? fail('clamped nowhere');
      else if (how === 'lock') locked.add(what);
      else if (how === 'unlock') {
        if (!locked.delete(what)) fail(`${what} was not locked`);
      }
    },
    provide: ({ what, size, at, way }) => {
      made.set(what, { size: size.value, at: at?.value, way });
    },
    turn: ({ control, way }) => {
      if (control !== 'spindle') fail(`nobody turns ${control}`);
      place = way;
      tip();
    },
    zero: ({ control, where, reads }) => {
      free_(control);
      if (where === 'axes-in-one-plane') {
        if (control !== 'saddle') fail(`${control} does not bring axes into one plane`);
        work = [work[0], (reads?.value ?? 0) - hidden.skew(), work[2]];
      } else if (where === 'over-centre') {
        if (Math.abs(dot(WAYS[(MOVES[control] ?? [])[0] as Way] ?? [0, 0, 0], free())) > 0) fail(`${control} is along`);
        if (made.has('cutter')) {
          // The table's move and the tool's place are told apart by the dial alone.
          offset = hidden.miss();
          zeros.set(control, reads?.value ?? 0);
          return;
        }
        bring({ across: (reads?.value ?? 0) + hidden.miss() });
        if (against === undefined) bring({ along: face() + 1 * mm });
      } else if (where === 'touching') {
        if (against === undefined) fail('nothing is touched');
        if (made.has('cutter')) {
          zeros.set(control, reads?.value ?? 0);
          against = undefined;
          return;
        }
        zeros.set(control, (control === 'quill' ? quill : dot(work, free())) - (reads?.value ?? 0));
      } else fail(`nobody finds ${where}`);
    },
    set: ({ control, reading: told, way, from }) => {
      free_(control);
      if (control === 'head') {
        if (told.unit !== '°') fail(`a head in ${told.unit}`);
        lean = radians((way === 'anticlockwise' ? -1 : 1) * told.value + hidden.nearTiltDeg());
        leanError = radians(hidden.headTiltDeg());
      } else if (control === 'boring-head') {
        // From above the lost motion of the screw stays in.
        reading = told.value + (from === 'below' ? 0 : 0.2 * mm);
        sweepError = hidden.sweepRadius();
      } else fail(`${control} has no scale`);
    },
    move: ({ control, by, way }) => {
      if (control === 'quill') {
        quill += (way === 'back' ? 1 : -1) * by.value;
        return;
      }
      const to = movement(control, way);
      if (against !== undefined && by.value > 0.2 * mm) fail('moved with the edge in the work');
      work = plus(work, to, by.value + hidden.position());
    },
    withdraw: ({ control, way }) => {
      if (control === 'quill') {
        if (way !== 'back') fail('drawn into the work');
        free_('quill');
        quill += big;
      } else {
        const to = movement(control, way);
        if (dot(to, free()) > -0.5) fail('drawn into the work');
        work = plus(work, to, big);
      }
      against = undefined;
    },
    clear: () => {
      if (against !== undefined) fail('turned with the edge in the work');
    },
    touch: ({ on, control, way }) => {
      const to = movement(control as Control, way as Way);
      if (made.has('cutter')) {
        if (dot(to, free()) < 0.5) fail('moved away from the face');
        if (on !== (drawing.freeIs === 'stem' ? 'shoulder' : 'end-face')) fail(`no ${on}`);
        touchedAt = drawing.free.z;
        against = on;
        return;
      }
      const from = plus(tip(), work, -1);
      if (on === 'free-stem') {
        const stem = made.get('free-stem') ?? fail('no free stem');
        if (dot(to, side()) < 0.5 || dot(from, side()) < stem.size / 2) fail('the stem is on the other side');
        bring({ across: stem.size / 2 + hidden.miss() });
      } else if (on === 'shoulder') {
        const stem = made.get('free-stem') ?? fail('no shoulder');
        if (dot(to, free()) < 0.5) fail('moved away from the shoulder');
        bring({ across: (stem.size / 2 + stockRadius()) / 2, along: stem.at as number });
      } else if (on === 'end-face') {
        if (dot(to, free()) < 0.5) fail('moved away from the face');
        if (drawing.side === 'ball' && Math.abs(dot(from, side())) > stockRadius()) fail('beside the work');
        // No dial tells a touch better than it tells a place.
        bring({ along: face() + hidden.position() });
      } else fail(`nobody touches ${on}`);
      against = on;
    },
    feed: ({ control, way, from, each, to }) => {
      free_(control);
      if (each && !(each.value > 0 && each.value <= 1.01 * mm)) fail('too deep a cut');
      const zero = zeros.get(control) ?? fail(`${control} has no zero`);
      const end = to?.value ?? fail('fed to nowhere');
      creep(control);
      if (control === 'quill') {
        if (way !== 'forward') fail('fed out of the work');
        if (from) meets(zero, from.value);
        const start = Math.min(quill, zero + (from?.value ?? end + mm));
        passing(start, zero + end, each?.value ?? mm, (at) => {
          quill = at;
        });
      } else {
        const to_ = movement(control, way);
        if (dot(to_, free()) < 0.5) fail('fed away from the work');
        const now = dot(work, free());
        passing(Math.max(now, zero - mm), zero + end, each?.value ?? mm, (at) => {
          work = plus(work, free(), at - dot(work, free()));
        });
      }
      against = 'work';
    },
    follow: ({ controls, ways, shift: added, way, leaves }, table) => {
      const cutter = (made.get('cutter') ?? fail('no cutter')).size / 2;
      const [first, second] = [zeros.get(controls[0]), zeros.get(controls[1])];
      if (first === undefined || second === undefined) return fail('the dials have no zero');
      for (const control of controls) free_(control);
      // Which way the numbers grow, seen from the work.
      const [out, grows] = [WAYS[ways[0]] ?? fail(ways[0]), WAYS[ways[1]] ?? fail(ways[1])];
      const flat = free()[2] === 1;
      if (controls[0] !== (flat ? 'table' : 'knee') || controls[1] !== (flat ? 'knee' : 'table')) fail('no such dials');
      if (dot(out, free()) !== 0) fail('the first column lies along the axis');
      const more = (added?.value ?? 0) * (way === 'to-axis' ? -1 : 1);
      const up = dot(grows, free());
      if (up === 0) fail('the second column lies across');
      ridges = { leaves: leaves?.value ?? 0, cutter };
      stops = table.rows.map(([across = 0, along = 0]) => {
        const rho = across + more + shift + offset + hidden.position();
        // The dial read `second` where the ball end's place touched the face.
        const tipAt = touchedAt + up * (along - second) + hidden.position();
        const z = tipAt + cutter;
        // The shank, along the tilted spindle, must stay clear of what stands.
        for (let s = 0; s <= 3 * drawing.radius; s += drawing.radius / 8) {
          for (let k = 0; k < 16; k++) {
            const t = (2 * Math.PI * k) / 16;
            const u = acrossSpindle();
            const c = plus(plus([0, 0, 0], out, Math.abs(rho)), free(), z);
            const at = plus(plus(plus(c, spindle(), s), u, cutter * Math.cos(t)), [0, 1, 0], cutter * Math.sin(t));
            const deep = inside(drawing, revolved(at, [0, 0, 0], free()));
            if (deep > 0.02 * drawing.radius) fail(`the shank is ${deep} in the work`);
          }
        }
        return { rho, z, clears: 'around' as const };
      });
    },
    needle: ({ on, against: face_, control, travel, way }) => {
      if (on !== 'quill' || control !== 'quill') fail('an indicator that does not move');
      // Where the quill goes, from its own axis: down is against it.
      const gone = plus([0, 0, 0], spindle(0), (way === 'forward' ? -1 : 1) * travel.value);
      if (face_ === 'square-on-left') return -gone[0];
      if (face_ === 'level-face') return -gone[2];
      const [bar, blocks] = [made.get('sine-bar'), made.get('gauge-blocks')];
      if (!bar || !blocks) return fail(`no ${face_}`);
      // The bar rises to the side of its blocks.
      const up = blocks.way === 'right' ? 1 : -1;
      const rise = Math.asin(blocks.size / bar.size);
      const along: V = [Math.cos(rise), 0, up * Math.sin(rise)];
      const square: V = [-up * Math.sin(rise), 0, Math.cos(rise)];
      return -dot(gone, face_ === 'sine-bar' ? square : along);
    },
    measure: ({ what, way }) => {
      if (what === 'ring') return sizeOf(what) + 0;
      const error = LENGTHS.includes(what) ? hidden.length() : hidden.diameter();
      if (way && dot(WAYS[way] ?? [0, 0, 0], side()) < 0.5) fail('the pip leans the other way');
      return sizeOf(what) + error;
    },
    change: (control, by, way) => {
      free_(control);
      if (stops.length > 0) {
        shift += (way === 'to-axis' ? -1 : 1) * by.value + hidden.feedChange();
      } else if (control === 'boring-head') {
        if (against !== undefined) fail('the sweep changed with the edge in the work');
        reading += (way === 'open' ? 1 : -1) * by.value;
        sweepError += hidden.sweepChange();
      } else if (control === 'head') {
        if (by.unit !== 'minutes of arc') fail(`a head in ${by.unit}`);
        lean += radians((way === 'clockwise' ? by.value : -by.value) / 60 + hidden.headChange());
      } else if (control === 'quill') {
        zeros.set(control, (zeros.get(control) ?? 0) + (way === 'back' ? by.value : -by.value) + hidden.feedChange());
      } else {
        if (against !== undefined) fail('moved with the edge in the work');
        const to = movement(control, way);
        work = plus(work, to, by.value);
      }
    },
    left: surface,
    verdict: () => {
      if (stops.length > 0) return judgedStops(drawing, stops, ridges.cutter, ridges.leaves);
      return judged(drawing, surface(), passes.flat());
    },
  };

  /** The tool must meet the stock where the sheet says. */
  function meets(zero: number, from: number): void {
    const at = quill;
    const deepest = (left: number): number => {
      quill = zero + left;
      // An edge of the stock is met by a short stretch of the sweep.
      return Math.max(...ring(20 * POINTS).map(inStock));
    };
    const slack = 0.05 * drawing.radius;
    const [before, after] = [deepest(from + slack), deepest(from - slack)];
    quill = at;
    if (before > 0 || after < 0) fail(`the stock is not met ${from} before zero: ${before} ${after}`);
  }

  /** Passes one after the other, the last at the end. */
  function passing(start: number, end: number, each: number, go: (at: number) => void): void {
    const count = Math.max(1, Math.ceil(Math.abs(end - start) / each));
    for (let i = 0; i <= count; i++) {
      go(start + ((end - start) * i) / count);
      passes.push(ring());
    }
  }
}
