/** First order against the guides' worked examples and against functions whose answer is known. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type Budget,
  type BudgetOptions,
  budget,
  correlationsOfReadings,
  coverageFactor,
  type Input,
  type Model,
} from '../../src/budget/index.js';
import { readInput } from '../../src/budget/known.js';
import { halfUnit, type PublishedExample, published } from '../reference/published.js';

/** A computed value against a printed one, in the printed digits. */
function printed(example: PublishedExample, key: string, value: number, scale = 1): void {
  const text = example.published[key]?.value ?? '';
  expect(Math.abs(value / scale - Number(text)), `${example.id} ${key}: ${value / scale}`).toBeLessThanOrEqual(
    halfUnit(text) * (1 + 1e-9),
  );
}

/** JCGM 100:2008, H.1: an end gauge of 50 mm against a standard of the same length, in nanometres. */
const endGauge: Model<'ls' | 'd' | 'da' | 'theta' | 'as' | 'dt'> = {
  name: 'end-gauge',
  result: { kind: 'length', meaning: 'length of the gauge' },
  inputs: {
    ls: { kind: 'length', meaning: 'length of the standard' },
    d: { kind: 'length', meaning: 'difference read' },
    da: { kind: 'number', meaning: 'difference of expansion coefficients' },
    theta: { kind: 'temperature', meaning: 'departure from 20 °C' },
    as: { kind: 'number', meaning: 'expansion coefficient of the standard' },
    dt: { kind: 'temperature', meaning: 'temperature difference' },
  },
  evaluate: (m, { ls, d, da, theta, as, dt }) =>
    m.subtract(m.add(ls, d), m.multiply(ls, m.add(m.multiply(da, theta), m.multiply(as, dt)))),
};

// The parts of the comparator's and the temperature's uncertainty, from the published inputs.
const comparator = budget({
  model: ({ repeat, random, systematic }) => (repeat as number) + (random as number) + (systematic as number),
  inputs: {
    repeat: { value: 215, standardUncertainty: 5.8, degreesOfFreedom: 24 },
    random: { value: 0, standardUncertainty: 3.9, degreesOfFreedom: 5 },
    systematic: { value: 0, standardUncertainty: 6.7, degreesOfFreedom: 8 },
  },
});
const temperature = budget({
  model: ({ mean, cycle }) => (mean as number) + (cycle as number),
  inputs: {
    mean: { value: -0.1, standardUncertainty: 0.2 },
    cycle: { value: 0, plusMinus: 0.5, distribution: 'arcsine' },
  },
});

