/**
 * A sphere with a tool that swivels about an upright axis, as one method of cutting: centred once, it cuts the whole
 * surface in one swing, the easiest set-up.
 */
import { sinDeg } from '../../core/trigonometry.js';
import { say, tell } from '../../core/words.js';
import { type Expected, simulated } from '../../method/expect.js';
import { limit, range } from '../../method/limits.js';
import type { Method, MethodTypes } from '../../method/method.js';
import type { SourceName } from '../../method/sources.js';
import { error, evenly, gaugeFor, measured, sphereExpectations } from '../expected.js';
import { errorsFit } from '../limits.js';
import { type SpherePart, type SphereWork, shapeOf } from '../part.js';
import { swivelFormModel, swivelRadiusModel } from '../radius-models.js';
import type { SharedStep } from '../step-words.js';
import { offsetEffect } from '../zone-fit.js';
import type { swivelCorrection } from './correction.js';
import { SWIVEL_TOOL_EQUIPMENT, type SwivelTool, type SwivelToolEquipment } from './machine.js';
import { type SwivelSettings, swivelSettings } from './settings.js';
import type { swivelSurface } from './surface.js';
import type { WORDS } from './words.js';

/** The types of this method. */
export interface SwivelToolMethod extends MethodTypes {
  readonly name: 'swivel-tool';
  readonly part: SpherePart;
  readonly on: 'lathes';
  readonly equipment: SwivelToolEquipment;
  readonly needs: { readonly swivelTool: SwivelTool };
  readonly settings: SwivelSettings;
  readonly surface: ReturnType<typeof swivelSurface>;
  /** Diameters across the axis and leaning 45° towards it. */
  readonly measured: {
    /** Across the axis, at the widest place. */
    readonly diameterAcross: number;
    /** Leaning 45° towards the axis. */
    readonly diameterLeaning: number;
  };
  readonly correction: ReturnType<typeof swivelCorrection>;
  readonly limit: 'errors' | 'radius' | 'swing';
  readonly step: keyof typeof WORDS | SharedStep;
  readonly caution: 'swivel-swing';
}

const ACTING: readonly SourceName[] = ['swivelRadius', 'swivelOffset', 'toolHeight'];

export const swivelTool: Method<SwivelToolMethod> = {
  name: 'swivel-tool',
  kind: 'sphere',
  on: 'lathes',
  ease: 1,
  equipment: SWIVEL_TOOL_EQUIPMENT,
  has: (lathe): lathe is typeof lathe & { readonly swivelTool: SwivelTool } => lathe.swivelTool !== undefined,
  missing: (name) => `${name} has no swivelling tool`,
  sources: ACTING,
  setBy: null,
  assumes: () => [],
  limits: (work, { swivelTool: { smallestRadius, largestRadius } }) => {
    const { radius, side, toDeg } = shapeOf(work);
    const reach = { from: smallestRadius, to: largestRadius };
    const swings = say`a swivel before the face bores half a sphere, 90° from the bottom, the socket goes to ${tell(toDeg, { unit: '°' })}`;
    return [
      // On a small zone an offset looks like a much larger change of the radius.
      errorsFit(work, ACTING, work.setting.swivelOffset * Math.abs(offsetEffect(shapeOf(work)).radius)),
      ...range('radius', "the tool's radius", radius, reach, work.unit),
      ...(side === 'socket' ? [limit('swing', swings, toDeg, 90)] : []),
    ];
  },
  settings: ({ part }) => swivelSettings({ target: part.target }),
  limitsOfSettings: () => [],
  expected,
};

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
function expected(work: SphereWork): Expected {
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
  return sphereExpectations(
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
            model: (x: Named) =>
              radius + of(x, 'radius') - (of(x, 'across') - excess(x)) + effect.radius * offsetLeft(x),
            inputs: again,
          }
        : {
            model: (x: Named) =>
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
            model: (x: Named) => effect.form * Math.abs(offsetLeft(x)),
            inputs: { offset: again.offset, across: again.across, aslant: again.aslant },
          }
        : formAt('offset'),
    },
  );
}
