/**
 * Parts with a sphere, as a drawing has them, and what was cut judged against them. Heights along the work's axis from
 * the sphere's centre, positive towards the free end.
 */
import type { SphereTarget } from 'generatrix';
import { type Place, sphereThrough } from './space.js';

/** A drawing, from its target by plain geometry. */
export interface Drawing {
  readonly side: 'ball' | 'socket';
  readonly radius: number;
  /** Diameter and height of the ends of the surface, towards the free end and towards the held one. */
  readonly free: Place;
  readonly held: Place;
  /** Diameter of a flat in which the free end is cut off; 0 at a pole, the stem's beside one. */
  readonly freeIs: 'pole' | 'flat' | 'stem' | 'rim';
  readonly heldIs: 'stem' | 'rim' | 'pole';
}

/** The drawing of a target. */
export function drawingOf(target: SphereTarget): Drawing {
  const radius = target.radius ?? (target.diameter === undefined ? roundOf(target) : target.diameter / 2);
  const height = (diameter: number): number => Math.sqrt(Math.max(0, radius ** 2 - diameter ** 2 / 4));
  const pole = { rho: 0, z: radius };
  switch (target.part) {
    case 'ball-on-stem':
      return ball(pole, 'pole', { rho: target.stemDiameter / 2, z: -height(target.stemDiameter) }, 'stem');
    case 'ball-end':
      return ball(
        { rho: target.flatDiameter / 2, z: height(target.flatDiameter) },
        'flat',
        { rho: target.stemDiameter / 2, z: -height(target.stemDiameter) },
        'stem',
      );
    case 'ball-between-stems':
      return ball(
        { rho: target.freeStemDiameter / 2, z: height(target.freeStemDiameter) },
        'stem',
        { rho: target.stemDiameter / 2, z: -height(target.stemDiameter) },
        'stem',
      );
    case 'cap': {
      const z = target.height === undefined ? height(target.baseDiameter ?? 0) : radius - target.height;
      return ball(pole, 'pole', { rho: Math.sqrt(radius ** 2 - z ** 2), z }, 'rim');
    }
    default: {
      const z = target.depth === undefined ? -height(target.openingDiameter ?? 0) : target.depth - radius;
      const opening = { rho: Math.sqrt(radius ** 2 - z ** 2), z };
      const bottom = { rho: 0, z: -radius };
      return { side: 'socket', radius, free: opening, freeIs: 'rim', held: bottom, heldIs: 'pole' };
    }
  }

  function ball(free: Place, freeIs: Drawing['freeIs'], held: Place, heldIs: Drawing['heldIs']): Drawing {
    return { side: 'ball', radius, free, freeIs, held, heldIs };
  }
}

/** A cap or a socket that its chord and height state. */
function roundOf(target: SphereTarget): number {
  if (target.part === 'cap') return chord(target.baseDiameter, target.height);
  if (target.part === 'socket') return chord(target.openingDiameter, target.depth);
  throw new Error('no size');
}

function chord(diameter = 0, height = 0): number {
  return (diameter ** 2 / 4 + height ** 2) / (2 * height);
}

/** How deep a place lies in what shall stand, at the deepest; negative outside. */
export function inside({ side, radius, free, held, heldIs, freeIs }: Drawing, { rho, z }: Place): number {
  const round = Math.hypot(rho, z);
  // A socket: all the body around it, below its face.
  if (side === 'socket') return Math.min(round - radius, free.z - z);
  const depths = [Math.min(radius - round, z - held.z, free.z - z)];
  // Behind it stand the stem, or the body that a dome ends.
  if (heldIs !== 'pole') depths.push(Math.min(held.z - z, held.rho - rho));
  if (freeIs === 'stem') depths.push(Math.min(z - free.z, free.rho - rho));
  return Math.max(...depths);
}

/** How a part came out; every number is 0 where it is as drawn, lengths. */
export interface Verdict {
  /** Radius less that of the drawing. */
  readonly size: number;
  /** Width between two spheres about one centre that hold what was cut. */
  readonly form: number;
  /** Radius of what stands at the pole. */
  readonly pip: number;
  /** Where the cut ends, from where it should, at the free and at the held end. */
  readonly ends: number;
  /** The sphere's centre off its place, where a face or a shoulder tells that place. */
  readonly place: number;
  /** How deep any pass went into what shall stand. */
  readonly gouge: number;
}

/** The worst of a verdict. */
export function worst({ size, form, pip, ends, place, gouge }: Verdict): number {
  const values = [Math.abs(size), form, pip, Math.abs(ends), Math.abs(place), gouge];
  return values.every(Number.isFinite) ? Math.max(...values) : Number.POSITIVE_INFINITY;
}

/**
 * Judges the last surface, `left`, and all places where the edge has been, `been`. A ball on a stem has no place along
 * it but its own: then all is judged about its own centre.
 */