describe('JCGM 100 H.1, end-gauge calibration', () => {
  const inputs = (d: Input): Record<keyof typeof endGauge.inputs, Input> => ({
    ls: { value: 50000623, standardUncertainty: 25, degreesOfFreedom: 18 },
    d,
    da: { value: 0, plusMinus: 1e-6, degreesOfFreedom: 50 },
    theta: { value: temperature.value, standardUncertainty: temperature.standardUncertainty },
    as: { value: 11.5e-6, plusMinus: 2e-6 },
    dt: { value: 0, plusMinus: 0.05, degreesOfFreedom: 2 },
  });
  // The guide goes on with 9.7 nm and 25.6 degrees of freedom; with all digits the latter is 25.4.
  const rounded: Input = { value: 215, standardUncertainty: 9.7, degreesOfFreedom: 25.6 };
  const whole = budget({ model: endGauge, inputs: inputs(rounded), coverage: 0.99 });
  const row = (name: string): Budget['rows'][number] | undefined => whole.rows.find((r) => r.name === name);

  it('combines the comparator’s uncertainty', () => {
    printed(published('T7-H1-ud'), 'u_d', comparator.standardUncertainty);
    // The printed 25.6 follows from the printed 9.7.
    const nu = 9.7 ** 4 / (5.8 ** 4 / 24 + 3.9 ** 4 / 5 + 6.7 ** 4 / 8);
    printed(published('T7-H1-ud'), 'nu_d', nu);
    expect((comparator.degreesOfFreedom ?? 0) / nu).toBeCloseTo((comparator.standardUncertainty / 9.7) ** 4, 12);
  });

  it('gives the length, its uncertainty and degrees of freedom', () => {
    printed(published('T7-H1-y'), 'l', whole.value);
    printed(published('T7-H1-uc'), 'uc', whole.standardUncertainty);
    expect(whole.coverageDegreesOfFreedom).toBe(Number(published('T7-H1-nu').published['nu_eff']?.value));
    // H.1.6 prints 16.7, from u² rounded to 1002 nm² (memory); with all digits it is 16.76.
    expect(Math.abs((whole.degreesOfFreedom ?? 0) - 16.7)).toBeLessThan(0.1);
  });

  it('gives the rows of table H.1', () => {
    const values = Object.fromEntries(whole.rows.map(({ name, contribution }) => [name, contribution]));
    expect(values['ls']?.toFixed(0)).toBe('25');
    expect(values['d']?.toFixed(1)).toBe('9.7');
    printed(published('T7-H1-dt'), 'u', values['dt'] ?? 0);
    printed(published('T7-H1-da'), 'u', values['da'] ?? 0);
    expect(row('as')?.contribution).toBe(0);
    expect(whole.rows.map(({ name }) => name)).toEqual(['ls', 'dt', 'd', 'da', 'theta', 'as']);
  });

  it('gives the expanded uncertainty from the rounded standard uncertainty, as the guide does', () => {
    printed(published('T7-H1-U99'), 'k', whole.coverageFactor);
    printed(published('T7-H1-U99'), 'U99', whole.coverageFactor * 32);
  });

  it('sees in second order what the vanishing sensitivities hide', () => {
    printed(published('T7-H1-2nd'), 'u_2nd', whole.secondOrder?.standardUncertainty ?? 0);
    // H.1.7: the two products contribute 11.7 nm and 1.7 nm (memory).
    const terms = whole.secondOrder?.terms.map(({ between, variance }) => [
      between.join(),
      Math.sqrt(variance).toFixed(1),
    ]);
    expect(terms?.slice(0, 2)).toEqual([
      ['da,theta', '11.7'],
      ['as,dt', '1.7'],
    ]);
    expect(whole.notes.map(({ code }) => code)).toContain('second-order-matters');
    const second = budget({ model: endGauge, inputs: inputs(rounded), coverage: 0.99, includeSecondOrder: true });
    expect(second.standardUncertainty).toBe(whole.secondOrder?.standardUncertainty);
  });

  it('gives the same by differences of a plain function', () => {
    const f = ({ ls, d, da, theta, as, dt }: Readonly<Record<string, number>>): number =>
      (ls as number) +
      (d as number) -
      (ls as number) * ((da as number) * (theta as number) + (as as number) * (dt as number));
    const plain = budget({ model: f, inputs: inputs(rounded), coverage: 0.99 });
    expect(plain.derivatives).toBe('numerical');
    expect(plain.standardUncertainty / whole.standardUncertainty).toBeCloseTo(1, 8);
    expect((plain.secondOrder?.standardUncertainty ?? 0) / (whole.secondOrder?.standardUncertainty ?? 1)).toBeCloseTo(
      1,
      4,
    );
  });
});

