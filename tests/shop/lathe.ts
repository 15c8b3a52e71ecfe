/**
 * A lathe in space, from geometry alone: x points to the operator, y up, z to the tailstock; the spindle's axis runs
 * through the origin, where the face of chucked work, or the pivot at the headstock, stands. Angles are radians.
 */
import type { Control, Measure, Way } from 'generatrix';
import {
  type Axis,
  along,
  type Drawing,
  judge,
  type Line,
  radius,
  radiusAt,
  type V,
  type Verdict,
  type Work,
} from './turned-part.js';
import { type Lathe, Mishap } from './turner.js';

/** What is hidden from the person; each draws anew whenever the thing is done. */
export interface Hidden {
  /** How far a scale's zero stands off, in degrees, of slide, bar and edge. */
  readonly scaleZeroDeg: number;
  /** Where tailstock or head stand when their dial reads zero. */
  readonly dialZero: number;
  /** Spindle against the bed, in degrees. */
  readonly planDeg: number;
  readonly uprightDeg: number;
  readonly rollDeg: number;
  /** A needle that is pushed in shows an angle that is too large by this. */
  readonly needleDeg: number;
  readonly centreDistance: number;
  readonly toolHeight: number;
  /** What is set comes out off by so much: angles in degrees, set-overs as lengths; first, and when it is changed. */
  readonly angleDeg: () => number;
  readonly changeDeg: () => number;
  readonly offset: () => number;
  readonly changeOffset: () => number;
  readonly touchOff: () => number;
  readonly diameter: () => number;
  readonly place: () => number;
}

const none = (): number => 0;

/** An exact shop. */
export const EXACT: Hidden = {
  scaleZeroDeg: 0,
  dialZero: 0,
  planDeg: 0,
  uprightDeg: 0,
  rollDeg: 0,
  needleDeg: 0,
  centreDistance: 0,
  toolHeight: 0,
  angleDeg: none,
  changeDeg: none,
  offset: none,
  changeOffset: none,
  touchOff: none,
  diameter: none,
  place: none,
};

/** The machine and the part, by plain numbers. */
export interface Setup {
  readonly drawing: Drawing;
  readonly workLength: number;
  readonly stockDiameter: number;
  readonly shoulders: readonly { readonly at: number; readonly diameter: number }[];
  readonly slideAcross: boolean;
  /** Reading of the bar's scale at an angle, and back. */
  readonly barAngle: (reading: number) => number;
  /** Dial of tailstock or head: 2 where it counts on the diameter. */
  readonly times: number;
  /** How far the balls' centres stand out of the faces; and the balls. */
  readonly protrusion: number;
  readonly balls: readonly [number, number];
  readonly post?: { readonly halfWidth: number; readonly toolReach: number } | undefined;
  readonly nose?: { readonly ahead: number; readonly back: number } | undefined;
  readonly edge: number;
  /** Of marking blue. */
  readonly film: number;
  readonly slideTravel: number;
}

const rad = (deg: number): number => (deg * Math.PI) / 180;

/** Where an increasing or a falling function passes zero, by secants. */
function root(f: (x: number) => number, start: number, step: number): number {
  let [a, fa, b] = [start, f(start), start + step];
  for (let turn = 0; turn < 60; turn++) {
    const fb = f(b);
    if (Math.abs(fb) < 1e-14 || fb === fa) return b;
    const next = b - (fb * (b - a)) / (fb - fa);
    [a, fa, b] = [b, fb, next];
  }
  return b;
}