export function judged(drawing: Drawing, left: readonly Place[], been: readonly Place[]): Verdict {
  const { radius, centre } = sphereThrough(left);
  const distances = left.map(({ rho, z }) => Math.hypot(rho, z - centre));
  const placed = drawing.freeIs !== 'pole';
  const shift = placed ? 0 : centre;
  const polar = (place: Place): number => Math.atan2(place.rho, place.z - (placed ? 0 : centre));
  const byPolar = [...left].sort((a, b) => polar(a) - polar(b));
  const [first, last] = [byPolar[0] as Place, byPolar[byPolar.length - 1] as Place];
  const off = (is: Drawing['freeIs'] | Drawing['heldIs'], place: Place, wanted: Place): number => {
    if (is === 'pole') return 0;
    // A rim is where the surface runs out into face or body: it must reach so far.
    if (is === 'rim') return Math.max(0, wanted.rho - place.rho);
    if (is === 'flat') return Math.max(0, place.rho - wanted.rho);
    return place.rho - wanted.rho;
  };
  const ends = [off(drawing.freeIs, first, drawing.free), off(drawing.heldIs, last, drawing.held)];
  const pip = drawing.freeIs === 'pole' ? first.rho : drawing.heldIs === 'pole' ? last.rho : 0;
  const gouge = Math.max(0, ...been.map((place) => inside(drawing, { rho: place.rho, z: place.z - shift })));
  const flatOff =
    drawing.freeIs === 'flat' || drawing.freeIs === 'rim'
      ? Math.sqrt(Math.max(0, radius ** 2 - (drawing.free.z - centre) ** 2)) - drawing.free.rho
      : 0;
  return {
    size: radius - drawing.radius,
    form: Math.max(...distances) - Math.min(...distances),
    pip,
    ends: [...ends, flatOff].reduce((a, b) => (Math.abs(b) > Math.abs(a) ? b : a), 0),
    place: placed && drawing.freeIs === 'stem' ? centre : 0,
    gouge,
  };
}

/** A stop of a round nose: its centre, and which way it has cleared what lies beyond. */
export interface Stop extends Place {
  readonly clears: 'free' | 'held' | 'around';
}

/** Whether a place is cut away by a nose that stopped here, having come from outside a ball or the middle of a socket. */
function cleared(side: Drawing['side'], nose: number, stop: Stop, { rho, z }: Place): boolean {
  const beyond = Math.max(0, side === 'ball' ? stop.rho - rho : rho - stop.rho);
  const along = stop.clears === 'around' ? Math.abs(z - stop.z) : stop.clears === 'free' ? stop.z - z : z - stop.z;
  if (stop.clears === 'around') return Math.hypot(rho - stop.rho, along) <= nose;
  return Math.hypot(beyond, Math.max(0, along)) <= nose;
}

/** The highest ridge that stops leave on a sphere about the drawing's centre, and the deepest cut into it. */
function stopped(
  drawing: Drawing,
  stops: readonly Stop[],
  nose: number,
  leaves: number,
): { readonly size: number; readonly ridge: number; readonly gouge: number; readonly touched: readonly Place[] } {
  const { side, radius, free, held } = drawing;
  const out = side === 'ball' ? 1 : -1;
  const touched = stops.map(({ rho, z }) => {
    const from = Math.hypot(rho, z);
    const shrink = (from - out * nose) / from;
    return { rho: rho * shrink, z: z * shrink };
  });
  // Beyond the first and the last place touched stands the fillet of the nose beside stem, flat or body.
  const polars = touched.map(({ rho, z }) => Math.atan2(rho, z));
  const [from, to] = [
    Math.max(Math.atan2(free.rho, free.z), Math.min(...polars)),
    Math.min(Math.atan2(held.rho, held.z), Math.max(...polars)),
  ];
  let ridge = 0;
  for (let i = 1; i < 150; i++) {
    const polar = from + ((to - from) * i) / 150;
    // From well outside what may be left, towards the sphere, until it is cut away no more.
    const most = Math.min(5 * leaves + 0.02 * radius, 0.5 * radius);
    let height = 0;
    for (let k = 0; k <= 30; k++) {
      const here = (most * (30 - k)) / 30;
      const at = radius + out * here;
      const place = { rho: at * Math.sin(polar), z: at * Math.cos(polar) };
      if (stops.some((stop) => cleared(side, nose, stop, place))) continue;
      height = here;
      break;
    }
    ridge = Math.max(ridge, height);
  }
  const sizes = touched.map(({ rho, z }) => out * (Math.hypot(rho, z) - radius));
  // Beside a stem or a face the nose may stand off the sphere's zone: there it must only not cut in.
  const gouge = Math.max(0, ...stops.flatMap((stop) => around(stop, nose).map((place) => inside(drawing, place))));
  return { size: Math.max(...sizes.map(Math.abs)), ridge, gouge, touched };
}

function around({ rho, z }: Place, nose: number): readonly Place[] {
  return Array.from({ length: 90 }, (_, i) => {
    const t = (2 * Math.PI * i) / 90;
    return { rho: Math.abs(rho + nose * Math.cos(t)), z: z + nose * Math.sin(t) };
  });
}

/** The verdict on a part cut at many stops: ridges beyond those that the sheet tells count as form. */
export function judgedStops(drawing: Drawing, stops: readonly Stop[], nose: number, leaves: number): Verdict {
  const { size, ridge, gouge } = stopped(drawing, stops, nose, leaves);
  // Ridges are searched in steps of a thirtieth of what is searched.
  const coarse = (5 * leaves + 0.02 * drawing.radius) / 30;
  return { size, form: Math.max(0, ridge - leaves - coarse), pip: 0, ends: 0, place: 0, gouge };
}
