import {
  type Action,
  type Amount,
  ballCutterSteps,
  type MethodName,
  type Plan,
  planJob,
  planSteps,
  type SphereTarget,
  sphereSteps,
  stepsMarkdown,
  swivelSurface,
  type WorkStep,
} from 'generatrix';
import { describe, expect, it } from 'vitest';
import { BALL, SOCKET, sphereJob } from './sphere-jobs.js';

const METHODS = ['tilted-sweep', 'swivel-tool', 'steps', 'ball-cutter'] as const;
const radians = (deg: number): number => (deg * Math.PI) / 180;

const plans = new Map<SphereTarget, Plan>();

function stepsOf(method: MethodName, target: SphereTarget): readonly WorkStep[] {
  const plan = plans.get(target) ?? planJob(sphereJob(target), { trials: 2000 });
  plans.set(target, plan);
  return planSteps({ plan, method: plan.methods.findIndex((tried) => tried.method === method) });
}

describe.each([
  ['ball', BALL],
  ['socket', SOCKET],
] as const)('a %s', (_name, target) => {
  it.each(METHODS)('is cut by %s in the order of work, with finite numbers and stated limits', (method) => {
    const steps = stepsOf(method, target);
    const order = ['prepare', 'set', 'check', 'trial-cut', 'measure', 'correct', 'finish'];
    const places = steps.map(({ kind }) => order.indexOf(kind));
    expect(places).toEqual([...places].sort((a, b) => a - b));
    expect(new Set(places).size).toBe(order.length);
    for (const one of steps) {
      expect(Object.values(one.values).every(Number.isFinite)).toBe(true);
      expect(one.text).not.toMatch(/NaN|Infinity|undefined|null|e-\d/);
    }
    const limits = {
      'tilted-sweep': ['± 0.11°', '± 0.052 mm', '± 0.047 mm', '± 0.046 mm'],
      'swivel-tool': ['± 0.034 mm', '± 0.041 mm'],
      steps: ['± 0.020 mm'],
      'ball-cutter': ['± 0.047 mm', '± 0.020 mm'],
    }[method];
    const text = stepsMarkdown(steps);
    for (const limit of [...limits, '± 0.0081 mm', '± 0.10 mm']) expect(text).toContain(limit);
  });
});

/** The only action of a step that is told to do this, with this control or about this. */
function told<D extends Action['do']>(
  method: MethodName,
  target: SphereTarget,
  [code, what]: readonly [code: string, what: D],
  about = '',
): Extract<Action, { readonly do: D }> {
  const step = stepsOf(method, target).find((one) => one.code === code);
  const found = (step?.actions ?? []).filter(
    (one) => one.do === what && (about === '' || Object.values(one).includes(about)),
  );
  if (found.length !== 1) throw new Error(`${method}, ${code}: ${found.length} to ${what} ${about}`);
  return found[0] as Extract<Action, { readonly do: D }>;
}

describe('a tilted sweep', () => {
  it('of a ball is tilted, swept and proved as geometry has it', () => {
    // By hand: A = asin(16/40)/2 from level, sweep diameter 40 cos A.
    const lean = Math.asin(16 / 40) / 2;
    const tilt = told('tilted-sweep', BALL, ['tilt', 'set']);
    expect(tilt.reading.value).toBeCloseTo((lean * 180) / Math.PI, 10);
    const ring = told('tilted-sweep', BALL, ['test-ring', 'measure']).must.value;
    expect(ring).toBeCloseTo(40 * Math.cos(lean), 12);
    // A point carried by the quill along the tilted spindle leaves the upright square by this.
    const { needle, travel } = told('tilted-sweep', BALL, ['indicator', 'indicate']);
    expect(needle.value).toBeCloseTo(Math.sin(lean) * travel.value, 10);
    const turned = (travel.value * (Math.sin(lean + radians(0.11)) - Math.sin(lean - radians(0.11)))) / 2;
    expect((needle.limit ?? 0) / turned).toBeCloseTo(1, 5);
  });

  it('of a ball is left and corrected by circles in the plane of the axes', () => {
    // The sweep tilted as above, its end over the centre of the work.
    const lean = Math.asin(16 / 40) / 2;
    const [sweep, distance] = [20 * Math.cos(lean), 20 * Math.sin(lean)];
    const left = told('tilted-sweep', BALL, ['rough-along-spindle', 'feed']).to?.value ?? 0;
    const measured = told('tilted-sweep', BALL, ['size-and-pip', 'measure'], 'diameter').must.value;
    // What the trial must measure is the wanted radius, with so much still to feed.
    expect(Math.hypot(sweep, Math.sqrt(20 ** 2 - sweep ** 2) + left)).toBeCloseTo(measured / 2, 10);
    expect(Math.hypot(sweep, distance + left)).toBeGreaterThan(20.1);
    const sweeps = told('tilted-sweep', BALL, ['sweep-and-distance', 'correct'], 'boring-head');
    const feeds = told('tilted-sweep', BALL, ['sweep-and-distance', 'correct'], 'quill');
    const signed = ({ by, way }: { by: Amount; way: string }): number =>
      by.value * (way === 'open' || way === 'back' ? 1 : -1);
    // The dial counts on the diameter.
    const found = Math.sqrt(20.01 ** 2 - sweep ** 2);
    const [next, out] = [sweep + signed(sweeps) / 2, found + signed(feeds)];
    expect(Math.hypot(next, out)).toBeCloseTo(20, 10);
    // And the tip passes over the pole again: at the true tilt the sweep's end lies on the axis.
    expect(next / out).toBeCloseTo(sweep / found, 10);
  });

  it('of a socket is left and corrected by chord and depth', () => {
    const step: readonly ['size-and-depth', 'measure'] = ['size-and-depth', 'measure'];
    const half = told('tilted-sweep', SOCKET, step, 'opening').must.value / 2;
    const depth = told('tilted-sweep', SOCKET, step, 'depth').must.value;
    expect((half ** 2 + depth ** 2) / (2 * depth)).toBeCloseTo(25, 9);
    const { by, per, way } = told('tilted-sweep', SOCKET, ['tilt-again', 'correct']);
    expect(per.value).toBe(0.01);
    // The table stands upright: the more the head leans, the less the axes' angle.
    const change = (way === 'clockwise' ? -1 : 1) * (by.value / 60);
    const before = Math.asin(10 / 25.01);
    expect(10 / Math.sin(before + radians(change))).toBeCloseTo(25, 9);
  });
});

