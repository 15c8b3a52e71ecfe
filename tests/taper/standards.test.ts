/**
 * The tables of standard tapers against a second transcription, number by number, and against themselves: a row's
 * diameters, length and taper say the same.
 */
import { readFileSync } from 'node:fs';
import { frustum, setoverSettings } from 'generatrix';
import {
  convertTaper,
  convertTaperExact,
  nearestStandardTaper,
  type StandardTaper,
  type StandardTaperName,
  standardTaper,
  standardTaperNames,
} from 'generatrix/taper';
import { describe, expect, it } from 'vitest';
import { refusal } from '../oracle/refusal.js';
import { Exact, ulpsOff } from '../oracle/ulps.js';
import { halfUnit } from '../reference/published.js';

const all = standardTaperNames().map(standardTaper);
const perFoot = (name: StandardTaperName): number => convertTaper(standardTaper(name).taper, 'perFoot');

/** A row of tests/reference/standard-tapers.json, where its sources stand. */
interface Printed {
  readonly name: string;
  /** `0.60235 in per ft`, `1:20`, `7/24`, `6 %`, `8°40'`. */
  readonly stated: string;
  readonly largeDiameter?: string;
  readonly smallDiameter?: string;
  /** In inches perhaps a mixed fraction. */
  readonly length?: string;
  readonly unit?: string;
  readonly halfAngleDeg: string;
  readonly confidence: string;
}

const printed: readonly Printed[] = JSON.parse(
  readFileSync(new URL('../reference/standard-tapers.json', import.meta.url), 'utf8'),
).rows;

/** `1/4`, `3 3/16`, `0.6`: all are binary fractions or short decimals, which doubles of both sides round alike. */
const numeric = (text: string): number =>
  text.split(' ').reduce((sum, part) => {
    const [over = '', under = '1'] = part.split('/');
    return sum + Number(over) / Number(under);
  }, 0);

