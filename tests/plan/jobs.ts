/** Jobs for the tests: two that are good, a grammar of good ones of any size, and ways to spoil them. */
import fc from 'fast-check';
import { GeneratrixError, type Job, type Plan, planJob } from 'generatrix';

/** A taper near the middle of a spindle, on a lathe with everything. */
export const TAPER_JOB: Job = {
  title: 'sluice spindle',
  unit: 'mm',
  part: {
    kind: 'taper',
    taper: { oneIn: 20 },
    side: 'outside',
    largeDiameter: 24,
    length: 60,
    workLength: 180,
    largeEndAt: 100,
    headstockEnd: 'small',
    centreHoles: true,
    shoulders: [{ at: 'large', diameter: 26, gap: 30 }],
    stockDiameter: 28,
    tolerance: { smallDiameter: 0.05, halfAngleDeg: 0.05 },
  },
  lathes: [
    {
      name: 'bench lathe',
      centreDistance: 500,
      toolPost: { halfWidth: 25, toolReach: 20 },
      topSlide: {
        travel: 75,
        scale: { reads: 'from-axis', stepDeg: 0.5, fromDeg: -45, toDeg: 45 },
        nose: { ahead: 40, back: 30 },
      },
      formTool: { width: 12, largestWidth: 8 },
      guideBar: { travel: 200, scale: { by: 'per-foot', step: 0.0625, from: 0, to: 4 }, largestHalfAngleDeg: 10 },
      tailstock: { setover: 10, dial: { reads: 'radius', step: 0.02 } },
      largestCentreTiltDeg: 3,
      ballCentres: {
        offset: 25,
        dial: { reads: 'diameter', step: 0.02, from: 0, to: 50 },
        headstock: {
          ballDiameter: 10,
          mouthDiameter: 8,
          holder: { faceDistance: 3, faceDiameter: 8 },
          faceDiameter: 20,
        },
        tailstock: { ballDiameter: 10, mouthDiameter: 9, holeAngleDeg: 60, pilotDiameter: 3, depth: 12 },
      },
      swivelTool: { smallestRadius: 5, largestRadius: 60 },
      slides: { step: 0.02, noseRadius: 0.4 },
    },
  ],
  setting: { topSlideDeg: 0.05, setover: 0.02 },
  measuring: { diameter: 0.005 },
  coverage: 0.95,
};

/** A ball on a stem, on a mill and a lathe. */
export const SPHERE_JOB: Job = {
  title: 'valve ball',
  unit: 'in',
  part: {
    kind: 'sphere',
    target: { part: 'ball-on-stem', diameter: 1.5, stemDiameter: 0.75 },
    stockDiameter: 1.625,
    tolerance: { radius: 0.004, form: 0.002 },
  },
  lathes: [{ name: 'tool room lathe', centreDistance: 24, swivelTool: { smallestRadius: 0.25, largestRadius: 2 } }],
  mills: [
    {
      name: 'knee mill',
      table: 'upright',
      headTilt: { largestDeg: 60, stepDeg: 1 },
      boringHead: { dial: { reads: 'diameter', step: 0.001, from: 0.5, to: 4 }, bodyRadius: 1, toolReach: 3 },
      ballCutters: [0.25, 0.5],
    },
  ],
  measuring: { diameter: 0.0005 },
};

const one = <T>(...values: readonly T[]): fc.Arbitrary<T> => fc.constantFrom(...values);
const between = (min: number, max: number): fc.Arbitrary<number> =>
  fc.double({ min, max, noNaN: true, noDefaultInfinity: true });
/** An object of which some keys may be missing, as in JSON: none of them holds undefined. */
const record = <T>(model: { [K in keyof T]: fc.Arbitrary<T[K]> }, requiredKeys: (keyof T)[]): fc.Arbitrary<T> =>
  fc.record(model, { requiredKeys }) as fc.Arbitrary<T>;

