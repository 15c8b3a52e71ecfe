/**
 * Models for error budgets of the ways to cut a taper along a straight guide: the diameter at the small end, when
 * the tool was touched off to size at the large end, from what was set and how far each is off.
 */
import type { Arithmetic, Model, Quantity } from '../budget/model.js';

/** The result of these models. */
export const SMALL_DIAMETER: Quantity = { kind: 'length', meaning: 'diameter at the small end' };

/** What every cut has. */
export type CutInput = 'largeDiameter' | 'length' | 'toolHeight';

/** What the inputs of {@link CutInput} mean. */
export const CUT: Readonly<Record<CutInput, Quantity>> = {
  largeDiameter: { kind: 'length', meaning: 'diameter at the large end, where the tool is touched off' },
  length: { kind: 'length', meaning: 'axial distance of the two end diameters' },
  toolHeight: { kind: 'length', meaning: 'height of the tool above the axis of the work' },
};

const ZERO_ERROR: Quantity = { kind: 'angleDeg', meaning: 'true angle minus the one that the scale shows' };

/** 2 sqrt(x₁² + y²), x₁ = sqrt((D/2)² - y²) - L tan α. */
export function smallDiameter<T>(
  a: Arithmetic<T>,
  tan: T,
  { largeDiameter, length, toolHeight }: Readonly<Record<CutInput, T>>,
): T {
  const height = a.square(toolHeight);
  const large = a.multiply(a.constant(0.5), largeDiameter);
  const small = a.subtract(a.sqrt(a.subtract(a.square(large), height)), a.multiply(length, tan));
  return a.multiply(a.constant(2), a.sqrt(a.add(a.square(small), height)));
}

/**
 * The diameter at the small end of a taper cut by a straight, level path at any angle, with the tool at a height.
 * The same surface as `toolHeightSurface`.
 */
export const toolHeightModel: Model<'halfAngleDeg' | CutInput> = {
  name: 'tool-height',
  result: SMALL_DIAMETER,
  inputs: { halfAngleDeg: { kind: 'angleDeg', meaning: 'angle of the path from the axis' }, ...CUT },
  evaluate: (a, inputs) => smallDiameter(a, a.tanDeg(inputs.halfAngleDeg), inputs),
};

/** The diameter at the small end of a taper cut with the top slide; angles from the axis. As `topSlideSurface`. */
export const topSlideModel: Model<'angleDeg' | 'zeroErrorDeg' | CutInput> = {
  name: 'top-slide',
  result: SMALL_DIAMETER,
  inputs: {
    angleDeg: { kind: 'angleDeg', meaning: 'angle from the axis that the scale shows' },
    zeroErrorDeg: ZERO_ERROR,
    ...CUT,
  },
  evaluate: (a, inputs) => {
    const angle = a.add(inputs.angleDeg, inputs.zeroErrorDeg);
    return smallDiameter(a, a.tanDeg(angle), inputs);
  },
};

/** A model of a guide bar set by an offset at a radius from its pivot. */
export type GuideBarModel = Model<'offset' | 'radius' | 'zeroErrorDeg' | CutInput>;

function guideBar(name: string, along: string, angle: <T>(a: Arithmetic<T>, ratio: T) => T): GuideBarModel {
  return {
    name,
    result: SMALL_DIAMETER,
    inputs: {
      offset: { kind: 'length', meaning: 'how far the bar is set over' },
      radius: { kind: 'length', meaning: `distance from the pivot, along the ${along}, at which the offset is read` },
      zeroErrorDeg: ZERO_ERROR,
      ...CUT,
    },
    evaluate: (a, inputs) => {
      const set = angle(a, a.divide(inputs.offset, inputs.radius));
      return smallDiameter(a, a.tanDeg(a.add(set, inputs.zeroErrorDeg)), inputs);
    },
  };
}

/** The diameter at the small end of a taper cut with a guide bar set over by a mark on the bar: offset ϱ sin α. */
export const guideBarModel: GuideBarModel = guideBar('guide-bar', 'bar', (a, ratio) => a.asinDeg(ratio));

/** As `guideBarModel`, with the offset read on a scale square across the bed: ϱ tan α. */
export const guideBarBedModel: GuideBarModel = guideBar('guide-bar-bed', 'bed', (a, ratio) => a.atanDeg(ratio));
