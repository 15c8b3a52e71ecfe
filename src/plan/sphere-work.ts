/** The order of work for a sphere. */
import type { Step, StepsOf } from './steps.js';

/** Steps of a sphere method. */
export function sphereWork(_of: StepsOf): readonly Step[] {
  return [];
}
