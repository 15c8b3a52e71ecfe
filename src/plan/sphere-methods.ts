/** The four ways to a sphere, tried on a job: tilted sweep, swivelling tool, steps, ball-ended cutter. */
import type { Methods } from './methods.js';

/** Tries every sphere method on every machine of the job. */
export const sphereMethods: Methods = () => [];
