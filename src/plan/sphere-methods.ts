/**
 * The four ways to a sphere, tried on a job: tilted sweep, swivelling tool, steps, ball-ended cutter.
 *
 * Ease: a swivelling tool is centred once and cuts the whole surface in one swing (1). A tilted sweep does
 * so too, but two machine axes must be brought to meet and a tilt set (2). A ball-ended cutter needs a
 * table of positions (3). Steps need the table and leave edges to blend by hand (4).
 *
 * A correction can mend what acts on the size: tilt, sweep and miss together, by a change of sweep and
 * distance; a swivel's radius; the zero of a slide. It cannot mend what it cannot see or move: the skew of two
 * axes, the offset of a swivel on a ball that cannot be measured aslant, the single errors of stops.
 */
import { inWords } from '../core/notes.js';
import { ballCutterSteps } from '../sphere/ball-cutter/settings.js';
import { sphereSteps } from '../sphere/steps/settings.js';
import { swivelSettings } from '../sphere/swivel-tool/index.js';
import { type SphereShape, sphereShape } from '../sphere/target.js';
import { sweepClearance } from '../sphere/tilted-sweep/clearance.js';
import { sweepSettings } from '../sphere/tilted-sweep/settings.js';
import { type ExpectationInput, type Expected, expectAll, simulated } from './expect.js';
import type { Lathe, Mill, SpherePart } from './job.js';
import { attempt, cannot, type Head, limit, type Methods, missing, refused, type Trial } from './methods.js';
import type { ReadJob } from './read-job.js';
import type { Limit } from './result.js';
import {
  correctedRadiusModel,
  distanceRadiusModel,
  poleRadiusModel,
  skewFormModel,
  stepFormModel,
  stepRadiusModel,
  swivelFormModel,
  swivelRadiusModel,
} from './sphere-errors.js';
import { type Gauge, gaugeOf, offsetEffect } from './sphere-fit.js';
import { type Parts, simulateSteps, stepSensitivities } from './sphere-steps.js';

/** Tries every sphere method on every machine of the job. */
export const sphereMethods: Methods = (job, trials) => {
  const part = job.part as SpherePart;
  const shape = sphereShape(part.target);
  const work = { job, part, shape, gauge: gaugeOf(shape), trials };
  return [
    ...job.mills.flatMap((mill) => [tiltedSweep(work, mill), ballCutter(work, mill)]),
    ...job.lathes.flatMap((lathe) => [swivelTool(work, lathe), steps(work, lathe)]),
  ];
};

interface Work {
  readonly job: ReadJob;
  readonly part: SpherePart;
  readonly shape: SphereShape;
  readonly gauge: Gauge;
  readonly trials: number;
}

function tiltedSweep(work: Work, mill: Mill): Trial {
  const { part, shape } = work;
  const { boringHead, table, headTilt } = mill;
  const head: Head = { method: 'tilted-sweep', machine: mill.name, ease: 2 };
  if (!boringHead) return cannot(head, [missing(`${mill.name} has no boring head`)]);
  const { target } = part;
  const exact = sweepSettings({ target });
  const tiltDeg = Math.abs(table === 'flat' ? exact.headTiltTableFlatDeg : exact.headTiltTableUprightDeg);
  const limits = [
    limit(
      'tilt',
      `the head tilts ${headTilt.largestDeg}°, with the table ${table} this part needs ${inWords(tiltDeg)}°`,
      tiltDeg,
      headTilt.largestDeg,
    ),
    ...sweepRange(exact.tipDiameter, boringHead.dial),
    ...clearance(part, boringHead),
  ];
  return attempt(head, limits, () => {
    const settings = sweepSettings({
      target,
      head: {
        table,
        largestTiltDeg: headTilt.largestDeg,
        dial: boringHead.dial,
        ...(headTilt.stepDeg === undefined ? {} : { tiltStepDeg: headTilt.stepDeg }),
      },
    });
    const step = (boringHead.dial.step ?? 0) / (boringHead.dial.reads === 'diameter' ? 2 : 1);
    const atPole = shape.fromDeg === 0;
    return { settings, expectations: sweepExpectations(work, settings, step, atPole) };
  });
}

