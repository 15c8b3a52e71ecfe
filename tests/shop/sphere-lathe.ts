/**
 * A lathe in space for spheres: z along the work's axis from the drawing's centre towards the free end (the tailstock's
 * side), x towards the operator, y up. A tool that swivels about an upright axis on the slides, or a round nose that is
 * taken from stop to stop. Whatever no action has set stands somewhere wrong.
 */
import type { Control, SphereTarget, Way } from 'generatrix';
import { drawingOf, judged, judgedStops, type Stop, type Verdict } from './part.js';
import { type Bench, Mishap } from './person.js';
import { type Place, radians, revolved, sphereThrough, type V } from './space.js';

/** How far off things are, drawn anew each time that one is set. */
export interface LatheErrors {
  readonly swivelRadius: () => number;
  readonly swivelOffset: () => number;
  readonly toolHeight: () => number;
  readonly touchOff: () => number;
  readonly position: () => number;
  readonly radiusChange: () => number;
  readonly offsetChange: () => number;
  readonly diameter: () => number;
  readonly length: () => number;
}

const NONE = (): number => 0;
export const NO_LATHE_ERRORS: LatheErrors = {
  swivelRadius: NONE,
  swivelOffset: NONE,
  toolHeight: NONE,
  touchOff: NONE,
  position: NONE,
  radiusChange: NONE,
  offsetChange: NONE,
  diameter: NONE,
  length: NONE,
};

const POINTS = 240;

export interface SphereLathe extends Bench {
  readonly verdict: () => Verdict;
  /** What a swing has left. */
  readonly left: () => readonly Place[];
}

