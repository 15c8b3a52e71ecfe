import {
  type SphereMeasurement,
  type Sweep,
  type SweepDiagnosisOptions,
  sweepDiagnosis,
  sweepSettings,
} from 'generatrix/sphere';
import { describe, expect, it } from 'vitest';
import { runs } from '../oracle/seed.js';
import { diagnosisTrials, measure, uncertainties } from './diagnosis-trials.js';

describe('diagnosis', () => {
  it('holds the true errors in its 95 % intervals in 95 % of the trials, and not in all', () => {
    // The same with 1,000 trials: npm run check:diagnosis.
    const trials = runs(200, 100);
    const hits = Object.values(diagnosisTrials(trials));
    const share = hits.reduce((sum, count) => sum + count, 0) / (4 * trials);
    // Both sides: at least 95 % as stated, and so near to it that the intervals are not merely wide.
    expect(share).toBeGreaterThanOrEqual(0.95);
    expect(share).toBeLessThanOrEqual(0.985);
    // The share of 200 trials scatters by 0.015: three of these, and of 100 by 0.022.
    for (const count of hits) {
      expect(count / trials).toBeGreaterThan(0.95 - 0.045 * Math.sqrt(200 / trials));
      expect(count).toBeLessThan(trials);
    }
  });

  const target = { part: 'ball-on-stem', radius: 20, stemDiameter: 20 } as const;
  const { sweep } = sweepSettings({ target });
  const exact = (real: Sweep, kinds: readonly SphereMeasurement['kind'][]): readonly SphereMeasurement[] => {
    const read = measure(real, target);
    return kinds.map((kind) => ({ kind, value: read(kind), uncertainty: 0.002 }) as SphereMeasurement);
  };

  it('finds each error alone from a full set of readings', () => {
    const kinds = ['largest-diameter', 'pip-diameter', 'end-diameter', 'cut-length', 'out-of-round'] as const;
    const wrong = { tiltDeg: 0.5, sweepRadius: 0.15, distance: -0.3, skew: 0.1 };
    for (const cause of ['tiltDeg', 'sweepRadius', 'distance', 'skew'] as const) {
      const real = { ...sweep, skew: 0, [cause]: (cause === 'skew' ? 0 : sweep[cause]) + wrong[cause] };
      const found = sweepDiagnosis({ target, sweep, uncertainties, measurements: exact(real, kinds) });
      for (const other of ['tiltDeg', 'sweepRadius', 'distance', 'skew'] as const) {
        const { estimate, uncertainty } = found.causes[other];
        // The readings are exact, so only the prior pulls: well within the stated uncertainty.
        expect(Math.abs(estimate - (other === cause ? wrong[cause] : 0))).toBeLessThan(2 * uncertainty + 1e-3);
        if (cause !== 'skew' && other === cause) expect(found.changes[cause]).toBe(-estimate);
      }
    }
  });

  it('names what a single reading cannot tell apart', () => {
    const { notToldApart, correlation, order } = sweepDiagnosis({
      target,
      sweep,
      uncertainties,
      measurements: [{ kind: 'largest-diameter', value: 40.1, uncertainty: 0.001 }],
    });
    // Four unknowns, one reading: three directions stay open, and each leaves the diameter as it is.
    expect(notToldApart).toHaveLength(3);
    expect(order).toEqual(['tiltDeg', 'sweepRadius', 'distance', 'skew']);
    for (const row of correlation) for (const value of row) expect(Math.abs(value)).toBeLessThanOrEqual(1 + 1e-12);
    expect(notToldApart.some((change) => Object.keys(change).join() === 'tiltDeg')).toBe(true);
  });

  it('leaves two explanations of a pip where nothing decides, and one where the stem does', () => {
    const half = { ...sweep, sweepRadius: sweep.sweepRadius + 0.2, distance: sweep.distance - 0.5 };
    const [pip, stem] = [
      exact(half, ['pip-diameter']),
      exact(half, ['pip-diameter', 'end-diameter', 'largest-diameter']),
    ];
    const open = sweepDiagnosis({ target, sweep, uncertainties, measurements: pip });
    expect(open.explanations.length).toBeGreaterThan(1);
    expect(open.notes.map(({ code }) => code)).toContain('several-explanations');
    const decided = sweepDiagnosis({ target, sweep, uncertainties, measurements: stem });
    expect(decided.explanations[0]?.probability).toBeGreaterThan(0.95);
  });

  it('says when readings disagree with every sweep near the one meant', () => {
    const found = sweepDiagnosis({
      target,
      sweep,
      uncertainties,
      measurements: [
        { kind: 'largest-diameter', value: 40, uncertainty: 0.01 },
        { kind: 'largest-diameter', value: 40.2, uncertainty: 0.01 },
      ],
    });
    expect(found.notes.map(({ code }) => code)).toContain('readings-disagree');
  });

  it.each([25.4, 1.0001, 1e-3])('tells the same causes in units %d times as large', (k) => {
    const real = { ...sweep, sweepRadius: sweep.sweepRadius + 0.1, skew: 0.05 };
    const told = (unit: number): readonly number[] => {
      const { causes } = sweepDiagnosis({
        target: { part: 'ball-on-stem', radius: 20 * unit, stemDiameter: 20 * unit },
        sweep: { ...sweep, sweepRadius: sweep.sweepRadius * unit, distance: sweep.distance * unit },
        uncertainties: {
          tiltDeg: uncertainties.tiltDeg,
          sweepRadius: uncertainties.sweepRadius * unit,
          distance: uncertainties.distance * unit,
          skew: uncertainties.skew * unit,
        },
        measurements: exact(real, ['largest-diameter', 'pip-diameter', 'out-of-round']).map((one) => ({
          ...one,
          value: one.value * unit,
          uncertainty: one.uncertainty * unit,
        })),
      });
      return [causes.tiltDeg, causes.sweepRadius, causes.distance, causes.skew].flatMap((cause, i) => {
        const scale = i === 0 ? 1 : unit;
        return [cause.estimate / scale, cause.low / scale, cause.high / scale];
      });
    };
    const [one, other] = [told(1), told(k)];
    // Inside, lengths are radii to 12 digits.
    one.forEach((value, i) => {
      expect(Math.abs(value - (other[i] as number))).toBeLessThan(1e-10);
    });
  });

  it.each([
    ['an uncertainty far below what is known', 40.2, 1e-9],
    ['a reading that no sweep gives', 1e10, 0.01],
    ['an uncertainty below all digits', 40.2, 1e-300],
  ])('%s ends in an answer or in a refusal of ours', (_, value, uncertainty) => {
    const measurements = [
      { kind: 'largest-diameter', value, uncertainty },
      { kind: 'pip-diameter', value: 0.4, uncertainty },
    ] as const;
    try {
      const { causes } = sweepDiagnosis({ target, sweep, uncertainties, measurements });
      for (const { estimate } of Object.values(causes)) expect(estimate).toBeLessThan(Infinity);
    } catch (error) {
      expect(error).toMatchObject({ name: 'GeneratrixError', code: value === 1e10 ? 'out-of-range' : 'not-converged' });
    }
  });

  it('gives the changes of each explanation: they meet the pole where their mean does not', () => {
    const half = { ...sweep, distance: sweep.distance - 0.5 };
    const { changes, explanations } = sweepDiagnosis({
      target,
      sweep,
      uncertainties,
      measurements: exact(half, ['pip-diameter']),
    });
    const pipAfter = (change: typeof changes): number => {
      const after = {
        ...half,
        tiltDeg: half.tiltDeg + change.tiltDeg,
        sweepRadius: half.sweepRadius + change.sweepRadius,
        distance: half.distance + change.distance,
      };
      return measure(after, target)('pip-diameter');
    };
    const mine = explanations.find(({ state }) => state === 'past-pole');
    // The explanation that is true leaves little of a pip of 0.97.
    expect(pipAfter(mine?.changes ?? changes)).toBeLessThan(0.25);
    expect(pipAfter(mine?.changes ?? changes)).toBeLessThan(pipAfter(changes));
  });

  it.each<[Partial<Record<keyof SweepDiagnosisOptions, unknown>>, string]>([
    [{ measurements: [] }, 'out-of-range'],
    [{ measurements: [{ kind: 'depth', value: 1, uncertainty: 1 }] }, 'contradiction'],
    [{ measurements: [{ kind: 'pip-diameter', value: 1, uncertainty: 0 }] }, 'out-of-range'],
    [{ measurements: [{ kind: 'weight', value: 1, uncertainty: 1 }] }, 'out-of-range'],
    [{ measurements: [{ kind: 'diameter-at', height: 30, value: 1, uncertainty: 1 }] }, 'out-of-range'],
    [{ measurements: [null] }, 'wrong-kind'],
    [{ measurements: [{ kind: 'pip-diameter', value: 1e10, uncertainty: 0.01 }] }, 'out-of-range'],
    [{ measurements: [{ kind: 'pip-diameter', value: 1, uncertainty: 1, height: 3 }] }, 'unknown-option'],
    [{ measurements: [{ kind: 'diameter-at', value: 1, uncertainty: 1 }] }, 'missing-option'],
    [{ sweep: { ...sweep, sweepRadius: 1e50 } }, 'contradiction'],
    [{ sweep: { ...sweep, skew: 1 } }, 'contradiction'],
    [{ uncertainties: { ...uncertainties, tiltDeg: 30 } }, 'out-of-range'],
    [{ target: { part: 'cap', radius: 20, height: 5 } }, 'contradiction'],
  ])('refuses %j with %s', (change, code) => {
    const measurements = [{ kind: 'largest-diameter', value: 40, uncertainty: 0.01 }];
    const input = { target, sweep, uncertainties, measurements, ...change } as SweepDiagnosisOptions;
    expect(() => sweepDiagnosis(input)).toThrow(expect.objectContaining({ name: 'GeneratrixError', code }));
  });
});