describe('JCGM 100 H.2, resistance and reactance measured together', () => {
  // Five simultaneous observations of V (volt), I (milliampere), φ (radian); table H.2 (memory).
  const V = [5.007, 4.994, 5.005, 4.99, 4.999];
  const I = [19.663, 19.639, 19.64, 19.685, 19.678];
  const P = [1.0456, 1.0438, 1.0468, 1.0428, 1.0433];
  const common = {
    inputs: { V: { readings: V }, I: { readings: I.map((mA) => mA / 1000) }, P: { readings: P } },
    correlations: correlationsOfReadings({ V, I, P }),
  };
  const impedance = (name: string, part: 'sin' | 'cos' | 'one'): Model<'V' | 'I' | 'P'> => ({
    name,
    result: { kind: 'number', meaning: name },
    inputs: {
      V: { kind: 'number', meaning: 'amplitude of the voltage' },
      I: { kind: 'number', meaning: 'amplitude of the current' },
      P: { kind: 'number', meaning: 'phase' },
    },
    evaluate: (m, { V: v, I: i, P: radians }) => {
      const p = m.multiply(radians, m.constant(180 / Math.PI));
      return m.multiply(m.divide(v, i), part === 'one' ? m.constant(1) : part === 'sin' ? m.sinDeg(p) : m.cosDeg(p));
    },
  });

  it('has the printed means and correlations (table H.2, memory)', () => {
    const { inputs, correlations } = common;
    expect(readInput(inputs.V).estimate.toFixed(4)).toBe('4.9990');
    expect(readInput(inputs.V).standardUncertainty.toFixed(4)).toBe('0.0032');
    expect((readInput(inputs.I).estimate * 1000).toFixed(4)).toBe('19.6610');
    expect((readInput(inputs.I).standardUncertainty * 1000).toFixed(4)).toBe('0.0095');
    expect(readInput(inputs.P).estimate.toFixed(5)).toBe('1.04446');
    expect(readInput(inputs.P).standardUncertainty.toFixed(5)).toBe('0.00075');
    expect(correlations.map(({ coefficient }) => coefficient.toFixed(2))).toEqual(['-0.36', '0.86', '-0.65']);
  });

  // Tables H.3 and H.4 (memory): R = 127.732(71), X = 219.847(295), Z = 254.260(236) ohm. First order gives
  // u(X) = 0.29558 with all digits; 0.29549 comes from the five values of X themselves, as in table H.4.
  it.each([
    ['resistance', 'cos', '127.732', '0.071'],
    ['reactance', 'sin', '219.847', '0.295'],
    ['impedance', 'one', '254.260', '0.236'],
  ] as const)('%s', (name, part, value, u) => {
    const result = budget({ model: impedance(name, part), ...common });
    expect(result.value.toFixed(3)).toBe(value);
    expect(Math.abs(result.standardUncertainty - Number(u))).toBeLessThan(0.0006);
    const values = V.map((v, i) => {
      const z = v / ((I[i] as number) / 1000);
      return part === 'one' ? z : z * Math[part](P[i] as number);
    });
    const direct = readInput({ readings: values });
    expect(direct.standardUncertainty.toFixed(3)).toBe(u);
    // The five values are the function on a range of 0.5 %, over which it is straight to about 0.5 %.
    expect(Math.abs(result.standardUncertainty / direct.standardUncertainty - 1)).toBeLessThan(0.005);
    // From five readings taken together: four degrees of freedom, correlated or not.
    expect(result.degreesOfFreedom).toBeCloseTo(4, 9);
    expect(result.rows.reduce((s, { share }) => s + share, 0)).toBeCloseTo(1, 12);
  });
});

describe('JCGM 100 H.3, calibration of a thermometer', () => {
  // Least-squares line through 11 corrections: y₁ = -0.1712(29) °C, y₂ = 0.00218(67), r = -0.930; at 30 °C, from
  // t₀ = 20 °C, b = -0.1494 °C with u = 0.0041 °C and 9 degrees of freedom (memory).
  it('predicts a correction with correlated intercept and slope', () => {
    const { value, standardUncertainty, degreesOfFreedom } = budget({
      model: ({ y1, y2 }) => (y1 as number) + (y2 as number) * (30 - 20),
      inputs: {
        y1: { value: -0.1712, standardUncertainty: 0.0029, degreesOfFreedom: 9 },
        y2: { value: 0.00218, standardUncertainty: 0.00067, degreesOfFreedom: 9 },
      },
      correlations: [{ between: ['y1', 'y2'], coefficient: -0.93 }],
    });
    expect(value.toFixed(4)).toBe('-0.1494');
    expect(standardUncertainty.toFixed(4)).toBe('0.0041');
    expect(degreesOfFreedom).toBeCloseTo(9, 9);
  });
});

it('T7-WS-1: effective degrees of freedom of two inputs', () => {
  const { degreesOfFreedom, coverageDegreesOfFreedom } = budget({
    model: ({ a, b }) => (a as number) + (b as number),
    inputs: {
      a: { value: 0, standardUncertainty: 0.57, degreesOfFreedom: 9 },
      b: { value: 0, standardUncertainty: 0.25 },
    },
  });
  printed(published('T7-WS-1'), 'nu_eff', degreesOfFreedom ?? 0);
  expect(coverageDegreesOfFreedom).toBe(12);
});