/** Everything in a job that is a length grows with `size`: works in any unit, for watches and for ships. */
function grammar(size: number): fc.Arbitrary<unknown> {
  const length = (min: number, max: number): fc.Arbitrary<number> => between(min * size, max * size);
  const step = length(0.001, 0.1);
  const dial = record({ reads: one('radius', 'diameter'), step, from: length(-5, 0), to: length(5, 80) }, ['reads']);
  const scale = record(
    {
      reads: one('from-axis', 'from-across'),
      stepDeg: between(0.01, 2),
      fromDeg: between(-90, 0),
      toDeg: between(5, 90),
    },
    ['reads'],
  );
  const barScale = fc.oneof(
    record(
      {
        by: one('half-angle', 'included-angle', 'per-foot'),
        step: between(0.001, 0.5),
        from: between(-1, 0),
        to: between(1, 30),
      },
      ['by'],
    ),
    record({ by: one('offset'), radius: length(50, 500), radiusAlong: one('bar', 'bed'), step, to: length(5, 80) }, [
      'by',
      'radius',
      'radiusAlong',
    ]),
  );
  const ball = record(
    {
      ballDiameter: length(8, 20),
      mouthDiameter: length(4, 8),
      holeAngleDeg: between(55, 95),
      depth: length(20, 40),
      faceDiameter: length(10, 50),
      holder: record({ faceDistance: length(6, 15), faceDiameter: length(2, 7) }, ['faceDistance', 'faceDiameter']),
    },
    ['ballDiameter', 'mouthDiameter', 'faceDiameter'],
  );
  const lathe = record(
    {
      name: fc.string({ maxLength: 20 }),
      centreDistance: length(20, 2000),
      toolPost: record({ halfWidth: length(5, 40), toolReach: length(2, 40) }, ['halfWidth', 'toolReach']),
      topSlide: record(
        {
          travel: length(5, 200),
          scale,
          nose: record({ ahead: length(1, 90), back: length(1, 90) }, ['ahead', 'back']),
        },
        ['travel'],
      ),
      formTool: record({ width: length(1, 60), largestWidth: length(1, 60) }, ['width', 'largestWidth']),
      guideBar: record({ travel: length(20, 500), scale: barScale, largestHalfAngleDeg: between(3, 20) }, [
        'travel',
        'scale',
        'largestHalfAngleDeg',
      ]),
      tailstock: record({ setover: length(1, 30), dial }, ['setover']),
      largestCentreTiltDeg: between(1, 10),
      ballCentres: record({ offset: length(1, 60), dial, headstock: ball, tailstock: ball }, [
        'offset',
        'headstock',
        'tailstock',
      ]),
      swivelTool: record({ smallestRadius: length(0.1, 10), largestRadius: length(10, 100) }, [
        'smallestRadius',
        'largestRadius',
      ]),
      slides: record({ step: length(0.001, 0.1), noseRadius: length(0.1, 6) }, ['step', 'noseRadius']),
    },
    ['name', 'centreDistance'],
  );
  const mill = record(
    {
      name: fc.string({ maxLength: 20 }),
      table: one('flat', 'upright'),
      headTilt: record({ largestDeg: between(1, 90), stepDeg: between(0.01, 5) }, ['largestDeg']),
      boringHead: record({ dial, bodyRadius: length(5, 50), toolReach: length(5, 100) }, ['dial']),
      ballCutters: fc.array(length(1, 40), { maxLength: 3 }),
    },
    ['name', 'table', 'headTilt'],
  );
  const rest = {
    title: fc.string({ maxLength: 40 }),
    unit: one('mm', 'in'),
    mills: fc.array(mill, { maxLength: 2 }),
    shop: record(
      {
        indicators: fc.array(
          record({ resolution: length(0.0005, 0.05), range: length(0.5, 30), limit: length(0, 0.05) }, [
            'resolution',
            'range',
          ]),
          { maxLength: 2 },
        ),
        sineBars: fc.array(record({ length: length(50, 300), blockLimit: length(0, 0.01) }, ['length']), {
          maxLength: 1,
        }),
        masters: fc.array(
          record({ taper: one({ oneIn: 20 }), length: length(20, 200), limitDeg: between(0, 0.1) }, [
            'taper',
            'length',
            'limitDeg',
          ]),
          { maxLength: 1 },
        ),
        estimatedParts: between(1, 20),
      },
      [],
    ),
    setting: record(
      {
        topSlideDeg: between(0, 0.5),
        guideBarDeg: between(0, 0.5),
        formToolDeg: between(0, 0.5),
        rollDeg: between(0, 3),
        headTiltDeg: between(0, 0.5),
        headstockPlanDeg: between(0, 0.1),
        headstockUprightDeg: between(0, 0.1),
        resettingFraction: between(0, 1),
        setover: length(0, 0.2),
        centreDistance: length(0, 2),
        toolHeight: length(0, 0.3),
        touchOff: length(0, 0.1),
        sweepRadius: length(0, 0.1),
        miss: length(0, 0.1),
        skew: length(0, 0.1),
      },
      [],
    ),
    measuring: record({ diameter: length(0, 0.05), length: length(0, 0.2) }, []),
    // A wide interval takes ten times the trials and shows nothing new: rare here.
    coverage: one(0.5, 0.5, 0.5, 0.6, 0.6, 0.7, 0.8, 0.9, 0.9, 0.9, 0.95, 0.99),
  };
  const optional = ['shop', 'setting', 'measuring', 'coverage'] as const;
  return fc.oneof(
    fc.record(
      { ...rest, part: taperPart(length), lathes: fc.array(lathe, { minLength: 1, maxLength: 2 }) },
      { requiredKeys: ['title', 'unit', 'part', 'lathes'] },
    ),
    fc.record(
      {
        ...rest,
        part: spherePart(length),
        mills: fc.array(mill, { minLength: 1, maxLength: 2 }),
        lathes: fc.array(lathe, { maxLength: 2 }),
      },
      { requiredKeys: ['title', 'unit', 'part', 'mills', ...optional] },
    ),
  );
}

