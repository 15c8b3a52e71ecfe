import fc from 'fast-check';
import {
  type SphereMeasurement,
  type Sweep,
  type SweepDiagnosisOptions,
  sweepDiagnosis,
  sweepSettings,
} from 'generatrix/sphere';
import { describe, expect, it } from 'vitest';
import { runs } from '../oracle/seed.js';
import { diagnosisTrials, type Length, measure, tipAtPole, uncertainties, work } from './diagnosis-trials.js';
import { revolved, sweepPoints } from './space.js';

describe('diagnosis', () => {
  it('holds the true errors in its 95 % intervals in 95 % of the trials, and not in all', () => {
    // The same with 1,000 trials: npm run check:diagnosis.
    const trials = 200;
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
  const exact = (real: Sweep, kinds: readonly Length[]): readonly SphereMeasurement[] => {
    const read = measure(real, target);
    return kinds.map((kind) => ({ kind, value: read(kind), uncertainty: 0.002 }) as SphereMeasurement);
  };

  it('finds each error alone from a full set of readings', () => {
    const kinds = ['largest-diameter', 'pip-diameter', 'end-diameter', 'cut-length', 'out-of-round'] as const;
    const wrong = { tiltDeg: 0.5, sweepRadius: 0.15, distance: -0.3, skew: 0.1 };
    for (const cause of ['tiltDeg', 'sweepRadius', 'distance', 'skew'] as const) {
      const real = { ...sweep, skew: 0, [cause]: (cause === 'skew' ? 0 : sweep[cause]) + wrong[cause] };
      const found = sweepDiagnosis({ target, sweep, uncertainties, trials: [{ measurements: exact(real, kinds) }] });
      for (const other of ['tiltDeg', 'sweepRadius', 'distance', 'skew'] as const) {
        const { estimate, uncertainty } = found.causes[other];
        // The readings are exact, so only the prior pulls: well within the stated uncertainty.
        expect(Math.abs(estimate - (other === cause ? wrong[cause] : 0))).toBeLessThan(2 * uncertainty + 1e-3);
      }
    }
  });

  it('names what a single reading cannot tell apart', () => {
    const { notToldApart, correlation, order } = sweepDiagnosis({
      target,
      sweep,
      uncertainties,
      trials: [{ measurements: [{ kind: 'largest-diameter', value: 40.1, uncertainty: 0.001 }] }],
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
    const open = sweepDiagnosis({ target, sweep, uncertainties, trials: [{ measurements: pip }] });
    expect(open.explanations.length).toBeGreaterThan(1);
    expect(open.notes.map(({ code }) => code)).toContain('several-explanations');
    const decided = sweepDiagnosis({ target, sweep, uncertainties, trials: [{ measurements: stem }] });
    expect(decided.explanations[0]?.probability).toBeGreaterThan(0.95);
  });

  it('says when readings disagree with every sweep near the one meant', () => {
    const found = sweepDiagnosis({
      target,
      sweep,
      uncertainties,
      trials: [
        {
          measurements: [
            { kind: 'largest-diameter', value: 40, uncertainty: 0.01 },
            { kind: 'largest-diameter', value: 40.2, uncertainty: 0.01 },
          ],
        },
      ],
    });
    expect(found.notes.map(({ code }) => code)).toContain('readings-disagree');
  });

  it.each([25.4, 1.0001, 1e-3])('tells the same in units %d times as large', (k) => {
    fc.assert(
      fc.property(
        fc.record({
          tiltDeg: fc.double({ min: -0.6, max: 0.6, noNaN: true }),
          sweepRadius: fc.double({ min: -0.15, max: 0.15, noNaN: true }),
          distance: fc.double({ min: -0.4, max: 0.4, noNaN: true }),
          skew: fc.double({ min: -0.1, max: 0.1, noNaN: true }),
          kinds: fc.subarray<Length>(['largest-diameter', 'pip-diameter', 'out-of-round', 'end-diameter'], {
            minLength: 2,
          }),
        }),
        ({ kinds, ...errors }) => {
          const real = {
            tiltDeg: sweep.tiltDeg + errors.tiltDeg,
            sweepRadius: sweep.sweepRadius + errors.sweepRadius,
            distance: sweep.distance + errors.distance,
            skew: errors.skew,
          };
          const readings = exact(real, kinds) as readonly { kind: Length; value: number }[];
          const told = (unit: number): readonly number[] => {
            const { causes, recommended, next } = sweepDiagnosis({
              target: { part: 'ball-on-stem', radius: 20 * unit, stemDiameter: 20 * unit },
              sweep: { ...sweep, sweepRadius: sweep.sweepRadius * unit, distance: sweep.distance * unit },
              uncertainties: {
                tiltDeg: uncertainties.tiltDeg,
                sweepRadius: uncertainties.sweepRadius * unit,
                distance: uncertainties.distance * unit,
                skew: uncertainties.skew * unit,
              },
              trials: [
                {
                  measurements: readings.map(({ kind, value }) => {
                    return { kind, value: value * unit, uncertainty: 0.02 * unit } as SphereMeasurement;
                  }),
                },
              ],
            });
            const { tiltDeg, sweepRadius, distance, skew } = causes;
            return [
              ...[sweepRadius, distance, skew].flatMap(({ estimate, low, high }) => [estimate, low, high]),
              ...[recommended.changes.sweepRadius, recommended.changes.distance, next?.errorThen ?? 0],
            ]
              .map((length) => length / unit)
              .concat(
                tiltDeg.estimate,
                tiltDeg.low,
                tiltDeg.high,
                recommended.changes.tiltDeg,
                recommended.probability,
              );
          };
          const [one, other] = [told(1), told(k)];
          // Inside, lengths are radii to 12 digits; the readings' slopes multiply that by less than a thousand.
          one.forEach((value, i) => {
            expect(Math.abs(value - (other[i] as number))).toBeLessThan(1e-8);
          });
        },
      ),
      { numRuns: runs(20, 3) },
    );
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
      const { causes } = sweepDiagnosis({ target, sweep, uncertainties, trials: [{ measurements }] });
      for (const { estimate } of Object.values(causes)) expect(estimate).toBeLessThan(Infinity);
    } catch (error) {
      expect(error).toMatchObject({ name: 'GeneratrixError', code: value === 1e10 ? 'out-of-range' : 'not-converged' });
    }
  });

  it('gives the changes of each explanation: they meet the pole where their mean does not', () => {
    const half = { ...sweep, distance: sweep.distance - 0.5 };
    const { explanations, next, notes } = sweepDiagnosis({
      target,
      sweep,
      uncertainties,
      instruments: [{ kind: 'tip-at-pole', uncertainty: 0.05 }],
      trials: [{ measurements: exact(half, ['pip-diameter', 'out-of-round']) }],
    });
    expect(explanations.map(({ state }) => state).sort()).toEqual(['not-reached', 'past-pole']);
    expect(explanations.reduce((sum, { probability }) => sum + probability, 0)).toBeCloseTo(1, 2);
    expect(notes.map(({ code }) => code)).toContain('several-explanations');
    const mine = explanations.find(({ state }) => state === 'past-pole');
    const { tiltDeg = 0, sweepRadius = 0, distance = 0 } = mine?.changes ?? {};
    const after = {
      tiltDeg: half.tiltDeg + tiltDeg,
      sweepRadius: half.sweepRadius + sweepRadius,
      distance: half.distance + distance,
    };
    // The explanation that is true leaves little of a pip of 0.97.
    expect(measure(after, target)('pip-diameter')).toBeLessThan(0.01);
    // The tip itself would decide, and each explanation says what it would show.
    expect(next?.kind).toBe('tip-at-pole');
    expect(next?.predictions).toEqual(explanations.map(({ state }) => ({ value: state })));
    expect(next?.errorThen).toBeLessThan((next?.errorNow ?? 0) / 2);
  });

  it('takes which side of the pole the tip passes as a reading', () => {
    for (const distance of [-0.5, 0.5]) {
      const real = { ...sweep, distance: sweep.distance + distance };
      const value = tipAtPole(real) > 0 ? 'not-reached' : 'past-pole';
      const seen = { kind: 'tip-at-pole', value, uncertainty: 0.05 } as const;
      const trials = [{ measurements: [...exact(real, ['pip-diameter', 'out-of-round']), seen] }];
      const { explanations, recommended } = sweepDiagnosis({ target, sweep, uncertainties, trials });
      expect(explanations).toHaveLength(1);
      expect(recommended.state).toBe(value);
    }
  });

  it('learns on which side the axes pass from a second trial, or from the tip on either side', () => {
    const kinds = ['largest-diameter', 'pip-diameter', 'out-of-round'] as const;
    for (const skew of [-0.08, 0.08]) {
      const first = { ...sweep, skew };
      const once = sweepDiagnosis({ target, sweep, uncertainties, trials: [{ measurements: exact(first, kinds) }] });
      expect(once.explanations.map((one) => Math.sign(one.causes.skew ?? 0)).sort()).toEqual([-1, 1]);
      const changes = { skew: 0.08 };
      const again = { ...first, skew: skew + changes.skew };
      const twice = sweepDiagnosis({
        target,
        sweep,
        uncertainties,
        trials: [{ measurements: exact(first, kinds) }, { changes, measurements: exact(again, kinds) }],
      });
      expect(twice.explanations).toHaveLength(1);
      expect(twice.recommended.causes.skew).toBeCloseTo(skew, 2);
      expect(twice.recommended.changes.skew).toBeCloseTo(-again.skew, 2);
      const sides = exact(first, ['pip-diameter', 'tip-side-to-side']);
      const seen = sweepDiagnosis({ target, sweep, uncertainties, trials: [{ measurements: sides }] });
      expect(seen.recommended.causes.skew).toBeCloseTo(skew, 2);
    }
  });

  it('reads a radius, and the depth of a dome', () => {
    const cap = { part: 'cap', radius: 20, height: 12 } as const;
    const dome = sweepSettings({ target: cap }).sweep;
    const real = { ...dome, distance: dome.distance + 0.3 };
    const read = measure(real, cap);
    const rim = 8;
    const { misfits, causes } = sweepDiagnosis({
      target: cap,
      sweep: dome,
      uncertainties: { ...uncertainties, place: 0.1 },
      trials: [
        {
          measurements: [
            { kind: 'radius', value: read('radius'), uncertainty: 0.002 },
            { kind: 'depth', value: read('depth', rim), uncertainty: 0.002 },
            { kind: 'pip-diameter', value: read('pip-diameter'), uncertainty: 0.002 },
          ],
        },
      ],
    });
    for (const misfit of misfits) expect(Math.abs(misfit)).toBeLessThan(0.5);
    // No skew, and little left for the place: the radius from space is the path's own.
    expect(causes.distance.low).toBeLessThan(0.3);
    expect(causes.distance.high).toBeGreaterThan(0.3);
  });

  it.each([0.4, 0.8, 2])('finds perfect settings with a nose of %d perfect', (noseRadius) => {
    const part = { part: 'ball-on-stem', diameter: 32, stemDiameter: 14 } as const;
    const { sweep: meant } = sweepSettings({ target: part, noseRadius });
    const path = revolved(sweepPoints({ ...meant }, 1440));
    // The nose's circle in the half-plane of the axis leaves what it never covers.
    const left = (z: number): number =>
      2 *
      Math.min(
        ...path.map(([rho, at]) => {
          const off = noseRadius * noseRadius - (z - at) ** 2;
          return off < 0 ? Infinity : rho - Math.sqrt(off);
        }),
      );
    const lowest = Math.min(...path.map(([, z]) => z));
    const { causes, misfits } = sweepDiagnosis({
      target: part,
      sweep: meant,
      uncertainties,
      trials: [
        {
          measurements: [
            { kind: 'largest-diameter', value: left(0), uncertainty: 0.006 },
            { kind: 'pip-diameter', value: 0, uncertainty: 0.03 },
            { kind: 'end-diameter', value: left(lowest), uncertainty: 0.05 },
            { kind: 'out-of-round', value: 0, uncertainty: 0.003 },
          ],
        },
      ],
    });
    expect(left(0)).toBeCloseTo(32, 2);
    expect(left(lowest)).toBeCloseTo(14, 2);
    for (const misfit of misfits) expect(Math.abs(misfit)).toBeLessThan(0.1);
    for (const cause of ['tiltDeg', 'sweepRadius', 'distance'] as const) {
      expect(causes[cause].low).toBeLessThan(0);
      expect(causes[cause].high).toBeGreaterThan(0);
      expect(Math.abs(causes[cause].estimate)).toBeLessThan(causes[cause].uncertainty);
    }
  });

  it('leads mis-set parts to good ones: 9 of 10 in two tries, the rest in three', () => {
    const parts = runs(40, 20);
    // Many more, with a new seed each time: npm run check:diagnosis.
    const tries = Array.from({ length: parts }, (_, i) => work(500 + i).good);
    expect(tries.filter((good) => good === 1 || good === 2).length).toBeGreaterThanOrEqual(0.9 * parts);
    expect(tries).not.toContain(0);
  });

  it.each<[Partial<Record<keyof SweepDiagnosisOptions, unknown>>, string]>([
    [{ trials: [] }, 'out-of-range'],
    [{ trials: [{ measurements: [] }] }, 'out-of-range'],
    [
      { trials: [{ changes: { sweepRadius: -30 }, measurements: [{ kind: 'radius', value: 20, uncertainty: 1 }] }] },
      'contradiction',
    ],
    [{ instruments: [{ kind: 'depth', uncertainty: 1 }] }, 'contradiction'],
    [{ trials: [{ measurements: [{ kind: 'depth', value: 1, uncertainty: 1 }] }] }, 'contradiction'],
    [{ trials: [{ measurements: [{ kind: 'pip-diameter', value: 1, uncertainty: 0 }] }] }, 'out-of-range'],
    [{ trials: [{ measurements: [{ kind: 'weight', value: 1, uncertainty: 1 }] }] }, 'out-of-range'],
    [{ trials: [{ measurements: [{ kind: 'diameter-at', height: 30, value: 1, uncertainty: 1 }] }] }, 'out-of-range'],
    [{ trials: [{ measurements: [null] }] }, 'wrong-kind'],
    [{ trials: [{ measurements: [{ kind: 'pip-diameter', value: 1e10, uncertainty: 0.01 }] }] }, 'out-of-range'],
    [{ trials: [{ measurements: [{ kind: 'pip-diameter', value: 1, uncertainty: 1, height: 3 }] }] }, 'unknown-option'],
    [{ trials: [{ measurements: [{ kind: 'diameter-at', value: 1, uncertainty: 1 }] }] }, 'missing-option'],
    [{ sweep: { ...sweep, sweepRadius: 1e50 } }, 'contradiction'],
    [{ sweep: { ...sweep, skew: 1 } }, 'contradiction'],
    [{ changeUncertainties: { skew: -1 } }, 'out-of-range'],
    [{ uncertainties: { ...uncertainties, tiltDeg: 30 } }, 'out-of-range'],
    [{ target: { part: 'cap', radius: 20, height: 5 } }, 'contradiction'],
  ])('refuses %j with %s', (change, code) => {
    const measurements = [{ kind: 'largest-diameter', value: 40, uncertainty: 0.01 }];
    const input = { target, sweep, uncertainties, trials: [{ measurements }], ...change } as SweepDiagnosisOptions;
    expect(() => sweepDiagnosis(input)).toThrow(expect.objectContaining({ name: 'GeneratrixError', code }));
  });
});