describe('EA-4/02, supplements', () => {
  // S11's and S3's printed results do not follow from their printed inputs; they are left out.
  it.each(['T7-EA-S2', 'T7-EA-S5', 'T7-EA-S7', 'T7-EA-S12'])('%s', (id) => {
    const example = published(id);
    const terms = Object.entries(example.inputs).map(([name, text]) => {
      const [, u = '', c, nu] = /u=(\S+).*?, c=(\S+), nu=(\S+)/.exec(String(text)) ?? [];
      return { name, text: u, u: Number(u), c: Number(c), nu: nu === 'inf' ? {} : { degreesOfFreedom: Number(nu) } };
    });
    expect(terms.length).toBeGreaterThan(1);
    const result = budget({
      model: (x) => terms.reduce((s, { name, c }) => s + c * (x[name] as number), 0),
      inputs: Object.fromEntries(terms.map(({ name, u, nu }) => [name, { value: 0, standardUncertainty: u, ...nu }])),
      coverage: 0.9545,
    });
    // The inputs are printed rounded: that moves the result by up to Σ |∂u/∂uᵢ| half units.
    const u = result.standardUncertainty;
    const rounding = terms.reduce((s, term) => s + ((term.c ** 2 * term.u) / u) * halfUnit(term.text), 0);
    // S12's 9.10e-4 comes from 6.00e-4 and 6.80e-4, which give 9.07e-4: only its first two digits can be meant.
    const text = (example.published['u']?.value ?? '').replace('9.10e-4', '9.1e-4');
    expect(Math.abs(u - Number(text))).toBeLessThan(halfUnit(text) + rounding);
    printed(example, 'k', result.coverageFactor);
    // S12 prints 2.0e-3 for 2.28 times 9.10e-4, which is 2.07e-3 and rounds to 2.1e-3.
    if (id !== 'T7-EA-S12') printed(example, 'U', result.expandedUncertainty);
  });
});

it('T7-SB: a product of powers of constants known to ten digits', () => {
  const example = published('T7-SB');
  const c = 299792458;
  const constant = (text: string): Input => {
    const [, digits = '', spread = '', exponent = '0'] = /^([\d.]+?)(?:e(-?\d+))?\((\d+)\)$/.exec(text)
      ? [null, text.replace(/e.*|\(.*/g, ''), /\((\d+)\)/.exec(text)?.[1], /e(-?\d+)/.exec(text)?.[1]]
      : [];
    const places = digits.split('.')[1]?.length ?? 0;
    return {
      value: Number(`${digits}e${exponent}`),
      standardUncertainty: Number(`${spread}e${Number(exponent) - places}`),
    };
  };
  const inputs = Object.fromEntries(
    Object.entries(example.inputs).map(([name, text]) => [name, constant(String(text))]),
  );
  // σ = 32 π⁵ h R⁴ R∞⁴ / (15 Ar⁴ Mu⁴ c⁶ α⁸), from σ = 2π⁵k⁴/(15 h³c²), k = R/N and N = Ar Mu c α²/(2 R∞ h).
  const result = budget({
    model: ({ h, R, Rinf, 'Ar(e)': Ar, alpha }) =>
      (32 * Math.PI ** 5 * (h as number) * (R as number) ** 4 * (Rinf as number) ** 4) /
      (15 * (Ar as number) ** 4 * 1e-3 ** 4 * c ** 6 * (alpha as number) ** 8),
    inputs,
  });
  printed(example, 'sigma', result.value);
  printed(example, 'u', result.standardUncertainty);
});

describe('JCGM 101 9.4, a loss about zero', () => {
  const loss: Model<'a' | 'b'> = {
    name: 'loss',
    result: { kind: 'ratio', meaning: 'comparison loss' },
    inputs: { a: { kind: 'ratio', meaning: 'real part' }, b: { kind: 'ratio', meaning: 'imaginary part' } },
    evaluate: (m, { a, b }) => m.add(m.square(a), m.square(b)),
  };
  it.each([
    ['T7-S1-94-0', 0],
    ['T7-S1-94-0.010', 0.01],
    ['T7-S1-94-0.050', 0.05],
  ])('%s', (id, a) => {
    const example = published(id);
    const inputs = { a: { value: a, standardUncertainty: 0.005 }, b: { value: 0, standardUncertainty: 0.005 } };
    const result = budget({ model: loss, inputs });
    printed(example, 'GUF_u', result.standardUncertainty, 1e-6);
    printed(example, 'GUF_y', result.value, 1e-6);
    // For normal inputs and a square the series ends: second order is the truth that Monte Carlo estimates.
    printed(example, 'MCM_u', result.secondOrder?.standardUncertainty ?? 0, 1e-6);
    expect(result.secondOrder?.meanShift).toBeCloseTo(50e-6, 12);
    const plain = budget({ model: ({ a: x, b }) => (x as number) ** 2 + (b as number) ** 2, inputs });
    expect(plain.secondOrder?.standardUncertainty).toBeCloseTo(result.secondOrder?.standardUncertainty ?? 0, 12);
  });
});

describe('functions of the caller’s own', () => {
  const smooth: Record<string, [(x: number) => number, (x: number) => number]> = {
    'square root': [Math.sqrt, (x) => 0.5 / Math.sqrt(x)],
    logarithm: [Math.log, (x) => 1 / x],
    sine: [Math.sin, Math.cos],
    'fast sine': [(x) => Math.sin(20 * x), (x) => 20 * Math.cos(20 * x)],
    'arc sine to its edge': [(x) => Math.asin(x / 3.02), (x) => 1 / Math.sqrt(3.02 ** 2 - x * x)],
    reciprocal: [(x) => 1 / x, (x) => -1 / (x * x)],
    'large offset': [(x) => 1e6 + x * x, (x) => 2 * x],
  };
  it.each(Object.entries(smooth))('%s: the stated error covers the true one', (_, [f, slope]) => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.3, max: 3, noNaN: true }),
        fc.double({ min: -7, max: -0.5, noNaN: true }),
        (x, power) => {
          const input = { x: { value: x, standardUncertainty: 10 ** power } };
          const row = budget({ model: ({ x: at }) => f(at as number), inputs: input }).rows[0];
          const error = Math.abs((row?.sensitivity ?? Number.NaN) - slope(x));
          expect(error).toBeLessThanOrEqual(row?.sensitivityError ?? 0);
          expect(error).toBeLessThan(1e-6 * Math.abs(slope(x)) + 1e-9);
        },
      ),
      // Where the fast sine is level, nothing can be vouched for to 1e-6 of a contribution that vanishes.
      { numRuns: 100 },
    );
  });

  it.each<[string, (x: number) => number]>([
    ['a corner', (x) => Math.abs(x - 2)],
    ['a jump', (x) => Math.floor(x)],
    ['a dial’s rounding', (x) => Math.round(x * 100) / 100],
    ['a corner nearby', (x) => Math.max(x, 2.0001)],
    ['noise', (x) => x + 1e-4 * Math.sin(1e9 * x)],
  ])('refuses %s', (_, f) => {
    const call = (): Budget =>
      budget({ model: ({ x }) => f(x as number), inputs: { x: { value: 2, plusMinus: 0.3 } } });
    expect(call).toThrow(expect.objectContaining({ code: 'not-converged', parameter: 'inputs.x' }));
  });

  it('refuses one that changes from call to call', () => {
    let calls = 0;
    const call = (): Budget =>
      budget({ model: ({ x }) => (x as number) + calls++, inputs: { x: { value: 2, plusMinus: 1 } } });
    expect(call).toThrow(expect.objectContaining({ code: 'contradiction' }));
  });

  it('says where a straight line will not do', () => {
    const { notes } = budget({
      model: ({ x }) => Math.exp(x as number),
      inputs: { x: { value: 0, standardUncertainty: 1 } },
    });
    expect(notes.map(({ code }) => code)).toEqual(['second-order-matters', 'not-linear', 'mean-shifted']);
  });
});

