/**
 * What a sweep leaves of all that is judged, over the caller's arithmetic: from the settings with their errors, and
 * again after the correction that the sheet tells. The circle of the nose's centre stands at h sin α ∓ r cos α from the
 * work's axis at its two places in the plane of the axes; skew counts by its size.
 *
 * The tip is placed by hand, over the centre or beside a stem, so that errors of tilt and sweep move the sweep's plane:
 * h = (place + miss + r cos α) / sin α. A ball past its widest place is corrected by its size and its pip, the tilt kept
 * (`sweepCorrection`); a dome or a socket by its tilt, the sweep kept (`socketTiltCorrection`).
 */
import type { Arithmetic, Model, Quantity } from '../../budget/model.js';
import type { SphereShape } from '../target.js';
import { cutRadius, distanceOverPole } from './models.js';

/** What is known of the cut beside its settings. Lengths; those of the nose's centre where not said otherwise. */
export interface Cut {
  readonly side: 'ball' | 'socket';
  readonly part: SphereShape['part'];
  readonly noseRadius: number;
  /** The sweep's radius that the graduations give, and the radius on which it shall run. */
  readonly set: number;
  readonly path: number;
  /** Where the nose's centre is placed, from the work's axis: 0 over the centre. */
  readonly place: number;
  /** Height of the face over the lowest place of the nose at the free end: of a ball's flat, of a socket's face. */
  readonly face: number;
  /** What the trial of a ball leaves to feed along the spindle. */
  readonly left: number;
  /** Height of a ball's flat over the sphere's centre, and its half width at the trial. */
  readonly flat: { readonly height: number; readonly trial: number };
  /** Whether the radius is measured across the widest place of the surface, not by chord and height between its ends. */
  readonly across: boolean;
  /** How the part is corrected. */
  readonly by: 'size' | 'tilt';
}

/** A sweep as it stood for a cut. */
interface Stood<T> {
  readonly tiltDeg: T;
  readonly sweepRadius: T;
  readonly distance: T;
  readonly skewSize: T;
  /** Of the face against the tip. */
  readonly faceError: T;
}

/** What is judged. */
export type SweptQuantity = 'radius' | 'pip' | 'free-stem' | 'flat' | 'stem' | 'base' | 'opening';

/** Inputs of the first cut. */
export type FirstInput = 'tiltDeg' | 'sweepRadius' | 'miss' | 'position' | 'skewSize';
/** Inputs of the cut after a correction. */
export type AgainInput =
  | FirstInput
  | `measured${'Across' | 'Along' | 'End'}`
  | 'tiltAgainDeg'
  | `${'sweep' | 'distance' | 'miss' | 'position'}Again`;

const length = (meaning: string): Quantity => ({ kind: 'length', meaning });
const FIRST: Readonly<Record<FirstInput, Quantity>> = {
  tiltDeg: { kind: 'angleDeg', meaning: 'angle between the spindle axis and the work axis' },
  sweepRadius: length("radius of the sweep, of the tip or the nose's centre"),
  miss: length('sideways error in the plane of the two axes'),
  position: length('error of the place along the work axis'),
  skewSize: length('distance at which the two axes pass each other, of either sign'),
};
const AGAIN: Readonly<Record<AgainInput, Quantity>> = {
  ...FIRST,
  measuredAcross: length('error of the radius found from that of a diameter'),
  measuredAlong: length('error of the radius found from that of a height'),
  measuredEnd: length('error of the diameter of pip or flat'),
  tiltAgainDeg: { kind: 'angleDeg', meaning: 'error of the change of tilt' },
  sweepAgain: length('error of the change of the sweep'),
  distanceAgain: length('error of the change along the spindle'),
  missAgain: length('sideways error of the second cut'),
  positionAgain: length('error of the second place along the work axis'),
};

/** The mean of sin t over equal steps of cos t: equal areas along the path. */
const MEAN_SINE = Math.PI / 4;

/**
 * Radius of the surface at an angle t of the sweep: with a skew e its path lies at h² + r² + e² ∓ 2 r e sin t from the
 * point where the axes pass each other: a ball comes out smaller and a socket larger.
 */
function radiusAt<T>(a: Arithmetic<T>, cut: Cut, { sweepRadius: r, distance, skewSize: e }: Stood<T>, sineAt: T): T {
  const { side, noseRadius } = cut;
  const lost = a.multiply(a.multiply(a.constant(side === 'ball' ? -2 : 2), sineAt), a.multiply(r, e));
  const path = a.sqrt(a.add(a.add(a.square(distance), a.square(r)), a.add(a.square(e), lost)));
  return a.add(path, a.constant(side === 'ball' ? -noseRadius : noseRadius));
}

