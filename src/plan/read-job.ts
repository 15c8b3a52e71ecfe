/**
 * Reads a job: refuses what makes no sense with the path to the field, and fills in what was left out
 * with stated assumptions.
 */
import { choice, flag, list, nonNegative, number, options, positive, text } from '../core/checks.js';
import { readAngleScale, readDial } from '../core/dial.js';
import { GeneratrixError, refuse } from '../core/errors.js';
import { object, positive as positiveNumber, readValue } from '../core/read.js';
import { seatOf } from '../offset/between-balls/ball-seat.js';
import { BALL_END } from '../offset/between-balls/distance.js';
import { guideBarScale } from '../offset/guide-bar/scale.js';
import { sphereShape } from '../sphere/target.js';
import { readTaper } from '../taper/taper.js';
import type { CentreBall, Job, Lathe, MeasuringLimits, Mill, SettingLimits, SpherePart, TaperPart } from './job.js';
import type { Assumption } from './result.js';

/** A job with nothing left open. */
export interface ReadJob {
  readonly job: Job;
  readonly part: TaperPart | SpherePart;
  readonly lathes: readonly Lathe[];
  readonly mills: readonly Mill[];
  readonly setting: Required<SettingLimits>;
  readonly measuring: Required<MeasuringLimits>;
  readonly coverage: number;
  readonly assumptions: readonly Assumption[];
}

type Given = Readonly<Record<string, unknown>>;

/** Checks a job. */
export function readJob(value: unknown): ReadJob {
  const given = options(
    value,
    'job',
    ['title', 'unit', 'part'],
    ['lathes', 'mills', 'setting', 'measuring', 'coverage'],
  );
  text(given['title'], 'job.title');
  const unit = choice(given['unit'], 'job.unit', ['mm', 'in']);
  const kind = readPart(given['part']);
  const lathes = each(given['lathes'], 'job.lathes', readLathe);
  const mills = each(given['mills'], 'job.mills', readMill);
  if (kind === 'taper' && lathes === 0) {
    return refuse('missing-option', 'job.lathes', given['lathes'], 'must name a lathe: tapers are cut on lathes');
  }
  if (lathes + mills === 0) {
    return refuse('missing-option', 'job.lathes', given['lathes'], 'must name a machine, here or in job.mills');
  }
  const setting = fill('setting', given['setting'], unit, ASSUMED_SETTING);
  const measuring = fill('measuring', given['measuring'], unit, ASSUMED_MEASURING);
  const coverage = number(absent(given['coverage'], DEFAULT_COVERAGE), 'job.coverage', { min: 0.5, max: 0.9999 });
  // A copy: later changes of the caller's object leave the plan alone, and keys that hold undefined are gone.
  const job = JSON.parse(JSON.stringify(value)) as Job;
  return {
    job,
    part: job.part,
    lathes: job.lathes ?? [],
    mills: job.mills ?? [],
    setting: setting.values as Required<SettingLimits>,
    measuring: measuring.values as Required<MeasuringLimits>,
    coverage,
    assumptions: [
      ...assumedCoverage(given['coverage']),
      ...setting.assumptions.filter(({ path }) => matters(path.replace('job.setting.', ''), job)),
      ...measuring.assumptions,
      ...(kind === 'taper' ? (job.lathes ?? []).flatMap(assumedTilt) : []),
    ],
  };
}

/** What stands for a key that is left out; null is a value, and refused where it is none. */
function absent(value: unknown, instead: unknown): unknown {
  return value === undefined ? instead : value;
}

/** Reads every item of a list that may be left out; how many there are. */
function each(value: unknown, at: string, read: (item: unknown, at: string) => void): number {
  // From an array with holes too, which `forEach` would pass over.
  return Array.from(list(absent(value, []), at), (item, i) => read(item, `${at}[${i}]`)).length;
}

/** A reader of another room, whose paths begin at its own argument: puts the path to that argument before them. */
export function within<T>(at: string, read: () => T): T {
  try {
    return read();
  } catch (error) {
    if (!(error instanceof GeneratrixError)) throw error;
    return refuse(error.code, error.parameter === '' ? at : `${at}.${error.parameter}`, error.value, error.allowed);
  }
}

function assumedCoverage(given: unknown): readonly Assumption[] {
  const reason = `${SHOP}: intervals that hold 95 of 100 parts`;
  return given === undefined ? [{ path: 'job.coverage', value: DEFAULT_COVERAGE, reason }] : [];
}