/** The dial's range, as it reads; a sweep smaller than the least one is out of reach as well. */
function sweepRange(
  diameter: number,
  { reads, from, to }: { readonly reads: 'radius' | 'diameter'; readonly from?: number; readonly to?: number },
): readonly Limit[] {
  const needed = reads === 'diameter' ? diameter : diameter / 2;
  const told = `the sweep needs a ${reads} of ${inWords(needed)}`;
  if (from !== undefined && needed < from) {
    const message = `the head's least sweep is a ${reads} of ${from}, ${told}`;
    return [{ code: 'sweep', message, needed, available: from, met: false }];
  }
  return to === undefined ? [] : [limit('sweep', `the head sweeps a ${reads} of up to ${to}, ${told}`, needed, to)];
}

/** The head's body must clear the part behind a tool that reaches so far. */
function clearance(part: SpherePart, { bodyRadius, toolReach }: NonNullable<Mill['boringHead']>): readonly Limit[] {
  if (bodyRadius === undefined || toolReach === undefined) return [];
  try {
    const { leastReach, firstCollision, clearances } = sweepClearance({
      target: part.target,
      headDiameter: 2 * bodyRadius,
      reach: toolReach,
    });
    const first = clearances[0];
    // A tool that touches by itself is not helped by more reach.
    if (firstCollision && first && !firstCollision.startsWith('head')) {
      return [{ code: 'clearance', message: `${firstCollision} overlap by ${inWords(-first.distance)}`, met: false }];
    }
    return [
      limit(
        'clearance',
        `the tool reaches ${toolReach} before the head, which clears the part from ${inWords(leastReach)} on`,
        leastReach,
        // Rounding at the very reach that just clears is no collision.
        firstCollision ? toolReach : Math.max(toolReach, leastReach),
      ),
    ];
  } catch (error) {
    return [{ ...refused(error), code: 'clearance' }];
  }
}

function sweepExpectations(
  work: Work,
  { sweep, settable }: ReturnType<typeof sweepSettings>,
  step: number,
  atPole: boolean,
): Expected {
  const { job, shape, gauge } = work;
  const { side } = shape;
  const { headTiltDeg, miss, position, resettingFraction, skew, sweepRadius } = job.setting;
  const { tiltDeg, sweepRadius: set, distance } = settable.sweep;
  const skewSize = evenly(skew);
  const common = {
    tiltDeg: { value: tiltDeg, plusMinus: headTiltDeg },
    sweepRadius: { value: set, plusMinus: sweepRadius },
    miss: { value: 0, plusMinus: miss },
    skewSize,
  };
  const form = {
    model: skewFormModel(side),
    inputs: { sweepRadius: common.sweepRadius, distance: { value: distance, plusMinus: 0 }, skewSize },
  };
  // Where along the sweep the measured place lies: at its ends if rim and pole are measured.
  const tilt = (sweep.tiltDeg * Math.PI) / 180;
  const cosine = sweep.distance / Math.tan(tilt) / sweep.sweepRadius;
  const sine = gauge.atDeg === 90 ? Math.sqrt(Math.max(0, 1 - cosine * cosine)) : 0;
  return expectations(
    work,
    {
      first: atPole
        ? { model: poleRadiusModel(side), inputs: common }
        : {
            model: distanceRadiusModel(side),
            inputs: { ...common, distance: { value: distance, plusMinus: position } },
          },
      corrected: {
        model: correctedRadiusModel(side, sine),
        inputs: {
          // The tilt stays as it is; what it did to the size is corrected with the rest.
          tiltDeg: { value: sweep.tiltDeg, plusMinus: 0 },
          sweepRadius: { value: sweep.sweepRadius, plusMinus: Math.max(sweepRadius * resettingFraction, step / 2) },
          distance: { value: sweep.distance, plusMinus: atPole ? 0 : position * resettingFraction },
          miss: { value: 0, plusMinus: miss * resettingFraction },
          skewSize,
          ...measured(work),
        },
      },
    },
    { first: form, corrected: form },
  );
}

