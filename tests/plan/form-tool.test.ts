/** A short taper that a form tool cuts: limits, ranking, steps and sheet, by hand from plane geometry or in space. */
import {
  type Job,
  type Lathe,
  type MethodPlan,
  type Plan,
  planCorrection,
  planFigure,
  planJob,
  planSteps,
  planSurface,
  type SettingLimits,
  shopSheet,
  type TaperPart,
} from 'generatrix';
import { describe, expect, it } from 'vitest';
import { brutePath } from '../offset/brute-path.js';

const RAD = Math.PI / 180;

/** A seat: its side is 6 / cos 20° = 6.3851 long. */
const PART: TaperPart = {
  kind: 'taper',
  taper: { halfAngleDeg: 20 },
  side: 'outside',
  largeDiameter: 40,
  length: 6,
  workLength: 80,
  largeEndAt: 60,
  headstockEnd: 'large',
  centreHoles: false,
  stockDiameter: 41,
  tolerance: { halfAngleDeg: 0.1 },
};
const SIDE = 6 / Math.cos(20 * RAD);

const LATHE: Lathe = {
  name: 'gap-bed lathe',
  centreDistance: 750,
  topSlide: { travel: 100 },
  formTool: { width: 12, largestWidth: 8 },
};
const EXACT = { topSlideDeg: 0, formToolDeg: 0, toolHeight: 0, touchOff: 0 };

const plan = (part: Partial<TaperPart> = {}, lathe: Partial<Lathe> = {}, setting: SettingLimits = EXACT): Plan => {
  const job: Job = { title: 'seat', unit: 'mm', part: { ...PART, ...part }, lathes: [{ ...LATHE, ...lathe }], setting };
  return planJob(job, { trials: 2000 });
};
const of = ({ methods }: Plan): MethodPlan => methods.find(({ method }) => method === 'form-tool') as MethodPlan;
const near = (value: number): unknown => expect.closeTo(value, 9);
const short = (all: Plan): unknown[] =>
  of(all)
    .limits.filter(({ met }) => !met)
    .map(({ code, needed, available }) => [code, needed, available]);

describe('limits', () => {
  it('needs an edge as long as the side, and a lathe that takes it', () => {
    expect(SIDE).toBeCloseTo(6.3851, 4);
    expect(short(plan({}, { formTool: { width: 6.38, largestWidth: 8 } }))).toEqual([['width', near(SIDE), 6.38]]);
    expect(short(plan({}, { formTool: { width: 12, largestWidth: 6.38 } }))).toEqual([['chatter', near(SIDE), 6.38]]);
    expect(of(plan({}, { formTool: { width: 6.39, largestWidth: 6.39 } })).reaches).toBe(true);
    // A taper ten times as long is no work for it, but for the slide: 60 / cos 20° = 63.85.
    const long = plan({ length: 50, largeEndAt: 20 });
    expect(short(long).map((limit) => (limit as string[])[0])).toEqual(['width', 'chatter']);
    expect(long.methods[long.best as number]?.method).toBe('top-slide');
    expect(of(plan({}, { formTool: undefined as never })).reasons.map(({ code }) => code)).toEqual(['limit-equipment']);
  });

  it('leaves its spare edge where no shoulder stands, or before both', () => {
    // 12 - 6.385 = 5.615 of edge to spare; gaps of 2 and 3 take 5 / cos 20° = 5.321 of it.
    const both = (gap: number): Plan =>
      plan({
        shoulders: [
          { at: 'large', diameter: 60, gap: 2 },
          { at: 'small', diameter: 60, gap },
        ],
      });
    expect(short(both(3))).toEqual([['shoulder', near(12 - SIDE), near(5 / Math.cos(20 * RAD))]]);
    // 5.615 cos 20° - 2 = 3.2765
    expect([3.276, 3.277].map((gap) => of(both(gap)).reaches)).toEqual([false, true]);
    expect(of(plan({ shoulders: [{ at: 'small', diameter: 60, gap: 0 }] })).reaches).toBe(true);
  });

  it('passes over a shoulder that stays within the line of the edge', () => {
    // 2 beyond the large end the edge stands at 20 + 2 tan 20° = 20.728 from the axis.
    const reaches = (diameter: number): boolean =>
      of(
        plan({
          shoulders: [
            { at: 'large', diameter, gap: 2 },
            { at: 'small', diameter: 60, gap: 1 },
          ],
        }),
      ).reaches;
    expect([41.45, 41.46].map(reaches)).toEqual([true, false]);
  });

  it('gives way to a shoulder before the tool post', () => {
    const shoulders = [{ at: 'large', diameter: 60, gap: 9 }] as const;
    expect(short(plan({ shoulders }, { toolPost: { halfWidth: 12, toolReach: 9 } }))).toEqual([['shoulder', 12, 9]]);
  });
});