/** How a lathe meets the sphere. */
export function sphereLathe(target: SphereTarget, unit: 'mm' | 'in', hidden: LatheErrors): SphereLathe {
  const drawing = drawingOf(target);
  const ball = drawing.side === 'ball';
  const mm = unit === 'mm' ? 1 : 1 / 25.4;
  const made = new Map<string, { readonly size: number; readonly at: number | undefined }>();
  const locked = new Set<Control>();
  const stops = new Map<Control, number>();
  /** Swivelling tool: its radius, its centre and the height of the tip. */
  let radius = drawing.radius * 1.37;
  let radiusError = 0;
  let centre: V = [2.9 * mm, 1.9 * mm, 40 * mm + 2 * drawing.radius];
  let swung: Way | undefined;
  let against: string | undefined;
  let zeroAt: number | undefined;
  const passes: Place[][] = [];
  /** Round nose: errors of its zeros, and its stops. */
  let across: number | undefined;
  let along: number | undefined;
  let shift = 0;
  let cutStops: Stop[] = [];
  let leaves = 0;

  function fail(why: string): never {
    throw new Mishap(why);
  }

  const face = (): number => {
    if (!ball) return drawing.free.z;
    return drawing.free.z + (drawing.freeIs === 'pole' ? (made.get('face-stock')?.size ?? 0) : 0);
  };
  const stockRadius = (): number => (made.get('stock')?.size ?? 0) / 2;
  const nose = (): number => made.get('round-nose')?.size ?? fail('no tool');

  function free_(control: Control): void {
    if (locked.has(control)) fail(`${control} is locked`);
  }

  /** Where the tip passes, swung from stop to stop through the operator's side. */
  function swing(): Place[] {
    const [from, to] = [stops.get('first-stop'), stops.get('last-stop')];
    if (from === undefined || to === undefined) return fail('no stops');
    const out = ball ? 1 : -1;
    const r = radius + radiusError;
    return Array.from({ length: POINTS + 1 }, (_, i) => {
      const t = radians(from + ((to - from) * i) / POINTS);
      const tip: V = [centre[0] + r * Math.sin(t), centre[1], centre[2] + out * r * Math.cos(t)];
      return revolved(tip, [0, 0, 0], [0, 0, 1]);
    });
  }

  function surface(): Place[] {
    return passes[passes.length - 1] ?? fail('nothing is cut');
  }

  function sizeOf(what: string): number {
    if (cutStops.length > 0) {
      const n = nose();
      if (what === 'radius') return drawing.radius;
      if (what === 'form') return 0;
      if (what !== 'diameter') return fail(`nobody measures ${what}`);
      // Each stop leaves a cylinder.
      return 2 * Math.max(...cutStops.map(({ rho }) => rho - (ball ? n : -n)));
    }
    const left = surface();
    const fit = sphereThrough(left);
    const r = radius + radiusError;
    switch (what) {
      case 'diameter':
        return 2 * Math.hypot(centre[0] + r, centre[1]);
      case 'aslant':
        // A micrometer aslant spans the places whose normals lie along its line: 2 (s + e sin 45°).
        return 2 * (r + centre[0] * Math.SQRT1_2);
      case 'radius':
        return fit.radius;
      case 'form': {
        const distances = left.map(({ rho, z }) => Math.hypot(rho, z - fit.centre));
        return Math.max(...distances) - Math.min(...distances);
      }
      case 'opening':
        return 2 * Math.sqrt(Math.max(0, fit.radius ** 2 - (face() - fit.centre) ** 2));
      case 'depth':
        return face() - Math.min(...left.map(({ z }) => z));
      case 'base':
        return 2 * stockRadius();
      case 'height':
        return fit.radius - Math.sqrt(Math.max(0, fit.radius ** 2 - stockRadius() ** 2));
      default:
        return fail(`nobody measures ${what}`);
    }
  }

  return {
    secure: ({ do: how, what }) => {
      if (how === 'lock') locked.add(what);
      else if (how === 'unlock' && !locked.delete(what)) fail(`${what} was not locked`);
    },
    provide: ({ what, size, at }) => {
      made.set(what, { size: size.value, at: at?.value });
      if (what === 'hole') {
        const corner = { rho: size.value / 2, z: face() - (at?.value ?? 0) };
        if (Math.hypot(corner.rho, corner.z) > drawing.radius) fail('drilled into the sphere');
      }
    },
    turn: ({ control, way }) => {
      if (control !== 'swivel-tool') fail(`nobody turns ${control}`);
      swung = way;
    },
    zero: ({ control, where, reads }) => {
      free_(control);
      if (where === 'axis-height') centre = [centre[0], (reads?.value ?? 0) + hidden.toolHeight(), centre[2]];
      else if (where === 'swivel-under-axis')
        centre = [(reads?.value ?? 0) + hidden.swivelOffset(), centre[1], centre[2]];
      else if (where === 'as-measured') {
        if (against !== 'turned-diameter') fail('no diameter is touched');
        across = hidden.touchOff() / 2;
      } else if (where === 'touching') {
        if (against === undefined) fail('nothing is touched');
        zeroAt = centre[2];
        along = -(reads?.value ?? 0);
      } else fail(`nobody finds ${where}`);
    },
    set: ({ control, reading, way }) => {
      free_(control);
      if (control === 'swivel-tool') {
        radius = reading.value;
        radiusError = hidden.swivelRadius();
      } else if (control === 'first-stop' || control === 'last-stop') {
        if (way !== (ball ? 'tailstock' : 'headstock')) fail('stops counted from the other side');
        stops.set(control, reading.value);
      } else if (control === 'carriage') {
        if (zeroAt === undefined) return fail('the carriage has no zero');
        if (against !== undefined) fail('moved with the edge in the work');
        const z = zeroAt + (way === 'tailstock' ? 1 : -1) * reading.value + hidden.position();
        centre = [centre[0], centre[1], z];
      } else fail(`${control} has no scale here`);
    },
    move: ({ control }) => fail(`nobody moves ${control} here`),
    withdraw: ({ control, way }) => {
      free_(control);
      if (control !== 'carriage' || way !== 'tailstock') fail('drawn into the work');
      centre = [centre[0], centre[1], centre[2] + 4 * drawing.radius];
      against = undefined;
    },
    clear: () => {
      if (against !== undefined && stops.size > 0) fail('swung with the edge in the work');
    },
    touch: ({ on, control, way }) => {
      if (on === 'turned-diameter') {
        if (control !== 'cross-slide' || way !== 'away-from-operator') fail('moved away from the diameter');
      } else if (control !== 'carriage' || way !== 'headstock') fail('moved away from the face');
      const r = radius + radiusError;
      if (on === 'end-face' && swung) {
        if (swung !== (ball ? 'tailstock' : 'headstock')) fail('the tip looks the other way');
        centre = [centre[0], centre[1], face() - (ball ? r : -r)];
      } else if (on === 'shoulder') {
        const stem = made.get('free-stem') ?? fail('no shoulder');
        if (made.has('round-nose')) {
          against = on;
          return;
        }
        if (swung !== 'operator') fail('the tip is not beside the work');
        if (r > stockRadius() || r < stem.size / 2) fail('beside the shoulder');
        centre = [centre[0], centre[1], stem.at as number];
      }
      against = on;
    },
    feed: ({ control, way, from, each, to }) => {
      if (control !== 'swivel-tool') fail(`nobody feeds ${control}`);
      if (way !== (ball ? 'close' : 'open')) fail('fed out of the work');
      for (const one of ['carriage', 'cross-slide'] as const) {
        if (!locked.has(one)) centre = [centre[0] + 0.3 * mm, centre[1], centre[2] + 0.3 * mm];
      }
      if (!each || each.value > 0.51 * mm) fail('too deep a cut');
      const end = (to?.value ?? fail('fed to nowhere')) + shift;
      const start = from?.value ?? radius;
      if (from && ball) {
        // Just out of that no corner of the stock is met.
        const corner = Math.hypot(stockRadius(), drawing.freeIs === 'stem' ? 0 : face());
        if (Math.abs(corner - from.value) > 0.05 * drawing.radius) fail('the stock is met elsewhere');
      }
      const count = Math.max(1, Math.ceil(Math.abs(end - start) / (each?.value ?? mm)));
      for (let i = 0; i <= count; i++) {
        radius = start + ((end - start) * i) / count;
        passes.push(swing());
      }
    },
    follow: ({ controls, ways, on, towards, shift: added, way, leaves: ridges }, table) => {
      if (across === undefined || along === undefined) return fail('the dials have no zero');
      if (controls[0] !== 'cross-slide' || controls[1] !== 'carriage') fail('no such dials');
      if (ways[0] !== 'operator' || ways[1] !== 'headstock') fail('the dials count the other way');
      leaves = ridges?.value ?? 0;
      const more = (added?.value ?? 0) * (way === 'to-axis' ? -1 : 1);
      const n = nose();
      const zeros = [across, along] as const;
      const found = table.rows.map(([first = 0, second = 0]): Stop => {
        const told = (first + more) / (on === 'diameter' ? 2 : 1);
        // The nose touches on its near side a ball, on its far one a bore.
        const rho = told + (ball ? n : -n) + zeros[0] + shift + hidden.position();
        const z = face() - second + n - zeros[1] + hidden.position();
        return { rho, z, clears: towards === 'tailstock' ? 'held' : 'free' };
      });
      // Cut anew at all positions: what is behind the widest place belongs to it.
      cutStops = table.rows.length > 0 && towards === 'tailstock' ? [...cutStops, ...found] : found;
    },
    needle: ({ against: on }) => {
      if (on !== 'cylinder') fail(`no ${on}`);
      // A centre on the operator's side of the axis has the far side of the cylinder farther in its swing.
      return 2 * centre[0];
    },
    measure: ({ what }) => {
      const error = ['depth', 'height'].includes(what) ? hidden.length() : hidden.diameter();
      return sizeOf(what) + error;
    },
    change: (control, by, way) => {
      free_(control);
      if (cutStops.length > 0) {
        if (control !== 'cross-slide') fail(`nobody changes ${control}`);
        shift += (way === 'to-axis' ? -1 : 1) * by.value + hidden.offsetChange();
      } else if (control === 'swivel-tool') {
        shift += (way === 'open' ? 1 : -1) * by.value + hidden.radiusChange();
      } else if (control === 'cross-slide') {
        centre = [centre[0] + (way === 'operator' ? 1 : -1) * by.value + hidden.offsetChange(), centre[1], centre[2]];
      } else fail(`nobody changes ${control}`);
    },
    left: surface,
    verdict: () => {
      if (cutStops.length > 0) return judgedStops(drawing, cutStops, nose(), leaves);
      return judged(drawing, surface(), passes.flat());
    },
  };
}