/** A setting whose sign does not matter, by its size. */
function evenly(most: number): Setting {
  return { value: most / 2, plusMinus: most / 2 };
}

/** What errors of measuring do to the radius found. */
function measured({ job, gauge }: Work): Readonly<Record<'measuredAcross' | 'measuredAlong', Setting>> {
  const { diameter, length } = job.measuring;
  return {
    measuredAcross: { value: 0, plusMinus: Math.abs(gauge.across) * (diameter / 2) },
    measuredAlong: { value: 0, plusMinus: Math.abs(gauge.along) * length },
  };
}

function swivelTool(work: Work, lathe: Lathe): Trial {
  const { part, shape } = work;
  const { swivelTool: tool } = lathe;
  const head: Head = { method: 'swivel-tool', machine: lathe.name, ease: 1 };
  if (!tool) return cannot(head, [missing(`${lathe.name} has no swivelling tool`)]);
  const { radius, side, toDeg } = shape;
  const { smallestRadius, largestRadius } = tool;
  const limits: Limit[] = [
    radius < smallestRadius
      ? {
          code: 'radius',
          message: `the tool swings a radius of at least ${smallestRadius}, the part has ${inWords(radius)}`,
          needed: radius,
          available: smallestRadius,
          met: false,
        }
      : limit(
          'radius',
          `the tool swings a radius of up to ${largestRadius}, the part has ${inWords(radius)}`,
          radius,
          largestRadius,
        ),
  ];
  if (side === 'socket') {
    limits.push(
      limit(
        'swing',
        `a swivel before the face bores half a sphere, 90° from the bottom, the socket goes to ${inWords(toDeg)}°`,
        toDeg,
        90,
      ),
    );
  }
  return attempt(head, limits, () => ({
    settings: swivelSettings({ target: part.target }),
    expectations: swivelExpectations(work),
  }));
}

/** Least angle between a micrometer leaning towards the work axis and that axis: as `swivelCorrection` takes it. */
const LEAN_DEG = 45;

/**
 * A ball that can be measured aslant shows radius and offset apart, and both are mended; any other shows one
 * radius, so that the tool's radius is made right and the offset stays.
 */
function swivelExpectations(work: Work): Expected {
  const { job, shape, gauge, trials } = work;
  const { radius, side, fromDeg, toDeg } = shape;
  const { swivelRadius, swivelOffset, toolHeight, resettingFraction } = job.setting;
  const effect = offsetEffect(shape);
  const aslant = side === 'ball' && fromDeg <= LEAN_DEG && toDeg >= 180 - LEAN_DEG;
  const again = {
    radius: error(swivelRadius * resettingFraction),
    offset: error(swivelOffset * resettingFraction),
    across: error(job.measuring.diameter / 2),
    aslant: error(job.measuring.diameter / 2),
  };
  // The offset is found too large by this much, the radius by the rest of what was measured across.
  const excess = (x: Named): number => (of(x, 'across') - of(x, 'aslant')) / (1 - Math.sin((LEAN_DEG * Math.PI) / 180));
  const offsetLeft = (x: Named): number => of(x, 'offset') - excess(x);
  // The budget takes the offset's size; the parts are those whose radius is drawn.
  const formAt = (name: string): { readonly values: Float64Array } => ({
    values: simulated(
      { model: (x) => effect.form * Math.abs(of(x, name)), inputs: { [name]: error(swivelOffset) } },
      { coverage: job.coverage, trials },
    ),
  });
  return expectations(
    work,
    {
      first: {
        model: swivelRadiusModel(side, effect.radius),
        inputs: {
          swivelRadius: { value: radius, plusMinus: swivelRadius },
          centreOffset: error(swivelOffset),
          centreHeight: error(toolHeight),
        },
      },
      corrected: aslant
        ? {
            model: (x) => radius + of(x, 'radius') - (of(x, 'across') - excess(x)) + effect.radius * offsetLeft(x),
            inputs: again,
          }
        : {
            model: (x) =>
              radius +
              of(x, 'radius') +
              of(x, 'measuredAcross') +
              of(x, 'measuredAlong') +
              (effect.radius - gauge.across) * of(x, 'offset'),
            inputs: { radius: again.radius, offset: error(swivelOffset), ...measured(work) },
          },
    },
    {
      first: {
        model: swivelFormModel(effect.form),
        inputs: { offsetSize: evenly(swivelOffset) },
        ...formAt('centreOffset'),
      },
      corrected: aslant
        ? {
            model: (x) => effect.form * Math.abs(offsetLeft(x)),
            inputs: { offset: again.offset, across: again.across, aslant: again.aslant },
          }
        : formAt('offset'),
    },
  );
}