function assumedTilt({ tailstock, largestCentreTiltDeg }: Lathe, i: number): readonly Assumption[] {
  if (!tailstock || largestCentreTiltDeg !== undefined) return [];
  const path = `job.lathes[${i}].largestCentreTiltDeg`;
  return [
    { path, value: PLAIN_CENTRE_TILT_DEG, reason: `${SHOP}: beyond this plain centres bear on their edges only` },
  ];
}

/** Whether the part and the machines have a use for a limit: an assumption that nothing rests on is noise. */
function matters(key: string, { part, lathes = [], mills = [] }: Job): boolean {
  const has = (...equipment: (keyof Lathe)[]): boolean =>
    lathes.some((lathe) => equipment.some((piece) => lathe[piece] !== undefined));
  const taper = part.kind === 'taper';
  switch (key) {
    case 'topSlideDeg':
      return taper && has('topSlide');
    case 'guideBarDeg':
      return taper && has('guideBar');
    case 'setover':
    case 'centreDistance':
      return taper && has('tailstock', 'ballCentres');
    case 'rollDeg':
      return taper && has('ballCentres');
    case 'touchOff':
      return taper || has('slides');
    case 'toolHeight':
      return taper || has('swivelTool');
    case 'headTiltDeg':
    case 'sweepRadius':
    case 'skew':
      return !taper && mills.some(({ boringHead }) => boringHead !== undefined);
    case 'miss':
      return (
        !taper && mills.some(({ boringHead, ballCutters }) => boringHead !== undefined || ballCutters !== undefined)
      );
    case 'swivelRadius':
    case 'swivelOffset':
      return !taper && has('swivelTool');
    case 'position':
      return !taper && (has('slides') || mills.some(({ ballCutters }) => ballCutters !== undefined));
    default:
      return true;
  }
}

/** A limit to assume: its value in degrees or in millimetres, and why. */
type Assumed = readonly [value: number, reason: string];

const DEFAULT_COVERAGE = 0.95;

const SHOP = 'common practice, no source';

/** Beyond this tilt plain centres bear on their edges only. */
export const PLAIN_CENTRE_TILT_DEG = 3;

/** Careful hand work with ordinary instruments. */
const ASSUMED_SETTING: Readonly<Record<keyof SettingLimits, Assumed>> = {
  topSlideDeg: [0.1, `${SHOP}: a swivel scale read by eye, a tenth of a degree`],
  guideBarDeg: [0.05, `${SHOP}: a guide bar's scale read by eye`],
  setover: [0.05, `${SHOP}: a set-over measured with a rule and an indicator`],
  centreDistance: [0.5, `${SHOP}: a length taken with a rule`],
  toolHeight: [0.1, `${SHOP}: a tip brought to a centre point by eye`],
  rollDeg: [1, `${SHOP}: a head levelled by eye`],
  touchOff: [0.02, `${SHOP}: a diameter turned to a micrometer`],
  headTiltDeg: [0.1, `${SHOP}: a head's scale read by eye, a tenth of a degree`],
  sweepRadius: [0.02, `${SHOP}: a sweep proved on a test ring`],
  miss: [0.05, `${SHOP}: a tip set over a turning centre mark`],
  skew: [0.05, `${SHOP}: two axes aligned by an edge finder`],
  swivelRadius: [0.05, `${SHOP}: a tool's reach set with a calliper`],
  swivelOffset: [0.05, `${SHOP}: a swivel centred by an indicator`],
  position: [0.02, `${SHOP}: a slide's dial`],
  resettingFraction: [0.2, `${SHOP}: a change read on an indicator is five times as sure as a setting read on a scale`],
};

const ASSUMED_MEASURING: Readonly<Record<keyof MeasuringLimits, Assumed>> = {
  diameter: [0.01, `${SHOP}: a micrometer`],
  length: [0.05, `${SHOP}: a calliper or a dial`],
};

