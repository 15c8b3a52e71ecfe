/** What to expect of a sphere cut by a swivelling tool: what the stated limits make of all that is judged. */
import { plainArithmetic } from '../../budget/arithmetic.js';
import { sinDeg } from '../../core/trigonometry.js';
import { type Expected, simulated } from '../../method/expect.js';
import { type Cuts, error, evenly, gaugeFor, measured, sphereExpectations } from '../expected.js';
import { type SphereWork, shapeOf } from '../part.js';
import { type SwivelEnd, swivelEndModel, swivelFormModel, swivelRadiusModel } from '../radius-models.js';
import { offsetEffect } from '../zone-fit.js';

/** Least angle between a micrometer leaning towards the work axis and that axis: as `swivelCorrection` takes it. */
const LEAN_DEG = 45;

type Named = Readonly<Record<string, number>>;

function of(x: Named, name: string): number {
  return x[name] as number;
}

/**
 * A ball that can be measured aslant shows radius and offset apart, and both are mended; any other shows one
 * radius, so that the tool's radius is made right and the offset stays.
 */
export function swivelExpectations(work: SphereWork): Expected {
  const { setting, measuring, coverage, trials } = work;
  const shape = shapeOf(work);
  const gauge = gaugeFor(work);
  const { radius, side, fromDeg, toDeg } = shape;
  const { swivelRadius, swivelOffset, toolHeight, resettingFraction } = setting;
  const effect = offsetEffect(shape);
  const aslant = side === 'ball' && fromDeg <= LEAN_DEG && toDeg >= 180 - LEAN_DEG;
  const again = {
    radius: error(swivelRadius * resettingFraction),
    offset: error(swivelOffset * resettingFraction),
    across: error(measuring.diameter / 2),
    aslant: error(measuring.diameter / 2),
  };
  // The offset is found too large by this much, the radius by the rest of what was measured across.
  const excess = (x: Named): number => (of(x, 'across') - of(x, 'aslant')) / (1 - sinDeg(LEAN_DEG));
  const offsetLeft = (x: Named): number => of(x, 'offset') - excess(x);
  // The budget takes the offset's size; the parts are those whose radius is drawn.
  const formAt = (name: string): { readonly values: Float64Array } => ({
    values: simulated(
      { model: (x: Named) => effect.form * Math.abs(of(x, name)), inputs: { [name]: error(swivelOffset) } },
      { coverage, trials },
    ),
  });
  // What a correction leaves of the tool's radius, less the one wanted, and of the offset.
  const radiusAgain = (x: Named): number => of(x, 'radius') - (of(x, 'across') - excess(x));
  const radiusKept = (x: Named): number =>
    of(x, 'radius') + of(x, 'measuredAcross') + of(x, 'measuredAlong') - gauge.across * of(x, 'offset');
  const stays = {
    centreHeight: error(toolHeight),
    headstockPlanDeg: error(setting.headstockPlanDeg),
    headstockUprightDeg: error(setting.headstockUprightDeg),
  };
  const inputs = {
    ...stays,
    swivelRadius: { value: radius, plusMinus: swivelRadius },
    centreOffset: error(swivelOffset),
    position: error(setting.position),
  };
  const kept = { radius: again.radius, offset: error(swivelOffset), ...measured(work) };
  const at = (end: SwivelEnd): Cuts => {
    const [exact, smooth] = [swivelEndModel(radius, end, false), swivelEndModel(radius, end, true)];
    const values = simulated({ model: exact, inputs }, { coverage, trials });
    const left = (x: Named): number =>
      exact.evaluate(plainArithmetic, {
        swivelRadius: radius + (aslant ? radiusAgain(x) : radiusKept(x)),
        centreOffset: aslant ? offsetLeft(x) : of(x, 'offset'),
        centreHeight: of(x, 'centreHeight'),
        position: of(x, 'position'),
        headstockPlanDeg: of(x, 'headstockPlanDeg'),
        headstockUprightDeg: of(x, 'headstockUprightDeg'),
      });
    return {
      first: { model: smooth, inputs, values },
      corrected: { model: left, inputs: { ...stays, ...(aslant ? again : kept), position: inputs.position } },
    };
  };
  const { part, fromDiameter, fromHeight, toDiameter, toHeight } = shape;
  const free = at({ diameter: fromDiameter, height: fromHeight, faced: part === 'ball-end' });
  return sphereExpectations(work, {
    ...(fromDeg === 0 ? { pip: free } : { freeEnd: free }),
    farEnd: at({ diameter: toDiameter, height: toHeight, faced: side === 'socket' }),
    radius: {
      first: {
        model: swivelRadiusModel(side, effect.radius),
        inputs: {
          swivelRadius: { value: radius, plusMinus: swivelRadius },
          centreOffset: error(swivelOffset),
          centreHeight: error(toolHeight),
        },
      },
      corrected: aslant
        ? { model: (x: Named) => radius + radiusAgain(x) + effect.radius * offsetLeft(x), inputs: again }
        : { model: (x: Named) => radius + radiusKept(x) + effect.radius * of(x, 'offset'), inputs: kept },
    },
    form: {
      first: {
        model: swivelFormModel(effect.form),
        inputs: { offsetSize: evenly(swivelOffset) },
        ...formAt('centreOffset'),
      },
      corrected: aslant
        ? {
            model: (x: Named) => effect.form * Math.abs(offsetLeft(x)),
            inputs: { offset: again.offset, across: again.across, aslant: again.aslant },
          }
        : formAt('offset'),
    },
  });
}