type Setting = { readonly value: number; readonly plusMinus: number };

function error(plusMinus: number): Setting {
  return { value: 0, plusMinus };
}

/** A table of positions longer than this nobody sets by hand: common practice, no source. */
const MOST_PLACES = 200;

/** Ridges may take this part of the form tolerance (of the radius's, if none is given); positions need the rest. */
const RIDGE_SHARE = 0.5;

function ridge({ tolerance }: SpherePart): number {
  return RIDGE_SHARE * (tolerance.form ?? tolerance.radius);
}

function tableLimit(count: number, leftover: number): Limit {
  return limit(
    'steps',
    `ridges of at most ${inWords(leftover)} need ${count} positions, more than ${MOST_PLACES} nobody sets by hand`,
    count,
    MOST_PLACES,
  );
}

function steps(work: Work, lathe: Lathe): Trial {
  const { part, job } = work;
  const head: Head = { method: 'steps', machine: lathe.name, ease: 4 };
  const { slides } = lathe;
  if (!slides) return cannot(head, [missing(`the slides of ${lathe.name} are not described`)]);
  const { noseRadius, step } = slides;
  const leftover = ridge(part);
  try {
    const settings = sphereSteps({ target: part.target, noseRadius, leftover });
    const angles = settings.steps.map(({ polarAngleDeg }) => polarAngleDeg).sort((a, b) => a - b);
    return attempt(head, [tableLimit(angles.length, leftover)], () => ({
      settings,
      expectations: steppedExpectations(work, {
        angles,
        leftover: settings.leftover,
        noseRadius,
        shouldered: true,
        zero: job.setting.touchOff / 2,
        step,
      }),
    }));
  } catch (failure) {
    return cannot(head, [refused(failure)]);
  }
}

function ballCutter(work: Work, mill: Mill): Trial {
  const { part, shape, job } = work;
  const head: Head = { method: 'ball-cutter', machine: mill.name, ease: 3 };
  const cutters = [...(mill.ballCutters ?? [])].sort((a, b) => b - a);
  const smallest = cutters.at(-1);
  if (smallest === undefined) return cannot(head, [missing(`${mill.name} has no ball-ended cutter`)]);
  const { side, radius } = shape;
  // The largest that fits leaves the lowest ridges. It must be smaller than the socket, not as large.
  const cutter = cutters.find((diameter) => side === 'ball' || diameter < 2 * radius);
  if (cutter === undefined) {
    const message = `the smallest cutter's radius is ${smallest / 2}, it must be less than the socket's, ${inWords(radius)}`;
    return cannot(head, [{ code: 'cutter', message, needed: radius, available: smallest / 2, met: false }]);
  }
  const leftover = ridge(part);
  try {
    const settings = ballCutterSteps({ target: part.target, cutterRadius: cutter / 2, leftover });
    const angles = settings.passes.map(({ polarAngleDeg }) => polarAngleDeg);
    return attempt(
      head,
      [...cutterReach(shape, angles.at(-1) ?? 0, mill), tableLimit(angles.length, leftover)],
      () => ({
        settings,
        expectations: steppedExpectations(work, {
          angles,
          leftover: settings.leftover,
          noseRadius: cutter / 2,
          shouldered: false,
          zero: job.setting.miss,
          step: 0,
        }),
      }),
    );
  } catch (failure) {
    return cannot(head, [refused(failure)]);
  }
}