/** Radius as it is measured: the widest place lies where the sweep is level with the sphere's centre. */
function measuredRadius<T>(a: Arithmetic<T>, cut: Cut, stood: Stood<T>): T {
  if (!cut.across) return radiusAt(a, cut, stood, a.constant(0));
  const { tiltDeg, sweepRadius, distance } = stood;
  const cosine = a.divide(distance, a.multiply(sweepRadius, a.tanDeg(tiltDeg)));
  return radiusAt(a, cut, stood, a.sqrt(notBelow(a, a.subtract(a.constant(1), a.square(cosine)), 0)));
}

/** A quantity of the part that a sweep leaves; `smooth` for a budget, without what only large errors do. */
function left<T>(a: Arithmetic<T>, cut: Cut, quantity: SweptQuantity, stood: Stood<T>, smooth: boolean): T {
  if (quantity === 'radius') return radiusAt(a, cut, stood, a.constant(MEAN_SINE));
  const { tiltDeg, sweepRadius: r, distance: h } = stood;
  const [sin, cos] = [a.sinDeg(tiltDeg), a.cosDeg(tiltDeg)];
  const [across, along] = [a.multiply(h, sin), a.multiply(h, cos)];
  const [near, far] = [a.subtract(across, a.multiply(r, cos)), a.add(across, a.multiply(r, cos))];
  const twice = (value: T): T => a.multiply(a.constant(2), value);
  const nose = a.constant(cut.noseRadius);
  if (quantity === 'stem') return twice(a.subtract(far, nose));
  if (quantity === 'free-stem') return twice(a.subtract(near, nose));
  const radius = cutRadius(a, cut.side, r, h, nose);
  // The nose touches the sphere on the line to its centre.
  const scale = a.divide(radius, a.sqrt(a.add(a.square(h), a.square(r))));
  if (quantity === 'base') return twice(a.multiply(scale, far));
  if (quantity === 'pip') {
    const size = smooth ? a.add(near, stood.skewSize) : a.sqrt(a.add(a.square(near), a.square(stood.skewSize)));
    return twice(a.multiply(scale, size));
  }
  const deepest = a.add(a.add(along, a.multiply(r, sin)), cut.side === 'ball' ? a.negate(nose) : nose);
  const face = a.add(a.add(deepest, a.constant(cut.face)), stood.faceError);
  if (quantity === 'flat' || smooth) return twice(chord(a, radius, face));
  // A sweep that ends before the face leaves the bore above it as wide as its end.
  const end = a.multiply(scale, a.subtract(along, a.multiply(r, sin)));
  return twice(chord(a, radius, greater(a, end, face)));
}

function chord<T>(a: Arithmetic<T>, radius: T, height: T): T {
  return a.sqrt(notBelow(a, a.subtract(a.square(radius), a.square(height)), 0));
}

function greater<T>(a: Arithmetic<T>, x: T, y: T): T {
  return a.multiply(a.constant(0.5), a.add(a.add(x, y), a.abs(a.subtract(x, y))));
}

function notBelow<T>(a: Arithmetic<T>, x: T, least: number): T {
  return greater(a, x, a.constant(least));
}

type First<T> = Readonly<Record<FirstInput, T>>;
type Again<T> = Readonly<Record<AgainInput, T>>;

/** The sweep with its tip placed. */
function placed<T>(a: Arithmetic<T>, cut: Cut, { tiltDeg, sweepRadius, miss, position, skewSize }: First<T>): Stood<T> {
  const distance = distanceOverPole(a, sweepRadius, tiltDeg, a.add(a.constant(cut.place), miss));
  return { tiltDeg, sweepRadius, distance, skewSize, faceError: position };
}

/** Angular radius of a sweep seen from the centre of a sphere on which it runs. */
function angular<T>(a: Arithmetic<T>, sweepRadius: number, path: T): T {
  return a.asinDeg(sine(a, a.divide(a.constant(sweepRadius), path)));
}

/** What errors as large as the part took beyond a sine, a right angle's: of a sphere smaller than the sweep, of a pip wider than it. */
function sine<T>(a: Arithmetic<T>, x: T): T {
  return notBelow(a, a.subtract(a.constant(1), notBelow(a, a.subtract(a.constant(1), x), 0)), -1);
}