describe('ranking', () => {
  const first = (setting: SettingLimits): unknown => {
    const { methods } = plan({}, {}, { ...EXACT, ...setting });
    return methods.map(({ method, meets }) => [method, meets]).slice(0, 2);
  };

  it('puts tool or slide first, whichever is surer: both are easy', () => {
    // ± 0.1° asked for: an even spread of ± 0.102° holds it in 98 of 100 parts, ± 0.09° always.
    expect(first({ formToolDeg: 0.09, topSlideDeg: 0.102 })).toEqual([
      ['form-tool', true],
      ['top-slide', true],
    ]);
    expect(first({ formToolDeg: 0.102, topSlideDeg: 0.09 })).toEqual([
      ['top-slide', true],
      ['form-tool', true],
    ]);
  });

  it('promises what an even spread of the angle holds', () => {
    // ± 0.4° set, ± 0.1° asked for: 25 of 100; set again within a fifth, ± 0.08°: all, measured exactly.
    const job: Job = {
      title: 'seat',
      unit: 'mm',
      part: PART,
      lathes: [LATHE],
      setting: { ...EXACT, formToolDeg: 0.4, resettingFraction: 0.2 },
      measuring: { diameter: 0, length: 0 },
    };
    const { expectations, tries, meets } = of(planJob(job));
    // 20,000 trials: a standard deviation of √(0.25 · 0.75 / 20000) = 0.003; five of them.
    expect(Math.abs((expectations[0]?.first.probability ?? 0) - 0.25)).toBeLessThan(0.015);
    expect([expectations[0]?.corrected.probability, tries, meets]).toEqual([1, 2, true]);
    expect(expectations[0]?.limitedBy.input).toBe('angleErrorDeg');
  });

  it('assumes aloud how well the edge is set', () => {
    expect(plan({}, {}, {}).assumptions).toContainEqual(
      expect.objectContaining({ path: 'setting.formToolDeg', value: 0.2 }),
    );
    expect(plan({}, { formTool: undefined as never }, {}).assumptions.map(({ path }) => path)).not.toContain(
      'setting.formToolDeg',
    );
  });
});

describe('a plan carried on', () => {
  const made = plan();
  const which = { plan: made, method: made.methods.findIndex(({ method }) => method === 'form-tool') };

  it('cuts what points on the edge do, errors by source', () => {
    const cut = planSurface({ ...which, errors: { formToolDeg: 0.3, toolHeight: 0.4, touchOff: 0.02, setover: 1 } });
    const leaves = brutePath(20.3 * RAD, 0.4, 20.01);
    expect('smallDiameter' in cut && cut.smallDiameter).toBeCloseTo(2 * leaves(6), 10);
  });

  it('corrects by what was measured', () => {
    const smallDiameter = 40 - 12 * Math.tan(19.8 * RAD);
    const change = planCorrection({ ...which, measured: { largeDiameter: 40, smallDiameter, length: 6 } });
    expect('changeDeg' in change && change.changeDeg).toBeCloseTo(0.2, 10);
    expect('indicatorOnEdge' in change && change.indicatorOnEdge).toBeCloseTo(
      6 * (Math.tan(20 * RAD) - Math.tan(19.8 * RAD)),
      12,
    );
  });

  it('has its steps, its drawing and its sheet', () => {
    const codes = planSteps(which).map(({ code }) => code);
    expect(codes).toEqual(
      expect.arrayContaining(['edge', 'edge-angle', 'infeed', 'edge-indicator', 'turn-edge', 'touch-off']),
    );
    // 0.5 over the large end and 6 tan 20° = 2.184: 2.684 in.
    const svg = planFigure(which);
    expect(svg).toContain('2.684 mm');
    expect(svg).toContain('20.0000°');
    const sheet = shopSheet({ ...which, format: 'html', figures: [{ title: 'Form tool', svg }] });
    for (const { text } of planSteps(which)) expect(sheet).toContain(text.replaceAll("'", '&#39;'));
    expect(sheet).toContain('form tool fed straight in');
  });
});