/** Takes what is given, and assumes the rest. */
function fill(
  section: 'setting' | 'measuring',
  value: unknown,
  unit: 'mm' | 'in',
  assumed: Readonly<Record<string, Assumed>>,
): { values: Record<string, number>; assumptions: Assumption[] } {
  const given = options(absent(value, {}), `job.${section}`, [], Object.keys(assumed));
  const assumptions: Assumption[] = [];
  const values: Record<string, number> = {};
  for (const [key, [inMillimetres, reason]] of Object.entries(assumed)) {
    const path = `job.${section}.${key}`;
    if (given[key] !== undefined) values[key] = nonNegative(given[key], path) + 0;
    else {
      values[key] = unit === 'in' && !/Deg$|Fraction$/.test(key) ? inMillimetres / 25.4 : inMillimetres;
      assumptions.push({ path, value: values[key], reason });
    }
  }
  return { values, assumptions };
}

function readPart(value: unknown): Job['part']['kind'] {
  const kind = choice((value as Given | null)?.['kind'], 'job.part.kind', ['taper', 'sphere']);
  if (kind === 'taper') readTaperPart(value);
  else readSpherePart(value);
  return kind;
}

function readTaperPart(value: unknown): void {
  const at = 'job.part';
  const required = [
    'kind',
    'taper',
    'side',
    'largeDiameter',
    'length',
    'workLength',
    'largeEndAt',
    'headstockEnd',
    'centreHoles',
    'tolerance',
  ];
  const given = options(value, at, required, ['shoulders', 'stockDiameter']);
  const { tan } = readTaper(given['taper'] as TaperPart['taper'], `${at}.taper`);
  const outside = choice(given['side'], `${at}.side`, ['outside', 'inside']) === 'outside';
  const large = positive(given['largeDiameter'], `${at}.largeDiameter`);
  const length = positive(given['length'], `${at}.length`);
  // A taper to a point, stated by rounded numbers, may end a few units in the last place beyond it.
  if (2 * length * tan > large * (1 + 1e-12)) {
    refuse(
      'impossible-geometry',
      `${at}.length`,
      length,
      `must end before the taper's point, at most ${large / (2 * tan)}`,
    );
  }
  const work = number(given['workLength'], `${at}.workLength`, { min: length });
  const toLarge = choice(given['headstockEnd'], `${at}.headstockEnd`, ['large', 'small']) === 'large';
  // The taper runs from its large end away from the headstock, or towards it.
  number(
    given['largeEndAt'],
    `${at}.largeEndAt`,
    toLarge ? { min: 0, max: work - length } : { min: length, max: work },
  );
  flag(given['centreHoles'], `${at}.centreHoles`);
  each(given['shoulders'], `${at}.shoulders`, readShoulder);
  if (given['stockDiameter'] !== undefined) {
    number(given['stockDiameter'], `${at}.stockDiameter`, outside ? { min: large } : { above: 0 });
  }
  const tolerance = options(given['tolerance'], `${at}.tolerance`, [], ['halfAngleDeg', 'smallDiameter']);
  const stated = Object.entries(tolerance).filter(([, limit]) => limit !== undefined);
  if (stated.length === 0)
    refuse('missing-option', `${at}.tolerance`, tolerance, 'must hold halfAngleDeg, smallDiameter or both');
  for (const [key, limit] of stated) positive(limit, `${at}.tolerance.${key}`);
}

function readShoulder(value: unknown, at: string): void {
  const given = options(value, at, ['at', 'diameter', 'gap']);
  choice(given['at'], `${at}.at`, ['large', 'small']);
  positive(given['diameter'], `${at}.diameter`);
  nonNegative(given['gap'], `${at}.gap`);
}

function readSpherePart(value: unknown): void {
  const at = 'job.part';
  const given = options(value, at, ['kind', 'target', 'tolerance'], ['stockDiameter']);
  within(`${at}.target`, () => sphereShape(given['target'] as SpherePart['target']));
  if (given['stockDiameter'] !== undefined) positive(given['stockDiameter'], `${at}.stockDiameter`);
  const { radius, form } = options(given['tolerance'], `${at}.tolerance`, ['radius'], ['form']);
  positive(radius, `${at}.tolerance.radius`);
  if (form !== undefined) positive(form, `${at}.tolerance.form`);
}

