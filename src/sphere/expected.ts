/**
 * What to expect of a sphere: its radius and form, its pip, and the diameters at which it ends.
 *
 * A correction can mend what acts on the size: tilt, sweep and miss together, by a change of sweep and distance; a
 * swivel's radius; the zero of a slide. It cannot mend what it cannot see or move: the skew of two axes, the offset of
 * a swivel on a ball that cannot be measured aslant, the single errors of stops.
 */
import { type ExpectationInput, type Expected, expectAll, type Limited } from '../method/expect.js';
import { type SphereWork, shapeOf } from './part.js';
import { judgedEnds } from './tolerance.js';
import { type Gauge, gaugeOf } from './zone-fit.js';

/** What is cut, at first and after a correction. */
export type Cuts = Pick<ExpectationInput, 'first' | 'corrected'>;

/** The cuts of all that is judged: radius always, form where it is asked for, pip and ends as the part has them. */
export interface SphereCuts {
  readonly radius: Cuts;
  readonly form: Cuts;
  readonly pip?: Cuts;
  readonly freeEnd?: Cuts;
  readonly farEnd: Cuts;
}

/** Expectations of what the job asks for. */
export function sphereExpectations(work: SphereWork, { radius, form, ...cuts }: SphereCuts): Expected {
  const { coverage, trials, part, unit } = work;
  const common = { coverage, trials };
  const { tolerance } = part;
  const quantities: ExpectationInput[] = [
    { ...common, quantity: 'radius', tolerance: tolerance.radius, wanted: shapeOf(work).radius, ...radius },
  ];
  if (tolerance.form !== undefined) {
    quantities.push({ ...common, quantity: 'form', tolerance: tolerance.form, wanted: 0, ...form });
  }
  const ends = judgedEnds(part, unit);
  for (const end of ['pip', 'freeEnd', 'farEnd'] as const) {
    const [judged, cut] = [ends[end], cuts[end]];
    if (!judged || !cut) continue;
    const { quantity, wanted } = judged;
    quantities.push({ ...common, quantity, tolerance: judged.tolerance, wanted, ...cut });
  }
  return expectAll(quantities);
}

/** How the sphere can be measured. */
export function gaugeFor(work: SphereWork): Gauge {
  return gaugeOf(shapeOf(work));
}

/** A setting with its limit. */
export type Setting = Limited[string];

/** An error with its limit. */
export function error(plusMinus: number): Setting {
  return { value: 0, plusMinus };
}

/** A setting whose sign does not matter, by its size. */
export function evenly(most: number): Setting {
  return { value: most / 2, plusMinus: most / 2 };
}

/** What errors of measuring do to the radius found. */
export function measured(work: SphereWork): Readonly<Record<'measuredAcross' | 'measuredAlong', Setting>> {
  const { diameter, length } = work.measuring;
  const gauge = gaugeFor(work);
  return {
    measuredAcross: error(Math.abs(gauge.across) * (diameter / 2)),
    measuredAlong: error(Math.abs(gauge.along) * length),
  };
}
