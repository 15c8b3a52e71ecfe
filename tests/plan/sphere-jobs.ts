/** Jobs of our own for a mill and a lathe that have everything a sphere may need. */
import type { Job, SphereTarget } from 'generatrix';

export function sphereJob(target: SphereTarget, title = 'rudder knob'): Job {
  return {
    title,
    unit: 'mm',
    part: { kind: 'sphere', target, tolerance: { radius: 0.1, form: 0.2 } },
    mills: [
      {
        name: 'knee mill',
        table: 'upright',
        headTilt: { largestDeg: 90, stepDeg: 0.5 },
        boringHead: { dial: { reads: 'diameter', step: 0.02, from: 5, to: 80 } },
        ballCutters: [10],
      },
    ],
    lathes: [
      {
        name: 'bench lathe',
        centreDistance: 500,
        swivelTool: { smallestRadius: 5, largestRadius: 50 },
        slides: { step: 0.02, noseRadius: 0.4 },
      },
    ],
    setting: {
      headTiltDeg: 0.11,
      sweepRadius: 0.023,
      miss: 0.047,
      skew: 0.052,
      swivelRadius: 0.034,
      swivelOffset: 0.041,
    },
    measuring: { diameter: 0.0081, length: 0.043 },
  };
}

export const BALL: SphereTarget = { part: 'ball-on-stem', diameter: 40, stemDiameter: 16 };
export const SOCKET: SphereTarget = { part: 'socket', radius: 25, depth: 8 };
