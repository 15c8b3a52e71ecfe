/**
 * The order of work that the ways to a sphere share. The trial is larger than the finished ball, or a smaller or
 * shallower socket, by what the settings may be off and a cut to finish; the correction goes by the radius that was
 * measured on it.
 */
import { chance } from '../method/chance.js';
import type { MethodTypes, Planned } from '../method/method.js';
import { roundedUp, type Step, step } from '../method/steps.js';
import { type SpherePart, shapeOf } from './part.js';
import { type SharedStep, STEPS } from './step-words.js';
import type { SphereShape } from './target.js';

/** A sphere method that was planned. */
export type PlannedSphere = Planned<MethodTypes & { readonly part: SpherePart }>;

/** What all steps speak of. */
export interface Cutting {
  readonly unit: 'mm' | 'in';
  readonly part: SpherePart;
  readonly shape: SphereShape;
  readonly ball: boolean;
  /** What the trial leaves on the radius. */
  readonly leave: number;
  /** The error for which a correction is told. */
  readonly per: number;
}

/** Left on the radius for the finishing cut, in millimetres: common practice, no source. */
const FINISHING_MM = 0.1;

/** Works out what the steps speak of. */
export function cuttingOf({ work, expectations }: Pick<PlannedSphere, 'work' | 'expectations'>): Cutting {
  const { part, unit } = work;
  const shape = shapeOf(work);
  const worst = expectations
    .filter(({ quantity }) => quantity === 'radius')
    .map(({ first }) => Math.max(Math.abs(first.low), Math.abs(first.high)));
  const leave = leaveOf(work, Math.max(0, ...worst));
  return { unit, part, shape, ball: shape.side === 'ball', leave, per: unit === 'mm' ? 0.01 : 0.001 };
}

/** What a trial leaves on the radius that may be off by so much. */
export function leaveOf(work: PlannedSphere['work'], worst: number): number {
  const finishing = work.unit === 'mm' ? FINISHING_MM : FINISHING_MM / 25.4;
  // About a tenth of the size at most: a trial must still resemble the part.
  return roundedUp(Math.min(worst + finishing, depthOf(shapeOf(work)) / 10));
}

/** Length of the surface along the axis. */
export function depthOf({ fromHeight, toHeight }: SphereShape): number {
  return Math.abs(fromHeight - toHeight);
}

/** A method's own steps, what the plan promises before those that finish, and the last check. */
export function inOrder<C extends string>(
  planned: PlannedSphere,
  cutting: Cutting,
  own: readonly Step<C>[],
): readonly Step<C | SharedStep>[] {
  const isLast = ({ kind }: Step): boolean => kind === 'finish';
  const trial = own.find(({ kind }) => kind === 'trial-cut')?.code ?? 'again';
  return [...own.filter((one) => !isLast(one)), again(planned, trial), ...own.filter(isLast), finish(planned, cutting)];
}

function again({ tries, probability, meets }: PlannedSphere, trial: string): Step<'again'> {
  const correction = tries === 1 ? 'is met without a correction' : 'is met after one correction';
  const promise = meets ? correction : 'is met by one correction';
  const only = meets ? '' : ' only: expect to repeat it';
  const told = step(STEPS, 'correct', 'again', {
    again: { do: 'repeat', from: trial, to: 'again' },
    promise,
    chance: chance(probability),
    only,
  });
  return { ...told, values: { tries, probability } };
}

function finish({ work }: PlannedSphere, { part, shape, unit }: Cutting): Step<'final-check'> {
  const { radius: limit, form } = part.tolerance;
  return step(STEPS, 'finish', 'final-check', {
    radius: {
      do: 'measure',
      what: 'radius',
      must: { value: shape.radius, unit, limit },
      doubt: { value: 0, unit, limit: work.measuring.diameter },
    },
    form: form === undefined ? undefined : { do: 'measure', what: 'form', must: { value: 0, unit, limit: form } },
  });
}
