/** Jobs of our own that every taper method of one lathe can do. */
import type { Job, TaperPart } from 'generatrix';

export const taperPart: TaperPart = {
  kind: 'taper',
  taper: { oneIn: 20 },
  side: 'outside',
  largeDiameter: 24,
  length: 60,
  stockDiameter: 25,
  workLength: 180,
  largeEndAt: 20,
  headstockEnd: 'large',
  centreHoles: true,
  tolerance: { smallDiameter: 0.04 },
};

const ball = { ballDiameter: 10, mouthDiameter: 8 };

/** A job for a lathe that has everything. */
export function taperJob(part: Partial<TaperPart> = {}): Job {
  return {
    title: 'sluice spindle',
    unit: 'mm',
    part: { ...taperPart, ...part },
    lathes: [
      {
        name: 'bench lathe',
        centreDistance: 500,
        topSlide: { travel: 75, scale: { reads: 'from-axis', stepDeg: 0.5 } },
        // More edge than a bench lathe takes, so that one job serves every method.
        formTool: { width: 65, largestWidth: 62 },
        guideBar: { travel: 200, scale: { by: 'half-angle', step: 0.1 }, largestHalfAngleDeg: 10 },
        tailstock: { setover: 12, dial: { reads: 'radius', step: 0.02 } },
        ballCentres: {
          offset: 15,
          dial: { reads: 'diameter', step: 0.02 },
          headstock: ball,
          tailstock: ball,
        },
      },
    ],
    setting: {
      topSlideDeg: 0.11,
      guideBarDeg: 0.052,
      formToolDeg: 0.17,
      setover: 0.033,
      centreDistance: 0.44,
      toolHeight: 0.12,
      rollDeg: 1.3,
      touchOff: 0.015,
    },
    measuring: { diameter: 0.0081, length: 0.047 },
  };
}
