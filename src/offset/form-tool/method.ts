/** A short taper with a form tool fed straight in, as one method of cutting. */
import { say, tell } from '../../core/words.js';
import { type Limit, limit } from '../../method/limits.js';
import type { Method, MethodTypes } from '../../method/method.js';
import { type StandsFor, sourcesOf } from '../../method/model-inputs.js';
import { slopeOf } from '../../taper/taper.js';
import type { TaperCaution } from '../cautions.js';
import { TOUCHED_OFF, taperExpectations } from '../expected.js';
import { diameterAt, meets, onBed, shoulders, travels } from '../limits.js';
import type { MeasuredTaper } from '../measured.js';
import type { TaperPart, TaperWork } from '../part.js';
import type { SharedStep } from '../step-words.js';
import type { formToolCorrection } from './correction.js';
import { FORM_TOOL_EQUIPMENT, type FormTool, type FormToolEquipment } from './machine.js';
import { type FormToolSettings, formToolSettings } from './settings.js';
import { formToolModel, type formToolSurface } from './surface.js';

/** The types of this method. */
export interface FormToolMethod extends MethodTypes {
  readonly name: 'form-tool';
  readonly part: TaperPart;
  readonly on: 'lathes';
  readonly equipment: FormToolEquipment;
  readonly needs: { readonly formTool: FormTool };
  readonly settings: FormToolSettings;
  readonly surface: ReturnType<typeof formToolSurface>;
  readonly measured: MeasuredTaper;
  readonly correction: ReturnType<typeof formToolCorrection>;
  readonly limit: 'bed' | 'errors' | 'width' | 'chatter' | 'shoulder';
  readonly step: 'edge' | 'edge-angle' | 'edge-place' | 'infeed' | 'edge-indicator' | 'turn-edge' | SharedStep;
  readonly caution: TaperCaution | 'wide-edge';
}

/**
 * The edge's angle is off by what its limit says. Its tip out of level stands for no source: over a short edge it is
 * worth a small part of what the height is.
 */
export const STANDS_FOR: StandsFor<keyof typeof formToolModel.inputs> = {
  ...TOUCHED_OFF,
  angleErrorDeg: 'formToolDeg',
};

export const formTool: Method<FormToolMethod> = {
  name: 'form-tool',
  kind: 'taper',
  on: 'lathes',
  ease: 1,
  equipment: FORM_TOOL_EQUIPMENT,
  has: (lathe): lathe is typeof lathe & { readonly formTool: FormTool } => lathe.formTool !== undefined,
  missing: (name) => `${name} has no form tool`,
  sources: sourcesOf(formToolModel, STANDS_FOR),
  setBy: null,
  assumes: () => [],
  limits: (work, lathe) => {
    const { width, largestWidth } = lathe.formTool;
    const side = work.part.length / slopeOf(work.part.taper).cos;
    return [
      onBed(work, lathe),
      meets(work),
      travels('width', ["the tool's edge is", "the taper's side is"], side, width, work.unit),
      travels('chatter', ['this lathe cuts an edge of', "the taper's side is"], side, largestWidth, work.unit),
      ...shoulders(work, lathe),
      ...spareEdge(work, width - side),
    ];
  },
  settings: ({ part }, { formTool: { width } }) =>
    formToolSettings({ taper: part.taper, length: part.length, width, allowance: allowanceOf(part) }),
  limitsOfSettings: () => [],
  expected: (work, _lathe, { halfAngleDeg }) => {
    const { formToolDeg, resettingFraction } = work.setting;
    return taperExpectations(work, {
      model: formToolModel,
      values: { angleDeg: halfAngleDeg },
      standsFor: STANDS_FOR,
      again: { angleErrorDeg: formToolDeg * resettingFraction },
    });
  },
};

/** Stock over the large end; an inside taper is taken to start from a bore of its small diameter. */
function allowanceOf({ side, stockDiameter, largeDiameter }: TaperPart): number {
  return side === 'outside' ? ((stockDiameter ?? largeDiameter) - largeDiameter) / 2 : 0;
}

/**
 * What the edge is longer than the side stands out beyond an end without a shoulder, or else fits into the gaps before
 * the shoulders at both. A shoulder that stays within the line of the edge is not in its way.
 */
function spareEdge({ part, unit }: TaperWork, spare: number): readonly Limit<'shoulder'>[] {
  if (part.side === 'inside') return [];
  const { tan, cos } = slopeOf(part.taper);
  const rooms = (['large', 'small'] as const).map((end) => {
    const opening = end === 'large' ? 1 : -1;
    const inTheWay = (part.shoulders ?? []).filter(
      ({ at, diameter, gap }) => at === end && diameter / 2 > diameterAt(part, end) / 2 + opening * gap * tan,
    );
    return Math.min(...inTheWay.map(({ gap }) => gap)) / cos;
  });
  const room = rooms.reduce((sum, one) => sum + one, 0);
  if (!Number.isFinite(room)) return [];
  const [over, free] = [tell(Math.max(0, spare), { unit }), tell(room, { unit })];
  const message = say`the edge is ${over} longer than the taper's side, the shoulders leave it ${free}`;
  return [limit('shoulder', message, spare, room)];
}
