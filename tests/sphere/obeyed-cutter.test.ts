/** The steps of a ball-ended cutter, obeyed in space: no point of ball end and shank may enter the finished sphere. */
import { type Job, planJob, planSteps, type SphereTarget, stepsMarkdown, type WorkStep } from 'generatrix';
import { describe, expect, it } from 'vitest';
import { sphereJob } from '../plan/sphere-jobs.js';

const radians = (deg: number): number => (deg * Math.PI) / 180;
const CUTTER = 5;

function sheetOf(target: SphereTarget, table: 'flat' | 'upright', method = 'ball-cutter'): readonly WorkStep[] {
  const given = sphereJob(target);
  const job: Job = {
    ...given,
    mills: [{ name: 'mill', table, headTilt: { largestDeg: 90, stepDeg: 0.5 }, ballCutters: [2 * CUTTER] }],
  };
  const plan = planJob(job, { trials: 1000 });
  return planSteps({ plan, method: plan.methods.findIndex((tried) => tried.method === method) });
}

function find(steps: readonly WorkStep[], code: string): WorkStep {
  const found = steps.find((one) => one.code === code);
  if (!found) throw new Error(`no step ${code}`);
  return found;
}

/** The cutter's axis from its ball end upwards, as [across the work's axis, along it]. */
function axisOf({ text, values }: WorkStep, table: 'flat' | 'upright'): readonly [number, number] {
  const tilt = radians(values['tiltDeg'] ?? Number.NaN);
  const right = /to the right: clockwise/.test(text) ? 1 : /to the left/.test(text) ? -1 : 0;
  if (right === 0 && tilt !== 0) throw new Error(text);
  const [across, up] = [right * Math.sin(tilt), Math.cos(tilt)];
  // Level work axis, free end on the right: right is along the axis, up is across it.
  return table === 'flat' ? [across, up] : [up, across];
}

/** How deep cutter and shank enter a ball about the origin, at the worst of all passes. */
function gouge(steps: readonly WorkStep[], table: 'flat' | 'upright', radius: number, tilt: WorkStep): number {
  const [across, along] = axisOf(tilt, table);
  const face = radius;
  const reads = find(steps, 'zero').values['alongReads'] ?? Number.NaN;
  let least = Number.POSITIVE_INFINITY;
  for (const [from = 0, low = 0] of find(steps, 'positions').table?.rows ?? []) {
    // The dial along reads what it was set to where the ball end touched the face.
    const centre = [from, low - reads + face + CUTTER] as const;
    for (let up = 0; up <= 60; up += 0.25) {
      for (let round = 0; round < 72; round++) {
        const [x, y] = [CUTTER * Math.cos(radians(5 * round)), CUTTER * Math.sin(radians(5 * round))];
        // Square to the cutter's axis in the plane, and out of it.
        const point = [centre[0] + up * across + x * along, centre[1] + up * along - x * across, y];
        least = Math.min(least, Math.hypot(...point));
      }
    }
    // The ball end itself touches the sphere.
    expect(Math.hypot(...centre) - CUTTER).toBeCloseTo(radius, 9);
  }
  return radius - least;
}

describe.each(['flat', 'upright'] as const)('passes round a ball, table %s', (table) => {
  const steps = sheetOf({ part: 'ball-on-stem', diameter: 32, stemDiameter: 14 }, table);
  const tilt = find(steps, 'tilt-cutter');

  it('touch it without the shank cutting in', () => {
    expect(gouge(steps, table, 16, tilt)).toBeLessThan(1e-9);
    const codes = steps.map(({ code }) => code);
    expect(codes.indexOf('tilt-cutter')).toBeLessThan(codes.indexOf('zero'));
  });

  it('would cut in with the head upright, tilted less, or to the other side', () => {
    if (table === 'upright') return expect(tilt.values['tiltDeg']).toBe(0);
    const other = (text: string, tiltDeg: number): WorkStep => ({ ...tilt, text, values: { tiltDeg } });
    const tiltDeg = tilt.values['tiltDeg'] ?? 0;
    expect(tiltDeg).toBeGreaterThan(40);
    expect(gouge(steps, table, 16, other('upright', 0))).toBeGreaterThan(5);
    expect(gouge(steps, table, 16, other(tilt.text, tiltDeg - 2))).toBeGreaterThan(0.001);
    const left = tilt.text.replace('to the right: clockwise', 'to the left: anticlockwise');
    expect(gouge(steps, table, 16, other(left, tiltDeg))).toBeGreaterThan(5);
    expect(tilt.text).toContain('on the right of the work only');
  });
});

it('a cutter enters a socket along its axis', () => {
  const socket: SphereTarget = { part: 'socket', radius: 25, depth: 8 };
  for (const table of ['flat', 'upright'] as const) {
    const steps = sheetOf(socket, table);
    const [across, along] = axisOf(find(steps, 'tilt-cutter'), table);
    expect([across, along]).toEqual([expect.closeTo(0, 12), expect.closeTo(1, 12)]);
    // The face lies 25 - 8 from the centre: there the dial along is told what to read.
    expect(find(steps, 'zero').text).toMatch(/let the dial along read 17\.000 mm/);
  }
});

describe('a trial by a table of positions', () => {
  it.each([
    ['ball', { part: 'ball-on-stem', diameter: 32, stemDiameter: 14 } as SphereTarget, 16, 1],
    ['socket', { part: 'socket', radius: 25, depth: 25 } as SphereTarget, 25, -1],
  ] as const)('of a %s is larger or smaller by what the steps say, and so corrected', (_name, target, radius, out) => {
    const steps = sheetOf(target, 'upright');
    const [rough, size, again] = ['rough', 'size', 'zero-again'].map((code) => find(steps, code));
    const leave = rough?.values['leave'] ?? Number.NaN;
    const added = /added to/.test(rough?.text ?? '') ? 1 : /taken from/.test(rough?.text ?? '') ? -1 : 0;
    // Cut on the right of the axis at the widest pass, the cutter on the outside of a ball, the inside of a socket.
    const widest = (shift: number): number => {
      const rows = find(steps, 'positions').table?.rows ?? [];
      return 2 * Math.max(...rows.map(([across = 0]) => across - out * CUTTER + shift));
    };
    const stands = /over its finished/.test(size?.text ?? '') ? 1 : -1;
    const trial = widest(added * leave);
    expect(trial - widest(0)).toBeCloseTo(stands * Math.abs(size?.values['over'] ?? 0), 9);
    expect(out * (trial - widest(0))).toBeGreaterThan(0);
    expect(Math.abs(widest(0) - 2 * radius)).toBeLessThan(0.2);
    // Larger than that by 0.01: nearer to the axis brings it back.
    const nearer = /nearer to the axis/.test(again?.text ?? '') ? -1 : 1;
    const moved = nearer * Math.abs(again?.values['zeroChange'] ?? 0);
    expect(widest(0.005 + moved)).toBeCloseTo(widest(0), 9);
  });

  it('on a lathe counts diameters from what was measured and depths from the face', () => {
    const plan = planJob(sphereJob({ part: 'ball-on-stem', diameter: 40, stemDiameter: 16 }), { trials: 1000 });
    const method = plan.methods.findIndex((tried) => tried.method === 'steps');
    const text = stepsMarkdown(planSteps({ plan, method }));
    expect(text).toContain('let the dial across read what it measures');
    expect(text).toContain('on the end face and let the dial along read 0.000 mm');
  });
});
