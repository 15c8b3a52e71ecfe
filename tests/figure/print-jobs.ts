/** Jobs whose sheets are printed and looked at: every method, both units, table flat and upright, either end, in and out. */
import type { Job, MethodName, SphereTarget, TaperPart } from 'generatrix';

/** A job and the method whose sheet is wanted. */
export interface PrintJob {
  readonly name: string;
  readonly method: MethodName;
  readonly job: Job;
}

/** Everything that a metric bench lathe may have. */
const LATHE = {
  name: 'bench lathe',
  centreDistance: 500,
  toolPost: { halfWidth: 20, toolReach: 28 },
  topSlide: {
    travel: 75,
    scale: { reads: 'from-axis', stepDeg: 0.5, fromDeg: -60, toDeg: 60 },
    nose: { ahead: 35, back: 30 },
  },
  guideBar: { travel: 200, scale: { by: 'half-angle', step: 0.1 }, largestHalfAngleDeg: 10 },
  formTool: { width: 12, largestWidth: 10 },
  tailstock: { setover: 12, dial: { reads: 'radius', step: 0.02 } },
  ballCentres: {
    offset: 15,
    dial: { reads: 'diameter', step: 0.02 },
    headstock: { ballDiameter: 10, mouthDiameter: 9, faceDiameter: 20, holder: { faceDistance: 3, faceDiameter: 8 } },
    tailstock: { ballDiameter: 10, mouthDiameter: 9, faceDiameter: 20, holder: { faceDistance: 3, faceDiameter: 8 } },
  },
  swivelTool: { smallestRadius: 5, largestRadius: 50 },
  slides: { step: 0.02, noseRadius: 1.5 },
} as const;

/** The same for an inch lathe. */
const INCH_LATHE = {
  name: 'tool room lathe',
  centreDistance: 24,
  toolPost: { halfWidth: 0.75, toolReach: 1 },
  topSlide: { travel: 3, scale: { reads: 'from-across', stepDeg: 1 }, nose: { ahead: 1.5, back: 1.25 } },
  guideBar: { travel: 10, scale: { by: 'per-foot', step: 0.0625, from: 0, to: 4 }, largestHalfAngleDeg: 10 },
  tailstock: { setover: 0.75, dial: { reads: 'radius', step: 0.001 } },
  swivelTool: { smallestRadius: 0.25, largestRadius: 2 },
} as const;

const taper = (part: Partial<TaperPart>): TaperPart => ({
  kind: 'taper',
  taper: { oneIn: 20 },
  side: 'outside',
  largeDiameter: 24,
  length: 60,
  stockDiameter: 26,
  workLength: 180,
  largeEndAt: 20,
  headstockEnd: 'large',
  centreHoles: true,
  tolerance: { smallDiameter: 0.04 },
  ...part,
});

const metric = (title: string, part: Partial<TaperPart>): Job => ({
  title,
  unit: 'mm',
  part: taper(part),
  lathes: [LATHE],
});

const inch = (title: string, part: Partial<TaperPart>): Job => ({
  title,
  unit: 'in',
  part: taper({ tolerance: { smallDiameter: 0.002 }, stockDiameter: 1.375, ...part }),
  lathes: [INCH_LATHE],
});

const ball = (
  title: string,
  unit: 'mm' | 'in',
  table: 'flat' | 'upright',
  target: SphereTarget,
  radius: number,
): Job => {
  const size = unit === 'mm' ? 1 : 1 / 25;
  return {
    title,
    unit,
    part: { kind: 'sphere', target, tolerance: { radius, form: 2 * radius } },
    mills: [
      {
        name: 'knee mill',
        table,
        headTilt: { largestDeg: 90, stepDeg: 0.5 },
        boringHead: {
          dial: { reads: 'diameter', step: unit === 'mm' ? 0.02 : 0.001 },
          bodyRadius: 25 * size,
          toolReach: 60 * size,
        },
        ballCutters: [unit === 'mm' ? 10 : 0.375],
      },
    ],
    lathes: [unit === 'mm' ? LATHE : INCH_LATHE],
  };
};