function readLathe(value: unknown, at: string): void {
  const optional = [
    'toolPost',
    'topSlide',
    'guideBar',
    'tailstock',
    'largestCentreTiltDeg',
    'ballCentres',
    'swivelTool',
    'slides',
  ];
  const given = options(value, at, ['name', 'centreDistance'], optional);
  text(given['name'], `${at}.name`);
  positive(given['centreDistance'], `${at}.centreDistance`);
  lengths(given['toolPost'], `${at}.toolPost`, ['halfWidth', 'toolReach']);
  const slide = section(given['topSlide'], `${at}.topSlide`, ['travel'], ['scale', 'nose']);
  if (slide) {
    positive(slide['travel'], `${at}.topSlide.travel`);
    if (slide['scale'] !== undefined) readAngleScale(slide['scale'], `${at}.topSlide.scale`);
    lengths(slide['nose'], `${at}.topSlide.nose`, ['ahead', 'back']);
  }
  const bar = section(given['guideBar'], `${at}.guideBar`, ['travel', 'scale', 'largestHalfAngleDeg']);
  if (bar) {
    positive(bar['travel'], `${at}.guideBar.travel`);
    readValue(bar['scale'], guideBarScale, `${at}.guideBar.scale`);
    number(bar['largestHalfAngleDeg'], `${at}.guideBar.largestHalfAngleDeg`, { above: 0, below: 90 });
  }
  const tailstock = section(given['tailstock'], `${at}.tailstock`, ['setover'], ['dial']);
  if (tailstock) {
    positive(tailstock['setover'], `${at}.tailstock.setover`);
    if (tailstock['dial'] !== undefined) readDial(tailstock['dial'], `${at}.tailstock.dial`);
  }
  if (given['largestCentreTiltDeg'] !== undefined) {
    number(given['largestCentreTiltDeg'], `${at}.largestCentreTiltDeg`, { above: 0, below: 90 });
  }
  const balls = section(given['ballCentres'], `${at}.ballCentres`, ['offset', 'headstock', 'tailstock'], ['dial']);
  if (balls) {
    positive(balls['offset'], `${at}.ballCentres.offset`);
    if (balls['dial'] !== undefined) readDial(balls['dial'], `${at}.ballCentres.dial`);
    for (const end of ['headstock', 'tailstock']) readBallEnd(balls[end], `${at}.ballCentres.${end}`);
  }
  const swivel = lengths(given['swivelTool'], `${at}.swivelTool`, ['smallestRadius', 'largestRadius']);
  if (swivel)
    number(swivel['largestRadius'], `${at}.swivelTool.largestRadius`, { min: swivel['smallestRadius'] as number });
  lengths(given['slides'], `${at}.slides`, ['step', 'noseRadius']);
}

const centreBall = object<CentreBall>({ ...BALL_END, mouthDiameter: positiveNumber });

/** A ball in its hole, and what holds it: they must fit each other. */
function readBallEnd(value: unknown, at: string): void {
  const end = readValue(value, centreBall, at);
  const { mouthDiameter, holder, faceDiameter } = end;
  const { protrusion } = seatOf(end, `${at}.`);
  if (faceDiameter !== undefined || holder) number(faceDiameter, `${at}.faceDiameter`, { min: mouthDiameter });
  if (holder) number(holder.faceDistance, `${at}.holder.faceDistance`, { above: -protrusion });
}

function readMill(value: unknown, at: string): void {
  const given = options(value, at, ['name', 'table', 'headTilt'], ['boringHead', 'ballCutters']);
  text(given['name'], `${at}.name`);
  choice(given['table'], `${at}.table`, ['flat', 'upright']);
  const tilt = options(given['headTilt'], `${at}.headTilt`, ['largestDeg'], ['stepDeg']);
  number(tilt['largestDeg'], `${at}.headTilt.largestDeg`, { above: 0, max: 90 });
  if (tilt['stepDeg'] !== undefined) positive(tilt['stepDeg'], `${at}.headTilt.stepDeg`);
  const head = section(given['boringHead'], `${at}.boringHead`, ['dial'], ['bodyRadius', 'toolReach']);
  if (head) {
    readDial(head['dial'], `${at}.boringHead.dial`);
    for (const key of ['bodyRadius', 'toolReach'])
      if (head[key] !== undefined) positive(head[key], `${at}.boringHead.${key}`);
  }
  each(given['ballCutters'], `${at}.ballCutters`, positive);
}

/** An optional section of a machine. */
function section(
  value: unknown,
  at: string,
  required: readonly string[],
  optional: readonly string[] = [],
): Given | undefined {
  return value === undefined ? undefined : options(value, at, required, optional);
}

/** An optional section that holds lengths only, all needed. */
function lengths(value: unknown, at: string, keys: readonly string[]): Given | undefined {
  const given = section(value, at, keys);
  if (given) for (const key of keys) positive(given[key], `${at}.${key}`);
  return given;
}