/** The trial measured, sweep and distance changed: by the size alone between stems, by the pip too. */
function sized<T>(a: Arithmetic<T>, cut: Cut, inputs: Again<T>): Stood<T> {
  const { set, path, noseRadius, side } = cut;
  const first = placed(a, cut, inputs);
  const { tiltDeg, sweepRadius, skewSize } = first;
  const trial = { ...first, distance: a.add(first.distance, a.constant(cut.left)) };
  const measured = a.add(measuredRadius(a, cut, trial), inputs.measuredAcross);
  const found = a.add(measured, a.constant(side === 'ball' ? noseRadius : -noseRadius));
  const half = angular(a, set, found);
  let seen = half;
  if (cut.part === 'ball-on-stem') {
    const pip = a.add(left(a, cut, 'pip', trial, false), inputs.measuredEnd);
    seen = a.add(half, a.asinDeg(sine(a, a.divide(pip, a.multiply(a.constant(2), measured)))));
  }
  const wanted = a.constant(path);
  const out = a.sqrt(notBelow(a, a.subtract(a.square(found), a.constant(set * set)), 0));
  const radiusChange = a.subtract(a.multiply(wanted, a.sinDeg(seen)), a.constant(set));
  const distanceChange = a.subtract(a.multiply(wanted, a.cosDeg(seen)), out);
  const sideways = a.divide(inputs.missAgain, a.sinDeg(tiltDeg));
  return {
    tiltDeg,
    sweepRadius: a.add(a.add(sweepRadius, radiusChange), inputs.sweepAgain),
    distance: a.add(a.add(trial.distance, distanceChange), a.add(inputs.distanceAgain, sideways)),
    skewSize,
    faceError: inputs.positionAgain,
  };
}

/** The trial measured, the head tilted again, the tip placed and the face touched again. */
function tilted<T>(a: Arithmetic<T>, cut: Cut, inputs: Again<T>): Stood<T> {
  const first = placed(a, cut, inputs);
  const measured = a.add(measuredRadius(a, cut, first), a.add(inputs.measuredAcross, inputs.measuredAlong));
  const found = a.add(measured, a.constant(cut.side === 'ball' ? cut.noseRadius : -cut.noseRadius));
  const change = a.subtract(angular(a, cut.set, a.constant(cut.path)), angular(a, cut.set, found));
  const tiltDeg = a.add(a.add(inputs.tiltDeg, change), inputs.tiltAgainDeg);
  return placed(a, cut, { ...inputs, tiltDeg, miss: inputs.missAgain, position: inputs.positionAgain });
}

/** The flat after the last correction: its height over the centre is known as well as radius and flat were measured. */
function flatAgain<T>(a: Arithmetic<T>, cut: Cut, inputs: Again<T>, stood: Stood<T>): T {
  const { height, trial } = cut.flat;
  const over = Math.hypot(height, trial);
  const wrong = a.subtract(
    a.multiply(a.constant(over / height), inputs.measuredAcross),
    a.multiply(a.constant(trial / height / 2), inputs.measuredEnd),
  );
  const face = a.add(a.add(a.constant(height), wrong), inputs.positionAgain);
  return a.multiply(a.constant(2), chord(a, radiusAt(a, cut, stood, a.constant(0)), face));
}

const RESULTS: Readonly<Record<SweptQuantity, string>> = {
  radius: 'radius of the sphere',
  pip: 'diameter of the pip at the pole',
  'free-stem': 'diameter left of the free stem',
  flat: 'diameter of the flat on the free end',
  stem: 'diameter left of the stem',
  base: 'diameter at which the dome ends',
  opening: 'diameter of the opening',
};

/** A quantity of the first cut; `smooth` is the model for a budget, which counts `miss` by its size for a pip. */
export function firstCut(cut: Cut, quantity: SweptQuantity, smooth = false): Model<FirstInput> {
  return {
    name: `swept-${quantity}`,
    result: length(RESULTS[quantity]),
    inputs: FIRST,
    evaluate: (a, inputs) => left(a, cut, quantity, placed(a, cut, inputs), smooth),
  };
}

/** A quantity of the cut after one correction. */
export function correctedCut(cut: Cut, quantity: SweptQuantity): Model<AgainInput> {
  return {
    name: `corrected-${quantity}`,
    result: length(RESULTS[quantity]),
    inputs: AGAIN,
    evaluate: (a, inputs) => {
      const stood = cut.by === 'size' ? sized(a, cut, inputs) : tilted(a, cut, inputs);
      if (quantity === 'flat') return flatAgain(a, cut, inputs, stood);
      return left(a, cut, quantity, stood, false);
    },
  };
}
