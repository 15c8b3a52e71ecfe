/** The tables of standard tapers against themselves: a row's diameters, length and taper say the same. */
import { convertTaper, nearestStandardTaper, standardTaper, standardTaperNames } from 'generatrix/taper';
import { describe, expect, it } from 'vitest';
import { halfUnit } from '../reference/published.js';

const all = standardTaperNames().map(standardTaper);
const perFoot = (name: string): number => convertTaper(standardTaper(name).taper, 'perFoot');

describe('rows', () => {
  it('have names of their own, a taper, a source and a confidence', () => {
    expect(new Set(all.map(({ name }) => name)).size).toBe(all.length);
    expect(all.length).toBe(149);
    for (const { taper, sources, confidence, defining } of all) {
      expect(convertTaper(taper, 'rate')).toBeGreaterThan(0);
      expect(sources.length).toBeGreaterThan(0);
      expect(['two-sources', 'one-source', 'memory']).toContain(confidence);
      expect(defining.value).toMatch(/^\d+(\.\d+)?$/);
    }
  });

  it.each(all.filter(({ lengthMeans, smallDiameter }) => lengthMeans.includes('between') && smallDiameter))(
    '$name: sizes make the defining taper to the printed digits, or the row says by how much they miss it',
    ({ largeDiameter = '', smallDiameter = '', length = '', defining, perFootOfSizes }) => {
      const taper = (Number(largeDiameter) - Number(smallDiameter)) / Number(length);
      const rounding =
        (halfUnit(largeDiameter) + halfUnit(smallDiameter)) / Number(length) + halfUnit(defining.value) / 12;
      expect(Math.abs(taper - Number(defining.value) / 12)).toBeLessThanOrEqual(rounding * (1 + 1e-9));
      const missed = Math.abs(12 * taper - Number(defining.value)) > halfUnit(defining.value) * (1 + 1e-9);
      expect(perFootOfSizes !== undefined).toBe(missed);
      if (missed) expect(perFootOfSizes).toBeCloseTo(12 * taper, 12);
    },
  );

  it('Jacobs sizes are over-determined: up to 1.4e-4 in per foot off the stated taper', () => {
    const off = all
      .filter(({ name }) => name.startsWith('jacobs'))
      .map((row) => Math.abs((row.perFootOfSizes ?? perFoot(row.name)) - perFoot(row.name)));
    expect(Math.max(...off)).toBeCloseTo(1.4e-4, 9);
  });

  it.each([0, 1, 2, 3, 4, 5, 6])('Morse %d, inch and metric, are one cone to the digits of the ratio', (size) => {
    const metric = standardTaper(`morse-mm-${size}`);
    expect(Math.abs(12 / perFoot(`morse-${size}`) - Number(metric.defining.value))).toBeLessThanOrEqual(
      0.0005 * (1 + 1e-9),
    );
  });

  it('7/24 has a half angle of atan(7/48), 8.2971° (facts of the trade, no source)', () => {
    expect(convertTaper(standardTaper('steep-7-24-40').taper, 'halfAngleDeg')).toBeCloseTo(
      (Math.atan(7 / 48) * 180) / Math.PI,
      13,
    );
  });
});

describe('nearest', () => {
  it('names every size that shares the taper', () => {
    expect(nearestStandardTaper({ taper: { oneIn: 20 }, series: ['jarno'] }).names.length).toBe(19);
  });

  it('does not tell Morse 1 from 2 where the measurement is too coarse', () => {
    // 0.59858 and 0.59941 in per foot differ by 0.002° on the half angle.
    const coarse = nearestStandardTaper({ taper: { standard: 'morse-1' }, uncertaintyDeg: 0.003, series: ['morse'] });
    expect(coarse).toMatchObject({ names: ['morse-1'], alsoPossible: ['morse-2'], agrees: true });
    const fine = nearestStandardTaper({ taper: { standard: 'morse-1' }, uncertaintyDeg: 0.001, series: ['morse'] });
    expect(fine.alsoPossible).toEqual([]);
  });

  it('says when no standard agrees', () => {
    expect(nearestStandardTaper({ taper: { perFoot: 0.7 } }).agrees).toBe(false);
  });
});

it.each<[string, () => unknown]>([
  ['no-data', () => standardTaper('morse-9')],
  ['no-data', () => standardTaper('')],
  ['wrong-kind', () => standardTaper(3 as unknown as string)],
  ['out-of-range', () => nearestStandardTaper({ taper: { oneIn: 20 }, series: ['nothing'] })],
  ['out-of-range', () => nearestStandardTaper({ taper: { oneIn: 20 }, uncertaintyDeg: -1 })],
  ['out-of-range', () => nearestStandardTaper({ taper: { oneIn: -20 } })],
])('refuses with %s', (code, call) => {
  expect(call).toThrow(expect.objectContaining({ name: 'GeneratrixError', code }));
});