/**
 * A ball end cuts where the surface looks within 90° of the cutter's axis. Beside a level work axis it reaches
 * all of a ball; along an upright one up to the widest place, and past it by the tilt of the head. Into a
 * socket it goes along the axis only.
 */
function cutterReach({ side }: SphereShape, lastDeg: number, { table, headTilt }: Mill): readonly Limit[] {
  const past = Math.max(0, lastDeg - 90);
  if (side === 'socket') {
    const along = table === 'flat' ? 0 : 90;
    return [
      limit(
        'reach',
        `a cutter along the axis bores half a sphere, the last pass lies at ${inWords(lastDeg)}°`,
        lastDeg,
        90,
      ),
      limit(
        'tilt',
        `the head tilts ${headTilt.largestDeg}°, to lie along the axis it must tilt ${along}°`,
        along,
        headTilt.largestDeg,
      ),
    ];
  }
  return table === 'upright'
    ? []
    : [
        limit(
          'tilt',
          `the head tilts ${headTilt.largestDeg}°, the last pass needs ${inWords(past)}°`,
          past,
          headTilt.largestDeg,
        ),
      ];
}

function steppedExpectations(
  work: Work,
  cut: {
    readonly angles: readonly number[];
    readonly leftover: number;
    readonly noseRadius: number;
    readonly shouldered: boolean;
    readonly zero: number;
    readonly step: number;
  },
): Expected {
  const { job, shape, gauge, trials } = work;
  const { side, radius } = shape;
  const { leftover, zero } = cut;
  // Stops lie on graduations where a dial has them.
  const position = Math.max(job.setting.position, cut.step / 2);
  const angles = cut.angles.map((deg) => (deg * Math.PI) / 180);
  const { first, corrected } = simulateSteps(
    {
      ...cut,
      side,
      radius,
      angles,
      gauge,
      limits: { position, zero, moved: zero * job.setting.resettingFraction, ...job.measuring },
    },
    trials,
  );
  const mean = first.form.reduce((sum, value) => sum + value, 0) / trials;
  const deviation = Math.sqrt(first.form.reduce((sum, value) => sum + (value - mean) ** 2, 0) / trials);
  const inputs = { zero: error(zero), across: error(position), along: error(position) };
  const run = (values: Parts, which: keyof Parts): { readonly values: Float64Array } => ({ values: values[which] });
  return expectations(
    work,
    {
      first: { model: stepRadiusModel(side, radius, stepSensitivities(angles)), inputs, ...run(first, 'radius') },
      corrected: run(corrected, 'radius'),
    },
    {
      first: {
        model: stepFormModel,
        inputs: {
          leftover: { value: leftover, plusMinus: 0 },
          spread: { value: mean - leftover, plusMinus: Math.sqrt(3) * deviation },
        },
        ...run(first, 'form'),
      },
      corrected: run(corrected, 'form'),
    },
  );
}

type Cuts = Pick<ExpectationInput, 'first' | 'corrected'>;

/** Expectations of what the job asks for. */
function expectations({ job, part, shape, trials }: Work, radius: Cuts, form: Cuts): Expected {
  const common = { coverage: job.coverage, trials };
  const { tolerance } = part;
  return expectAll([
    { ...common, quantity: 'radius', tolerance: tolerance.radius, wanted: shape.radius, ...radius },
    ...(tolerance.form === undefined
      ? []
      : [{ ...common, quantity: 'form', tolerance: tolerance.form, wanted: 0, ...form }]),
  ]);
}

type Named = Readonly<Record<string, number>>;

function of(x: Named, name: string): number {
  return x[name] as number;
}