describe('first order where Monte Carlo says more', () => {
  it('T7-S1-92n and T7-S1-924: four inputs added', () => {
    const of = (inputs: readonly Input[]): Budget =>
      budget({
        model: (x) => Object.values(x).reduce((s, value) => s + value, 0),
        inputs: Object.fromEntries(inputs.map((input, i) => [`X${i}`, input])),
      });
    const rectangle = (u: number): Input => ({ value: 0, plusMinus: u * Math.sqrt(3) });
    const normal = of(Array.from({ length: 4 }, () => ({ value: 0, standardUncertainty: 1 })));
    printed(published('T7-S1-92n'), 'u', normal.standardUncertainty);
    printed(published('T7-S1-92n'), 'high95', normal.interval.high);
    printed(published('T7-S1-92n'), 'low95', normal.interval.low);
    const rectangular = of([1, 1, 1, 10].map(rectangle));
    printed(published('T7-S1-924'), 'u', rectangular.standardUncertainty);
    printed(published('T7-S1-924'), 'GUF_high95', rectangular.interval.high);
  });

  it('T7-S1-93: a weight in air, whose air density has no first-order effect', () => {
    const example = published('T7-S1-93');
    const mass = budget({
      model: ({ m, dm, air, W, R }) =>
        ((m as number) + (dm as number)) * (1 + ((air as number) - 1.2) * (1 / (W as number) - 1 / (R as number))) -
        100000,
      inputs: {
        m: { value: 100000, standardUncertainty: 0.05 },
        dm: { value: 1.234, standardUncertainty: 0.02 },
        air: { from: 1.1, to: 1.3 },
        W: { from: 7000, to: 9000 },
        R: { from: 7950, to: 8050 },
      },
    });
    printed(example, 'GUF_u', mass.standardUncertainty);
    printed(example, 'GUF_low', mass.interval.low);
    printed(example, 'GUF_high', mass.interval.high);
    // Second order, without the terms beyond it that bring Monte Carlo to 0.0754.
    expect(mass.secondOrder?.standardUncertainty).toBeCloseTo(0.075, 3);
    expect(mass.notes.map(({ code }) => code)).toContain('second-order-matters');
  });

  it('T7-E3: a falling-ball viscometer', () => {
    const example = published('T7-E3');
    const viscosity = budget({
      model: ({ mc, tm, tc, b, m, c }) =>
        (((mc as number) * ((b as number) - (m as number))) / ((b as number) - (c as number))) *
        ((tm as number) / (tc as number)),
      inputs: {
        mc: { value: 4.63, standardUncertainty: 0.0463 },
        tm: { value: 61, standardUncertainty: 6.1 },
        tc: { value: 36.6, standardUncertainty: 5.49 },
        b: { value: 2217, standardUncertainty: 0.5 },
        m: { value: 1180, standardUncertainty: 0.5 },
        c: { value: 810, standardUncertainty: 0.5 },
      },
    });
    printed(example, 'mu', viscosity.value);
    // The printed 1.11 is Monte Carlo's; relative uncertainties of 10 %, 15 % and 1 % give 18.06 % of 5.69.
    expect(viscosity.standardUncertainty / viscosity.value).toBeCloseTo(Math.hypot(0.1, 0.15, 0.01), 4);
  });
});