describe('a swivelling tool', () => {
  it('is checked and corrected by the ball that it cuts', () => {
    const step: readonly ['radius-and-centre', 'correct'] = ['radius-and-centre', 'correct'];
    const signed = ({ by, way }: { by: Amount; way: string }): number =>
      by.value * (way === 'open' || way === 'operator' ? 1 : -1);
    const corrections =
      stepsOf('swivel-tool', BALL)
        .find(({ code }) => code === step[0])
        ?.actions.filter((action) => action.do === 'correct') ?? [];
    const [size, centre, more] = corrections;
    if (!size || !centre || !more) throw new Error('three corrections');
    const across = (setUp: { swivelRadius: number; centreOffset?: number }): number => swivelSurface(setUp).diameter;
    expect(across({ swivelRadius: 20.005 + signed(size) })).toBeCloseTo(40, 10);
    // Off by what is to be moved, the ball is 0.01 larger across than at 45 degrees: told to two digits.
    const off = -signed(centre);
    const found = across({ swivelRadius: 20, centreOffset: off }) - 2 * (20 + off * Math.sin(Math.PI / 4));
    expect(found).toBeCloseTo(0.01, 10);
    // Its radius seems larger by that: the change for the size is taken back.
    const seen = across({ swivelRadius: 20, centreOffset: off }) - 40;
    expect((seen / 0.01) * signed(size) + signed(more)).toBeCloseTo(0, 10);
    const trial = (target: SphereTarget): number => told('swivel-tool', target, ['rough', 'feed']).to?.value ?? 0;
    expect(trial(BALL)).toBeGreaterThan(20);
    expect(trial(SOCKET)).toBeLessThan(25);
  });
});

describe('tables', () => {
  it('hold the positions of the set-up functions, in the digits of a stop', () => {
    const [turned, behind] = ['positions', 'positions-behind'].map((code) =>
      stepsOf('steps', BALL).find((one) => one.code === code),
    );
    const stops = sphereSteps({ target: BALL, noseRadius: 0.4, leftover: 0.1 }).steps;
    // The dial across counts by the nose's near side, along by the side that touched the end face: 20 from the centre.
    const dials = stops.map(({ centreRadius, centreHeight }) => [2 * (centreRadius - 0.4), 20 - (centreHeight - 0.4)]);
    const rows = [...(turned?.table?.rows ?? []), ...(behind?.table?.rows ?? [])];
    // The widest place comes twice: from either side.
    expect(rows.slice(0, -1)).toEqual(dials.map((row) => row.map((value) => expect.closeTo(value, 10))));
    expect(rows.at(-1)).toEqual([40, expect.closeTo(20 + 0.4, 10)]);
    expect(turned?.table?.rows).toHaveLength(stops.filter(({ from }) => from === 'free-end').length);
    const milled = stepsOf('ball-cutter', BALL).find(({ code }) => code === 'positions');
    const { passes } = ballCutterSteps({ target: BALL, cutterRadius: 5, leftover: 0.1 });
    expect(milled?.table?.rows).toEqual(passes.map(({ centreRadius, tipHeight }) => [centreRadius, tipHeight]));
    const lines = stepsMarkdown(stepsOf('steps', BALL))
      .split('\n')
      .filter((line) => line.startsWith('   |'));
    expect(lines).toHaveLength(stops.length + 5);
    expect(lines[2]).toMatch(/^ {3}\| 1 \| -?\d+\.\d{3} \| -?\d+\.\d{3} \|$/);
  });
});