/** What a statement in print says, as statement and value of the library. */
function statementOf(text: string): readonly [StandardTaper['defining']['statement'], number] {
  if (text.endsWith(' in per ft')) return ['perFoot', numeric(text.replace(' in per ft', ''))];
  if (text.startsWith('1:')) return ['oneIn', Number(text.slice(2))];
  if (text === '7/24') return ['perFoot', 3.5];
  if (text === '6 %') return ['percent', 6];
  const [, degrees = '', minutes = '0'] = /^(\d+)°(?:(\d+)')?$/.exec(text) ?? [];
  return ['includedAngleDeg', Number(degrees) + Number(minutes) / 60];
}

describe('a second transcription of the tables', () => {
  it('holds the same names, but for the series of inch taper pins, which has no row of its own there', () => {
    const ours = standardTaperNames().filter((name) => name !== 'taper-pin-inch');
    expect([...ours].sort()).toEqual(printed.map(({ name }) => name).sort());
  });

  it.each(printed)('$name: every number', ({ name, stated, halfAngleDeg, ...row }) => {
    const ours = standardTaper(name as StandardTaperName);
    const [statement, value] = statementOf(stated);
    // Two rows state a cone per foot that the library states as 1 : x, both exactly.
    const [key, size] = name === 'pipe-thread' ? (['oneIn', 12 / value] as const) : ([statement, value] as const);
    expect([ours.defining.statement, Number(ours.defining.value)]).toEqual([key, size]);
    expect(ours.largeDiameter).toBe(row.largeDiameter);
    expect(ours.smallDiameter).toBe(row.smallDiameter);
    expect(ours.length && Number(ours.length)).toBe(row.length && numeric(row.length));
    if (row.unit) expect(ours.unit).toBe(row.unit);
    expect(ours.confidence).toBe(row.confidence);
    // 0.6 units in the last place, docs/accuracy.md; a defining decimal adds half a unit of its own rounding, which
    // tan α/(α(1 + tan² α)) < 1 does not magnify, and may lie at the other end of a power of two.
    const truth = new Exact(halfAngleDeg);
    expect(ulpsOff(convertTaper({ standard: ours.name }, 'halfAngleDeg'), truth)).toBeLessThan(2);
    expect(Number(convertTaperExact({ standard: ours.name }, 'halfAngleDeg', { digits: 16 }))).toBeCloseTo(
      truth.toNumber(),
      14,
    );
  });
});

describe('every name', () => {
  it.each(standardTaperNames())('%s is a taper wherever one is taken', (standard) => {
    const wanted = convertTaper(standardTaper(standard).taper, 'rate');
    expect(convertTaper({ standard }, 'rate')).toBe(wanted);
    expect(frustum({ smallDiameter: 1, length: 1, taper: { standard } }).rate).toBe(wanted);
    const { halfAngleDeg } = nearestStandardTaper({ taper: { standard } });
    expect(halfAngleDeg).toBe(convertTaper({ standard }, 'halfAngleDeg'));
    expect(nearestStandardTaper({ taper: { standard } }).names).toContain(standard);
    expect(setoverSettings({ taper: { standard }, centreDistance: 1 }).offset).toBeGreaterThan(0);
  });

  it('that is unknown is refused by tsc, and at run time', () => {
    // @ts-expect-error: no such size
    expect(refusal(() => convertTaper({ standard: 'morse-9' }, 'rate'))).toBe('no-data standard');
    // @ts-expect-error: a series without its size
    expect(refusal(() => standardTaper('jarno'))).toBe('no-data name');
  });
});

describe('rows', () => {
  it('have names of their own, a taper, a source and a confidence', () => {
    expect(new Set(all.map(({ name }) => name)).size).toBe(all.length);
    expect(all.length).toBe(150); // with the series of inch taper pins by itself
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

  it.each([0, 1, 2, 3, 4, 5, 6] as const)(
    'Morse %d, inch and metric, are one cone to the digits of the ratio',
    (size) => {
      const metric = standardTaper(`morse-mm-${size}`);
      expect(Math.abs(12 / perFoot(`morse-${size}`) - Number(metric.defining.value))).toBeLessThanOrEqual(
        0.0005 * (1 + 1e-9),
      );
    },
  );

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
    const coarse = nearestStandardTaper({
      taper: { standard: 'morse-1' },
      expandedUncertaintyDeg: 0.003,
      series: ['morse'],
    });
    expect(coarse).toMatchObject({ names: ['morse-1'], alsoPossible: ['morse-2'], agrees: true });
    const fine = nearestStandardTaper({
      taper: { standard: 'morse-1' },
      expandedUncertaintyDeg: 0.001,
      series: ['morse'],
    });
    expect(fine.alsoPossible).toEqual([]);
  });

  it('says when no standard agrees', () => {
    expect(nearestStandardTaper({ taper: { perFoot: 0.7 } }).agrees).toBe(false);
  });
});

it.each<[string, () => unknown]>([
  ['no-data name', () => standardTaper('' as 'luer')],
  ['wrong-kind name', () => standardTaper(3 as unknown as 'luer')],
  ['out-of-range series[0]', () => nearestStandardTaper({ taper: { oneIn: 20 }, series: ['nothing' as 'morse'] })],
  ['out-of-range series', () => nearestStandardTaper({ taper: { oneIn: 20 }, series: [] })],
  [
    'out-of-range expandedUncertaintyDeg',
    () => nearestStandardTaper({ taper: { oneIn: 20 }, expandedUncertaintyDeg: -1 }),
  ],
  ['out-of-range taper.oneIn', () => nearestStandardTaper({ taper: { oneIn: -20 } })],
  ['missing-option taper', () => nearestStandardTaper({} as never)],
  ['unknown-option uncertaintyDeg', () => nearestStandardTaper({ taper: { oneIn: 20 }, uncertaintyDeg: 1 } as never)],
])('refuses with %s', (wanted, call) => {
  expect(refusal(call)).toBe(wanted);
});