type Length = (min: number, max: number) => fc.Arbitrary<number>;

/** The taper fits its piece: its length is a part of what its steepness leaves before the point. */
function taperPart(length: Length): fc.Arbitrary<unknown> {
  return fc
    .record({
      large: length(4, 100),
      halfAngleDeg: fc.oneof(between(0.2, 8), between(8, 80)),
      part: fc.oneof(between(0.01, 1), fc.constant(1)),
      more: between(0, 5),
      at: between(0, 1),
      headstockEnd: one('large', 'small'),
      stated: one('angle', 'included', 'rate', 'oneIn', 'perFoot', 'sizes'),
      others: record(
        {
          side: one('outside', 'inside'),
          centreHoles: fc.boolean(),
          shoulders: fc.array(
            record({ at: one('large', 'small'), diameter: length(1, 150), gap: length(0, 50) }, [
              'at',
              'diameter',
              'gap',
            ]),
            { maxLength: 2 },
          ),
          stockDiameter: length(100, 200),
          tolerance: fc.oneof(
            record({ halfAngleDeg: between(0.001, 1), smallDiameter: length(0.001, 0.5) }, ['halfAngleDeg']),
            record({ smallDiameter: length(0.001, 0.5) }, ['smallDiameter']),
          ),
        },
        ['side', 'centreHoles', 'tolerance'],
      ),
    })
    .map(({ large, halfAngleDeg, part, more, at, headstockEnd, stated, others }) => {
      const tan = Math.tan((halfAngleDeg * Math.PI) / 180);
      const cut = (part * large) / (2 * tan);
      const workLength = cut * (1 + more);
      const room = (workLength - cut) * at;
      const taper = {
        angle: { halfAngleDeg },
        included: { includedAngleDeg: 2 * halfAngleDeg },
        rate: { rate: 2 * tan },
        oneIn: { oneIn: 1 / (2 * tan) },
        perFoot: { perFoot: 24 * tan },
        sizes: { largeDiameter: large, smallDiameter: large * (1 - part), length: cut },
      }[stated];
      return {
        kind: 'taper',
        taper,
        largeDiameter: large,
        length: cut,
        workLength,
        largeEndAt: headstockEnd === 'large' ? room : Math.min(workLength, cut + room),
        headstockEnd,
        ...others,
      };
    });
}

function spherePart(length: Length): fc.Arbitrary<unknown> {
  const target = fc.record({ radius: length(5, 100), part: between(0.02, 0.98), other: between(0.02, 0.98) });
  return fc
    .record({
      size: target,
      kind: one('ball-on-stem', 'ball-between-stems', 'ball-end', 'cap', 'socket'),
      byDiameter: fc.boolean(),
      tolerance: record({ radius: length(0.001, 0.5), form: length(0.001, 0.5) }, ['radius']),
    })
    .map(({ size: { radius, part, other }, kind, byDiameter, tolerance }) => {
      const size = byDiameter ? { diameter: 2 * radius } : { radius };
      const chord = 2 * radius * part;
      const target = {
        'ball-on-stem': { part: kind, ...size, stemDiameter: chord },
        'ball-between-stems': { part: kind, ...size, stemDiameter: chord, freeStemDiameter: 2 * radius * other },
        'ball-end': { part: kind, ...size, stemDiameter: chord, flatDiameter: 2 * radius * other },
        cap: { part: kind, ...size, baseDiameter: chord },
        socket: { part: kind, ...size, depth: radius * part },
      }[kind];
      return { kind: 'sphere', target, tolerance };
    });
}

/** Jobs that make sense, of any size. */
export const goodJobs: fc.Arbitrary<unknown> = fc.oneof(...[1e-3, 0.04, 1, 1e3].map(grammar));