describe('coverage', () => {
  const of = (options: Partial<BudgetOptions>): Budget =>
    budget({
      model: ({ a, b }) => (a as number) + (b as number),
      inputs: { a: { readings: [1, 2, 4] }, b: { value: 0, standardUncertainty: 0.5, degreesOfFreedom: 7 } },
      ...options,
    });

  it('takes t at the next lower whole number, or at the number itself', () => {
    const down = of({});
    const none = of({ degreesOfFreedomRounding: 'none' });
    expect(down.coverageDegreesOfFreedom).toBe(Math.floor(down.degreesOfFreedom ?? 0));
    expect(none.coverageDegreesOfFreedom).toBe(down.degreesOfFreedom);
    expect(none.coverageFactor).toBeLessThan(down.coverageFactor);
  });

  it('gives the probability that belongs to a fixed factor', () => {
    const {
      coverage,
      coverageFactor: k,
      degreesOfFreedom,
    } = of({ coverage: { factor: 2 }, degreesOfFreedomRounding: 'none' });
    expect(k).toBe(2);
    expect(coverageFactor({ probability: coverage, degreesOfFreedom })).toBeCloseTo(2, 12);
  });

  it('survives JSON', () => {
    const result = of({});
    expect(JSON.parse(JSON.stringify(result))).toEqual(result);
  });
});

it.each<[string, Partial<BudgetOptions>, string]>([
  ['no inputs', { inputs: {} }, 'missing-option'],
  ['a model without its input', { model: endGauge }, 'unknown-option'],
  ['no function', { model: 3 as never }, 'wrong-kind'],
  ['an unknown option', { covverage: 0.9 } as never, 'unknown-option'],
  ['95 for 95 %', { coverage: 95 }, 'out-of-range'],
  ['a meaning of no input', { meanings: { z: 'z' } }, 'unknown-option'],
  ['a result that is text', { model: (() => 'x') as never }, 'wrong-kind'],
  ['a function without a value', { model: () => Number.NaN }, 'not-representable'],
  [
    'a model without a derivative',
    {
      model: {
        name: 'distance',
        result: { kind: 'length', meaning: 'distance' },
        inputs: { x: { kind: 'length', meaning: 'x' } },
        evaluate: (m, { x }) => m.abs(m.subtract(x, m.constant(1))),
      } satisfies Model<'x'>,
    },
    'out-of-range',
  ],
])('refuses %s', (_, options, code) => {
  const call = (): Budget =>
    budget({ model: ({ x }) => x as number, inputs: { x: { value: 1, plusMinus: 1 } }, ...options });
  expect(call).toThrow(expect.objectContaining({ code }));
});
