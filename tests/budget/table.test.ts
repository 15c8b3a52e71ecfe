/** Tables: the guides' rounding, alignment, and text that cannot break the table. */
import { describe, expect, it } from 'vitest';
import { budget, budgetTable, type Model, roundResult } from '../../src/budget/index.js';

describe('rounding', () => {
  it.each([
    // JCGM 100:2008, 7.2.2: 100.021 47 g with u = 0.35 mg, printed in full there.
    [100.02147, 0.00035, '100.02147', '0.00035'],
    // JCGM 100:2008, 7.2.6: 10.057 62 Ω with u = 27 mΩ is to be given as 10.058 Ω.
    [10.05762, 0.027, '10.058', '0.027'],
    [25, 0.0999, '25.00', '0.10'],
    [25, 0.0994, '25.000', '0.099'],
    [0.125, 0.1, '0.13', '0.10'],
    [-0.125, 0.1, '-0.13', '0.10'],
    [-0.001, 1, '0.0', '1.0'],
    [98765, 1250, '98800', '1300'],
    [7, 0, '7', '0'],
    [1e-12, 3.456e-13, '1.00e-12', '3.5e-13'],
    [0, 3.456e-30, '0', '3.5e-30'],
    [1.23456e22, 1.5e18, '1.23456e+22', '1.5e+18'],
  ])('%s with %s', (value, uncertainty, text, spread) => {
    expect(roundResult({ value, uncertainty })).toEqual({ value: text, uncertainty: spread });
  });

  it('takes other digits', () => {
    expect(roundResult({ value: 10.05762, uncertainty: 0.027, digits: 1 })).toEqual({
      value: '10.06',
      uncertainty: '0.03',
    });
    expect(() => roundResult({ value: 1, uncertainty: 1, digits: 0 })).toThrow(
      expect.objectContaining({ code: 'out-of-range' }),
    );
  });
});

const model: Model<'far' | 'near' | 'tiltDeg'> = {
  name: 'gap',
  result: { kind: 'length', meaning: 'gap' },
  inputs: {
    far: { kind: 'length', meaning: 'far face' },
    near: { kind: 'length', meaning: 'near face' },
    tiltDeg: { kind: 'angleDeg', meaning: 'tilt | <b>of</b> `the` *head*\n[a](b)' },
  },
  evaluate: (m, { far, near, tiltDeg }) => m.add(m.subtract(far, near), m.multiply(tiltDeg, m.constant(0.001))),
};
const result = budget({
  model,
  inputs: {
    far: { value: 120, plusMinus: 0.02 },
    near: { readings: [40.01, 40.02, 40.03] },
    tiltDeg: { value: 5, plusMinus: 0.1 },
  },
});

describe('table', () => {
  const table = budgetTable({ budget: result, length: 'mm' });

  it('has a row per input, in the budget’s order, in the digits that count', () => {
    expect(table.rows.map((row) => row.slice(0, 1).concat(row.slice(2)))).toEqual([
      ['far', '120.000', '0.012', 'mm', 'rectangular', '∞', '1', '0.0115', '80.0 %'],
      ['near', '40.0200', '0.0058', 'mm', 't', '2', '-1', '0.0058', '20.0 %'],
      ['tiltDeg', '5.000', '0.058', '°', 'rectangular', '∞', '0.001', '0.0001', '0.0 %'],
    ]);
    expect(table.summary).toBe('79.985 mm ± 0.026 mm (k = 2.009, 95 %), standard uncertainty 0.013 mm');
  });

  it('is aligned, and no text from outside adds a column, a line or markup', () => {
    const lines = table.markdown.split('\n').slice(0, 5);
    expect(new Set(lines.map((line) => [...line].length)).size).toBe(1);
    for (const line of lines) expect(line.replace(/\\\|/g, '').split('|')).toHaveLength(table.columns.length + 2);
    expect(table.markdown).toContain('tilt \\| &lt;b&gt;of&lt;/b&gt; \\`the\\` \\*head\\* \\[a\\]\\(b\\)');
    expect(table.rows[2]?.[1]).toContain('<b>');
    expect(lines[1]).toMatch(/^\| -+ \| -+ \| -+: \|/);
  });

  it('takes units by name and for the result', () => {
    const own = budgetTable({ budget: result, length: 'mm', units: { far: 'µm', result: 'inch' }, digits: 3 });
    expect(own.rows[0]?.[4]).toBe('µm');
    expect(own.summary).toMatch(/^79\.9850 inch/);
  });

  it('takes a result without uncertainty, and very large and very small ones', () => {
    expect(budgetTable({ budget: budget({ model: ({ x }) => x, inputs: { x: 3 } }) }).summary).toMatch(/^3 ± 0 /);
    const of = (u: number): string =>
      budgetTable({ budget: budget({ model: ({ x }) => x, inputs: { x: { value: 5 * u, standardUncertainty: u } } }) })
        .summary;
    expect(of(1000)).toMatch(/^5000 ± 2000 .* 1000$/);
    expect(of(1e-25)).toMatch(/^5\.0e-25 ± 2\.0e-25 .* 1\.0e-25$/);
  });

  it('refuses a unit of no input', () => {
    expect(() => budgetTable({ budget: result, units: { z: 'mm' } })).toThrow(
      expect.objectContaining({ code: 'unknown-option' }),
    );
  });
});