/** The jobs, each with one method. */
export const PRINT_JOBS: readonly PrintJob[] = [
  {
    name: 'top-slide-outside-large-at-chuck',
    method: 'top-slide',
    job: metric('pulley nose with a flange', {
      taper: { includedAngleDeg: 16 },
      largeDiameter: 40,
      stockDiameter: 42,
      length: 50,
      workLength: 90,
      largeEndAt: 35,
      shoulders: [{ at: 'large', diameter: 60, gap: 12 }],
    }),
  },
  {
    name: 'top-slide-socket-inch',
    method: 'top-slide',
    job: inch('drill sleeve, taper socket', {
      taper: { perFoot: 0.6 },
      side: 'inside',
      headstockEnd: 'small',
      largeDiameter: 0.7,
      stockDiameter: 1.25,
      length: 2.5,
      workLength: 4,
      largeEndAt: 4,
      centreHoles: false,
    }),
  },
  {
    name: 'top-slide-outside-small-at-chuck',
    method: 'top-slide',
    job: metric('valve cone turned from the back', {
      taper: { includedAngleDeg: 30 },
      headstockEnd: 'small',
      largeDiameter: 40,
      stockDiameter: 44,
      length: 30,
      workLength: 80,
      largeEndAt: 75,
      shoulders: [{ at: 'small', diameter: 34, gap: 25 }],
    }),
  },
  {
    name: 'guide-bar-outside-small-at-chuck',
    method: 'guide-bar',
    job: metric('sluice spindle', { headstockEnd: 'small', largeEndAt: 100, length: 70 }),
  },
  {
    name: 'guide-bar-socket-inch',
    method: 'guide-bar',
    job: inch('spindle nose bore', {
      taper: { perFoot: 0.6235 },
      side: 'inside',
      headstockEnd: 'small',
      largeDiameter: 1.231,
      stockDiameter: 2.25,
      length: 4,
      workLength: 6,
      largeEndAt: 6,
      centreHoles: false,
    }),
  },
  {
    name: 'set-over-inch',
    method: 'set-over',
    job: inch('wheel axle', {
      taper: { perFoot: 0.75 },
      largeDiameter: 1.25,
      length: 5,
      workLength: 12,
      largeEndAt: 8,
      headstockEnd: 'small',
    }),
  },
  {
    name: 'ball-centres-shoulder',
    method: 'ball-centres',
    job: metric('sluice spindle, taper seat for the hand wheel', {
      taper: { oneIn: 12 },
      largeDiameter: 30,
      stockDiameter: 32,
      length: 90,
      workLength: 240,
      largeEndAt: 120,
      shoulders: [{ at: 'large', diameter: 46, gap: 24 }],
    }),
  },
  {
    name: 'form-tool-socket',
    method: 'form-tool',
    job: metric('mouth of a nozzle', {
      taper: { includedAngleDeg: 60 },
      side: 'inside',
      headstockEnd: 'small',
      largeDiameter: 26,
      stockDiameter: 40,
      length: 6,
      workLength: 60,
      largeEndAt: 60,
      tolerance: { smallDiameter: 0.1 },
    }),
  },
  {
    name: 'form-tool-outside',
    method: 'form-tool',
    job: metric('chamfered collar', {
      taper: { includedAngleDeg: 90 },
      largeDiameter: 26,
      length: 5,
      workLength: 60,
      largeEndAt: 55,
      tolerance: { smallDiameter: 0.1 },
    }),
  },
  {
    name: 'sweep-ball-upright',
    method: 'tilted-sweep',
    job: ball('crank handle', 'mm', 'upright', { part: 'ball-on-stem', diameter: 32, stemDiameter: 14 }, 0.05),
  },
  {
    name: 'sweep-ball-flat-inch',
    method: 'tilted-sweep',
    job: ball('gear lever knob', 'in', 'flat', { part: 'ball-on-stem', diameter: 1.5, stemDiameter: 0.75 }, 0.004),
  },
  {
    name: 'sweep-stems-upright',
    method: 'tilted-sweep',
    job: ball(
      'ball between stems',
      'mm',
      'upright',
      { part: 'ball-between-stems', diameter: 40, stemDiameter: 12, freeStemDiameter: 18 },
      0.05,
    ),
  },
  {
    name: 'sweep-dome-flat',
    method: 'tilted-sweep',
    job: ball('shallow dome', 'mm', 'flat', { part: 'cap', radius: 2000, baseDiameter: 60 }, 20),
  },
  {
    name: 'sweep-socket-flat',
    method: 'tilted-sweep',
    job: ball('socket of the handle', 'mm', 'flat', { part: 'socket', radius: 25, depth: 10 }, 0.1),
  },
  {
    name: 'sweep-socket-upright-inch',
    method: 'tilted-sweep',
    job: ball('seat of a ball joint', 'in', 'upright', { part: 'socket', radius: 1, depth: 0.5 }, 0.005),
  },
  {
    name: 'swivel-ball-inch',
    method: 'swivel-tool',
    job: ball('gear lever knob', 'in', 'flat', { part: 'ball-on-stem', diameter: 1.5, stemDiameter: 0.75 }, 0.006),
  },
  {
    name: 'steps-ball',
    method: 'steps',
    job: ball('wooden mould', 'mm', 'flat', { part: 'ball-on-stem', diameter: 40, stemDiameter: 16 }, 0.2),
  },
  {
    name: 'cutter-ball-flat',
    method: 'ball-cutter',
    job: ball('rudder knob', 'mm', 'flat', { part: 'ball-on-stem', diameter: 40, stemDiameter: 16 }, 0.2),
  },
  {
    name: 'cutter-socket-upright',
    method: 'ball-cutter',
    job: ball('cup', 'mm', 'upright', { part: 'socket', radius: 25, depth: 8 }, 0.2),
  },
];