const hostile: fc.Arbitrary<unknown> = fc.oneof(
  one<unknown>(
    null,
    true,
    false,
    0,
    -0,
    1,
    -1,
    0.5,
    45,
    90,
    180,
    1e-300,
    1e300,
    -1e300,
    5e-324,
    1.7976931348623157e308,
  ),
  one<unknown>(
    NaN,
    Infinity,
    -Infinity,
    '',
    'large',
    'taper',
    'offset',
    '__proto__',
    '</svg><script>',
    '\ud800',
    'x'.repeat(300),
  ),
  one<unknown>([], {}, [null], { kind: 'taper' }, { value: 1 }, [[[]]], { __proto__: null }),
  fc.double(),
  fc.integer({ min: -300, max: 300 }).map((exponent) => 10 ** exponent),
  fc.string({ unit: 'binary', maxLength: 10 }),
  fc.jsonValue({ maxDepth: 2 }),
);

/** Keys that some part of a job knows, and some that none does. */
const KEYS = [
  'radius',
  'diameter',
  'step',
  'holder',
  'perFoot',
  'depth',
  'kind',
  '__proto__',
  'constructor',
  'toJSON',
  'length',
  '',
];

const mutation = fc.record({
  place: fc.nat(),
  how: one('replace', 'delete', 'add', 'scale', 'scale', 'repeat'),
  key: one(...KEYS),
  exponent: fc.integer({ min: -300, max: 300 }),
  value: hostile,
});

/** Good jobs spoilt in one to three places: wrong kinds, missing and unknown keys, extreme numbers. */
export const spoiltJobs: fc.Arbitrary<unknown> = fc
  .tuple(fc.oneof(goodJobs, one<unknown>(TAPER_JOB, SPHERE_JOB)), fc.array(mutation, { minLength: 1, maxLength: 3 }))
  .map(([job, mutations]) => mutations.reduce(spoil, structuredClone(job)));

type Mutation = typeof mutation extends fc.Arbitrary<infer T> ? T : never;

function spoil(job: unknown, { place, how, key, exponent, value }: Mutation): unknown {
  const spots = [...spotsOf(job)];
  const spot = spots[place % (spots.length + 1)];
  if (!spot) return how === 'replace' ? value : job;
  const { holder, name } = spot;
  const old = holder[name];
  if (how === 'replace') holder[name] = value;
  if (how === 'delete') delete holder[name];
  if (how === 'add' && !Array.isArray(holder))
    Object.defineProperty(holder, key, { value, enumerable: true, configurable: true, writable: true });
  if (how === 'scale') holder[name] = typeof old === 'number' ? old * 10 ** exponent : value;
  if (how === 'repeat' && Array.isArray(holder)) (holder as unknown[]).push(old, old);
  return job;
}

interface Spot {
  readonly holder: Record<string, unknown>;
  readonly name: string;
}

/** Every place in a value at which something stands. */
function* spotsOf(value: unknown): Generator<Spot> {
  if (typeof value !== 'object' || value === null) return;
  for (const name of Object.keys(value)) {
    const holder = value as Record<string, unknown>;
    yield { holder, name };
    yield* spotsOf(holder[name]);
  }
}

/** What a job ended in: a plan, or the library's error. Anything else is thrown on. */
export function endOf(job: unknown): Plan | GeneratrixError {
  try {
    return planJob(job as Job, { trials: 1000 });
  } catch (error) {
    if (error instanceof GeneratrixError) return error;
    throw error;
  }
}

/** What would not survive JSON in a value, with its path; nothing in a good plan. */
function lostInJson(value: unknown, path = 'plan'): readonly string[] {
  if (typeof value === 'number') return Number.isFinite(value) && !Object.is(value, -0) ? [] : [`${path} is ${value}`];
  if (value === undefined || typeof value === 'function' || typeof value === 'bigint' || typeof value === 'symbol') {
    return [`${path} is ${String(value)}`];
  }
  if (typeof value !== 'object' || value === null) return [];
  const plain = Array.isArray(value) || Object.getPrototypeOf(value) === Object.prototype;
  return [
    ...(plain ? [] : [`${path} is no plain object`]),
    ...Object.entries(value).flatMap(([key, item]) => lostInJson(item, `${path}.${key}`)),
  ];
}

/** What is wrong with what a job ended in; empty if nothing is. */
export function faults(end: Plan | GeneratrixError): readonly string[] {
  if (!(end instanceof GeneratrixError)) return lostInJson(end);
  const inJob = /^(title|unit|part|lathes|mills|shop|setting|measuring|coverage)(?=$|[.[])/.test(end.parameter);
  // A job that is no object has no path, an unknown key of it is its own.
  const whole = end.code === 'unknown-option' || (end.parameter === '' && end.code === 'wrong-kind');
  return inJob || whole ? [] : [`refused without a path in the job: ${end.message}`];
}
