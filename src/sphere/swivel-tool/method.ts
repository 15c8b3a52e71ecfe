/**
 * A sphere with a tool that swivels about an upright axis, as one method of cutting: centred once, it cuts the whole
 * surface in one swing, the easiest set-up.
 */
import { say, tell } from '../../core/words.js';
import { limit, range } from '../../method/limits.js';
import type { Method, MethodTypes } from '../../method/method.js';
import type { SourceName } from '../../method/sources.js';
import { errorsFit } from '../limits.js';
import { type SpherePart, shapeOf } from '../part.js';
import type { SharedStep } from '../step-words.js';
import { offsetEffect } from '../zone-fit.js';
import type { swivelCorrection } from './correction.js';
import { swivelExpectations } from './expected.js';
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

const ACTING: readonly SourceName[] = [
  'swivelRadius',
  'swivelOffset',
  'toolHeight',
  'position',
  'headstockPlanDeg',
  'headstockUprightDeg',
];

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
  expected: swivelExpectations,
};