/** Sets up a lathe as it was left by whoever used it last. */
export function lathe(
  setup: Setup,
  hidden: Hidden,
): Lathe & { readonly verdict: () => Verdict; readonly left: () => number } {
  const { drawing, workLength } = setup;
  const outside = drawing.side === 'outside';
  const large = drawing.largeAt;
  const sign = Math.sign(drawing.smallAt - large);
  const work: Work = {
    side: drawing.side,
    length: workLength,
    stock: setup.stockDiameter / 2,
    blank: setup.stockDiameter / 2,
    hole: 0,
    holeFrom: workLength,
    cuts: [],
  };
  const fast = new Set<Control>(['barrel', 'tailstock', 'cross-slide', 'tailstock-head', 'shank']);
  const places = new Map<string, number>([
    ['headstock-face', 0],
    ['tailstock-face', workLength],
  ]);
  let held: 'chuck' | 'centres' | 'balls' | 'none' = 'none';
  let [height, touched] = [setup.stockDiameter / 8, false];
  let [slide, bar, edge] = [rad(11), rad(1), rad(5)];
  let [tailstock, head, roll] = [0.01 * workLength, 0.004 * workLength, rad(0.7)];
  let [barrel, hasHead] = [0, false];
  let stopped: { control: Control; at: string } | null = null;
  let laid: { what: string; angle: number } | null = null;
  const zeros = new Map<Control, number>();
  let guide: 'edge' | 'slide' | 'bar' | 'tail' | null = null;

  const pivots = (): { length: number; out: number } => {
    const out = held === 'balls' ? setup.protrusion : 0;
    return { length: workLength + 2 * out + hidden.centreDistance, out };
  };
  const tail = (): V => (hasHead ? [tailstock + head * Math.cos(roll), head * Math.sin(roll), 0] : [tailstock, 0, 0]);
  function axis(): Axis {
    if (held === 'none') throw new Mishap('nothing holds the work');
    if (held === 'chuck') {
      const [p, u] = [rad(hidden.planDeg), rad(hidden.uprightDeg)];
      return { face: [0, 0, 0], direction: [Math.sin(p) * Math.cos(u), Math.sin(u), Math.cos(p) * Math.cos(u)] };
    }
    const { length, out } = pivots();
    const [x, y] = tail();
    const direction: V = [x / length, y / length, Math.sqrt(length * length - x * x - y * y) / length];
    return { face: along([0, 0, 0], direction, out), direction };
  }
  /** How far the barrel stands too far back for the work between its pivots. */
  const play = (): number => {
    const { length } = pivots();
    const [x, y] = tail();
    return barrel - Math.sqrt(length * length - x * x - y * y);
  };
  function need(control: Control, how: 'fast' | 'free'): void {
    if (fast.has(control) !== (how === 'fast')) throw new Mishap(`${control} should be ${how}`);
  }
  function steady(): void {
    if (held !== 'centres' && held !== 'balls') return;
    need('barrel', 'fast');
    need('tailstock', 'fast');
    if (hasHead) {
      need('tailstock-head', 'fast');
      need('shank', 'fast');
    }
    if (Math.abs(play()) > 1e-6 * workLength) throw new Mishap('the work rattles or is forced between its centres');
  }
  const turnedBar = (): boolean => !fast.has('cross-slide') && fast.has('bracket');
  /** Slope of the tip's path against the bed: how much nearer to the axis for each unit towards the tailstock. */
  function slope(control: Control): number {
    if (control === 'top-slide') return Math.tan(slide);
    if (control === 'carriage') {
      if (!fast.has('cross-slide') && !fast.has('bracket')) throw new Mishap('nothing holds the cross slide');
      if (fast.has('cross-slide') && fast.has('bracket')) throw new Mishap('screw and bar both hold the cross slide');
      return turnedBar() ? Math.tan(bar) : 0;
    }
    return Math.tan(edge);
  }
  function lineAt(control: Control, x: number): Line {
    return { through: [x, height, 0], direction: [-slope(control), 0, 1] };
  }
  function place(name: string | undefined): number {
    const at = places.get(name ?? '');
    if (at === undefined) throw new Mishap(`${name} was not marked`);
    return at;
  }
  const shown = (name: string | undefined, off = 0): number => 2 * radius(work, place(name) + off) + hidden.diameter();
  function pull(control: Control): void {
    if (control === 'tailstock-head' && !hasHead) throw new Mishap('there is no head in the tailstock');
    if (control === 'tailstock' || control === 'tailstock-head') {
      need(control, 'free');
      if (held !== 'none' && Math.abs(play()) < 1e-9 && fast.has('barrel'))
        throw new Mishap('the barrel still grips the work');
    }
  }
  function shift(control: Control, by: number): void {
    if (control === 'tailstock') tailstock += by;
    else if (control === 'tailstock-head') head += by;
    else if (control === 'shank') roll += by;
    else if (control === 'top-slide') slide += by;
    else if (control === 'guide-bar') bar += by;
    else if (control === 'tool') edge += by;
    else throw new Mishap(`${control} is not adjusted`);
  }
  const leaning = (way: Way | undefined): 1 | -1 => {
    if (way === 'anticlockwise') return 1;
    if (way === 'clockwise') return -1;
    throw new Mishap('swung to which side?');
  };
  const sideways = (way: Way | undefined): 1 | -1 => {
    if (way === 'operator') return 1;
    if (way === 'away-from-operator') return -1;
    throw new Mishap('to which side?');
  };
  const lengthways = (way: Way): 1 | -1 => {
    if (way === 'tailstock') return 1;
    if (way === 'headstock') return -1;
    throw new Mishap('towards which end?');
  };
  /** Angle between the diameters at both marks, as the work is. */
  function trueAngle(): number {
    const [low, high] = [place('lower-mark'), place('upper-mark')];
    return Math.atan((radius(work, high) - radius(work, low)) / Math.abs(high - low));
  }

  return {
    secure: ({ do: how, what, ...more }) => {
      if (what === 'work') {
        if (how === 'take-out') {
          if (held !== 'chuck' && fast.has('barrel')) throw new Mishap('the barrel still grips the work');
          held = 'none';
          return;
        }
        const by = 'by' in more ? more.by : undefined;
        if (!by) throw new Mishap('held in what?');
        if (by === 'balls' && !hasHead) throw new Mishap('no head to hold the ball');
        if (by === 'centres' && work.cuts.length === 0) work.blank *= 1.1;
        held = by;
        barrel = 0;
        barrel = -play();
        return;
      }
      if (what === 'tailstock-head' && how === 'put-back') {
        if (held !== 'none') throw new Mishap('the work is in the way');
        hasHead = true;
        tailstock = 0;
        return;
      }
      if (how === 'ease') {
        need(what, 'free');
        barrel += 0.01 * workLength;
        return;
      }
      if (how === 'clamp' || how === 'lock') fast.add(what);
      else fast.delete(what);
    },
    mark: ({ what, from }, at) => {
      // From the small end into the taper; from a face into the work.
      const into = from === 'small-end' ? -sign : from === 'large-end' ? sign : from === 'tailstock-face' ? -1 : 1;
      places.set(what, place(from) + into * at);
    },
    stop: ({ control, at }) => {
      place(at);
      stopped = { control, at };
    },
    lay: ({ what, sizes, way }) => {
      const [length, blocks] = [sizes[0]?.value ?? 1, sizes[1]?.value ?? 0];
      const leans = way === 'headstock' || way === 'to-axis' ? 1 : -1;
      const true_ = Math.atan((drawing.largeDiameter - drawing.smallDiameter) / 2 / Math.abs(drawing.smallAt - large));
      laid = { what, angle: leans * (what === 'master' ? true_ : Math.asin(blocks / length)) };
    },
    touch: ({ on, side, control, way }) => {
      if (on === "the work's axis") {
        if (side !== 'operator') throw new Mishap('the tool cuts on which side?');
        height = hidden.toolHeight;
        touched = true;
      } else if (on === 'work') {
        if (control !== 'barrel' || way !== 'headstock') throw new Mishap('what comes up to the work?');
        need('barrel', 'free');
        barrel -= play();
      } else if (!places.has(on)) throw new Mishap(`touches what? ${on}`);
    },
    zero: (control) => {
      if (control === 'tailstock') zeros.set(control, tailstock);
      else if (control === 'tailstock-head') zeros.set(control, head);
      else if (control === 'top-slide') zeros.set(control, slide);
      else if (control === 'guide-bar') zeros.set(control, bar);
      else throw new Mishap(`${control} has no zero`);
    },
    set: (control, reading, way) => {
      pull(control);
      const off = rad(hidden.angleDeg());
      const scale = (given: Control): number => zeros.get(given) ?? rad(hidden.scaleZeroDeg);
      if (control === 'tailstock' || control === 'tailstock-head') {
        const zero = zeros.get(control) ?? hidden.dialZero;
        const by = reading === 0 ? 0 : (sideways(way) * reading) / setup.times + hidden.offset();
        if (control === 'tailstock') tailstock = zero + by;
        else head = zero + by;
      } else if (control === 'top-slide' && way === undefined) {
        slide = rad(setup.slideAcross && reading !== 90 ? 90 - reading : reading);
        if (setup.slideAcross && reading === 90 && fast.has('carriage')) slide = 0;
        fast.delete(control);
      } else if (control === 'top-slide') {
        slide = leaning(way) * rad(setup.slideAcross ? 90 - reading : reading) + scale(control) + off;
        fast.delete(control);
      } else if (control === 'guide-bar') {
        bar = (reading === 0 ? 0 : leaning(way) * setup.barAngle(reading) + off) + scale(control);
        fast.delete(control);
      } else if (control === 'tool') {
        edge = leaning(way) * rad(reading) + rad(hidden.scaleZeroDeg) + off;
        fast.delete(control);
      } else throw new Mishap(`${control} has no scale`);
    },
    move: (control, by, way) => {
      if (control === 'top-slide') {
        lengthways(way);
        if (Math.abs(by) > setup.slideTravel * (1 + 1e-9)) throw new Mishap('the slide has no such way');
        if (Math.abs(by * Math.cos(slide)) < Math.abs(drawing.smallAt - large) * (1 - 1e-3))
          throw new Mishap('that does not reach both ends');
        return;
      }
      lengthways(way);
      if (by < Math.abs(drawing.smallAt - large) * (1 - 1e-3)) throw new Mishap('that does not reach both ends');
    },
    feed: ({ control, way, before, depth, deeper, until, at, to, size }, read, again) => {
      if (held === 'none') throw new Mishap('nothing holds the work');
      if (control === 'drill') {
        if (way !== 'headstock' || !to || !size) throw new Mishap('drilled how?');
        [work.hole, work.holeFrom] = [read(size) / 2, workLength - read(to)];
        return;
      }
      steady();
      if (!until) throw new Mishap('fed until what?');
      const wanted = read(until);
      if (at === undefined) {
        // The whole blank, in line with the bed.
        if (way === undefined || !depth || deeper !== 'away-from-operator') throw new Mishap('turned how?');
        const stood = axis();
        const r = (w: number, x: number): number =>
          radiusAt({ through: [x, hidden.toolHeight, 0], direction: [0, 0, 1] }, stood, w);
        const x = root((value) => r((drawing.smallAt + large) / 2, value) - wanted / 2, wanted / 2, 0.01 * wanted);
        work.cuts.splice(0, work.cuts.length, {
          line: { through: [x, hidden.toolHeight, 0], direction: [0, 0, 1] },
          axis: stood,
          from: -1e-9,
          to: workLength + 1e-9,
        });
        return;
      }
      const mark = place(at);
      const axisNow = axis();
      if (!touched) throw new Mishap('the tool was never set to height');
      const straight = depth === undefined;
      if (straight) {
        need('carriage', 'fast');
        need('tool', 'fast');
        if (control !== 'cross-slide') throw new Mishap('fed straight in by the cross slide only');
      } else {
        if (control === depth) throw new Mishap('one control cannot feed and give the depth');
        if (control === 'top-slide') {
          need('carriage', 'fast');
          need('top-slide', 'fast');
          if (depth !== 'cross-slide') throw new Mishap('that gives no depth');
        } else if (control === 'carriage') {
          need('carriage', 'free');
          if (turnedBar()) {
            need('guide-bar', 'fast');
            need('top-slide', 'fast');
            if (depth !== 'top-slide' || Math.abs(Math.sin(slide)) < 0.5) throw new Mishap('that gives no depth');
          } else if (depth !== 'cross-slide') throw new Mishap('that gives no depth');
        } else throw new Mishap(`${control} does not feed along`);
      }
      const inwards = straight ? way : deeper;
      if (inwards !== (outside ? 'away-from-operator' : 'operator')) throw new Mishap('the tool leaves the work');
      const [low, high] = [Math.min(drawing.smallAt, large), Math.max(drawing.smallAt, large)];
      let [from, to_] = [low, high];
      if (straight) {
        if (stopped?.at === undefined) throw new Mishap('where does the edge stand?');
        const end = place(stopped.at);
        const rest = Math.sign((low + high) / 2 - end) * setup.edge * Math.cos(edge);
        [from, to_] = [Math.min(end, end + rest), Math.max(end, end + rest)];
      } else {
        const direction = lengthways(way);
        const start = (direction > 0 ? low : high) - direction * (before ? read(before) : 0.5 * (high - low));
        const end = stopped?.control === control ? place(stopped.at) : start + direction * 1.5 * (high - low);
        if ((end - start) * direction < 0.5 * (high - low)) throw new Mishap('the stop lies before the taper');
        [from, to_] = [Math.min(start, end), Math.max(start, end)];
      }
      const error = hidden.touchOff();
      const at_ = (x: number, w: number): number => radiusAt(lineAt(control, x), axisNow, w);
      let x = root(
        (value) => at_(value, mark) - (wanted + error) / 2,
        wanted / 2 + mark * slope(control),
        0.01 * wanted,
      );
      if (again) {
        // Just so deep that nothing of the trial before is left.
        const clean = (w: number): number => root((value) => at_(value, w) - radius(work, w), x, 0.01 * wanted);
        const all = Array.from({ length: 21 }, (_, i) => clean(low + ((high - low) * (i * 0.998 + 0.02)) / 20));
        x = outside ? Math.min(x, ...all) : Math.max(x, ...all);
      }
      guide = straight ? 'edge' : control === 'top-slide' ? 'slide' : turnedBar() ? 'bar' : 'tail';
      // Post, nose of the slide and the tool itself against the shoulders, where the tip runs.
      for (const shoulder of setup.shoulders) {
        const beyond = shoulder.at > high ? shoulder.at - to_ : from - shoulder.at;
        if (beyond < -1e-9 * workLength) throw new Mishap('the tool runs into a shoulder');
        const near = at_(x, shoulder.at > high ? to_ : from);
        const { post, nose } = setup;
        if (post && shoulder.diameter / 2 > near + post.toolReach && beyond < post.halfWidth)
          throw new Mishap('the post hits a shoulder');
        if (nose && control === 'top-slide') {
          const opening = Math.sign(shoulder.at - (low + high) / 2) === Math.sign(large - drawing.smallAt) ? 1 : -1;
          const [s, c] = [Math.sin(Math.abs(slide)), Math.cos(slide)];
          if (
            near + opening * nose.ahead * s + nose.back * c < shoulder.diameter / 2 &&
            nose.ahead * c - opening * nose.back * s > beyond
          )
            throw new Mishap('the slide hits a shoulder');
        }
      }
      work.cuts.push({ line: lineAt(control, x), axis: axisNow, from, to: to_ });
    },
    needle: ({ on, against, control, way, sense }, travel) =>
      needle(on, against, control, way, travel) + (sense === 'in' ? travel * rad(hidden.needleDeg) : 0),
    nudge: (control, by) => {
      shift(control, by);
      // Eased, moved, brought up again.
      if (control !== 'shank' && (held === 'centres' || held === 'balls')) barrel -= play();
    },
    measure: (action, sizes) => measured(action, sizes),
    blue: ({ with: gauge }) => {
      if ((gauge === 'ring-gauge') !== outside) throw new Mishap('that gauge does not go together with the work');
      const wanted = Math.atan((drawing.largeDiameter - drawing.smallDiameter) / 2 / Math.abs(drawing.smallAt - large));
      const steeper = trueAngle() - wanted;
      // A film of 3 µm hides what is less: then it bears all over.
      if (Math.abs(drawing.smallAt - large) * Math.abs(steeper) < setup.film) return null;
      // The plug that is steeper than its ring touches at the large end.
      return steeper > 0 === outside ? 'large' : 'small';
    },
    change: (control, by, unit, way) => {
      if (control === 'cross-slide') {
        // Where the tool then stands the next touching off finds anyhow.
        sideways(way);
        return;
      }
      if (control === 'tailstock' || control === 'tailstock-head') {
        // Once a taper was cut all is clamped as told; before, the blank is loosened and held again without a word.
        if (guide !== null) pull(control);
        shift(control, sideways(way) * by + hidden.changeOffset());
        if (guide === null) barrel -= play();
        return;
      }
      if (unit !== 'minutes of arc') throw new Mishap(`turned by ${unit}?`);
      const towards = way === 'steeper' ? 1 : way === 'flatter' ? -1 : Number.NaN;
      const now = control === 'top-slide' ? slide : control === 'guide-bar' ? bar : edge;
      shift(control, Math.sign(now) * towards * rad(by / 60) + rad(hidden.changeDeg()));
    },
    verdict: () => judge(work, drawing),
    left: () => {
      if (guide === null || guide === 'edge') return 0;
      if (guide === 'tail') return Math.hypot(...tail()) / workLength;
      return Math.abs(guide === 'slide' ? slide : bar);
    },
  };

  function needle(on: Control, against: string, control: Control, way: Way, travel: number): number {
    const t = travel * (control === 'tailstock-head' ? sideways(way) : lengthways(way));
    if (against === 'edge') return -t * Math.tan(edge);
    if (against === 'top of the work') {
      if (!hasHead || held === 'none') throw new Mishap('nothing to run along');
      need('tailstock-head', 'free');
      return t * Math.sin(roll);
    }
    if (against === 'work' || against === 'test bar') {
      if (against === 'test bar' && held !== 'none') throw new Mishap('the work is still between the centres');
      if (on !== 'carriage') throw new Mishap('what carries the indicator?');
      const [x, y] = tail();
      const length = against === 'work' ? pivots().length : workLength;
      if (against === 'work' && held === 'none') throw new Mishap('nothing to run along');
      if (against === 'work' && Math.abs(play()) > 1e-6 * workLength) throw new Mishap('the work rattles');
      return (t * x) / Math.sqrt(length * length - x * x - y * y);
    }
    const leans =
      against === 'cylinder' ? 0 : laid && against.startsWith(laid.what.slice(0, 6)) ? laid.angle : Number.NaN;
    if (Number.isNaN(leans)) throw new Mishap(`nothing lies there: ${against}`);
    const guide = control === 'top-slide' ? slide : bar;
    if (control === 'carriage' && !turnedBar()) throw new Mishap('the bar does not move the cross slide');
    if (laid?.what === 'sine-bar-across' && against !== 'cylinder') {
      return t * (Math.tan(leans) * Math.sin(guide) - Math.cos(guide));
    }
    const lie = rad(hidden.planDeg);
    return control === 'top-slide'
      ? t * (Math.sin(guide) - Math.cos(guide) * Math.tan(leans - lie))
      : t * (Math.tan(guide) - Math.tan(leans - lie));
  }

  function measured({ what, at, less }: Measure, sizes: readonly number[]): number {
    const twoPlaces = hidden.place();
    if (what === 'blank') return shown(at, 1e-6 * workLength) - shown(less, -1e-6 * workLength);
    if (what === 'over both balls') {
      const [a = 0, b = 0] = sizes;
      if (a !== setup.balls[0] || b !== setup.balls[1]) throw new Mishap('other balls lie there');
      return workLength + 2 * setup.protrusion + (a + b) / 2 + hidden.centreDistance;
    }
    if (what === 'difference' || what === 'finished difference') {
      return shown(at, -sign * twoPlaces) - shown(less);
    }
    if (what === 'upper diameter' || what === 'lower diameter') return shown(at);
    const angle = trueAngle();
    if (what === 'depth') {
      const [small = 0, big = 0] = sizes;
      const mouth = radius(work, place('upper-mark')) + Math.abs(place('upper-mark') - large) * Math.tan(angle);
      const centre = (ball: number): number => (mouth - ball / 2 / Math.cos(angle)) / Math.tan(angle);
      return centre(small) - small / 2 - (centre(big) - big / 2) + hidden.diameter();
    }
    if (what === 'fall towards the large end') {
      const [length = 1, blocks = 0, travel = 0] = sizes;
      const lean = Math.asin(blocks / length);
      const steep = Math.tan(Math.PI / 4) < Math.tan(angle);
      return -travel * Math.sin((steep ? lean - Math.PI / 2 : -lean) + angle) + hidden.diameter();
    }
    if (what === 'over rollers') {
      const [roller = 0, blocks = 0] = sizes;
      const y = blocks + roller / 2;
      const end = radius(work, drawing.smallAt + 1e-9 * sign * -1);
      return 2 * (end + y * Math.tan(angle) + roller / 2 / Math.cos(angle)) + roller;
    }
    throw new Mishap(`measures what? ${what}`);
  }
}
