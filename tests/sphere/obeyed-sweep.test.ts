/** The steps of a tilted sweep, obeyed in space; each word that matters is turned round to see that it does. */
import type { SphereTarget } from 'generatrix';
import { describe, expect, it } from 'vitest';
import {
  brought,
  type Cut,
  changed,
  clamped,
  cut,
  drawnBack,
  type Hidden,
  heightAgrees,
  type SetUp,
  type Sheet,
  sheetOf,
  spoiled,
  tableMoved,
  text,
  value,
} from './sweep-shop.js';

const TABLES = ['flat', 'upright'] as const;
const BALL: SphereTarget = { part: 'ball-on-stem', diameter: 32, stemDiameter: 14 };
const DOME: SphereTarget = { part: 'cap', radius: 40, baseDiameter: 50 };
const SOCKET: SphereTarget = { part: 'socket', radius: 25, depth: 8 };
const WIDE = { tiltDeg: 0.1, sweepRadius: 0, miss: 0.05 };

/** The tip over the centre on a raw face at 0, then the table moved: where the finished feed ends. */
function placed(sheet: Sheet, hidden: Hidden, code: string, total = value(sheet, code, 'total')): SetUp {
  const words = text(sheet, code);
  const touching = brought(clamped(sheet, hidden), 0, hidden.miss ?? 0);
  const move = /(raise|lower|move) the table( to the (left|right))?/.exec(words)?.[0] ?? '';
  return tableMoved(touching, move, total);
}

/** Trial, measuring, correcting and finishing of a ball fed along the spindle. */
function fedAlongSpindle(sheet: Sheet, hidden: Hidden): { readonly trial: Cut; readonly finished: Cut } {
  const end = placed(sheet, hidden, 'place-for-spindle-feed');
  const trial = cut(drawnBack(end, value(sheet, 'rough-along-spindle', 'left')));
  const over = 2 * trial.radius - value(sheet, 'sweep-and-distance', 'diameter');
  const wider = trial.at.diameter - value(sheet, 'pip', 'pip');
  const sized = changed(end, sheet, 'sweep-and-distance', over / value(sheet, 'sweep-and-distance', 'perDiameter'));
  const set = changed(sized, sheet, 'pip', wider / value(sheet, 'pip', 'per'));
  return { trial, finished: cut(set) };
}

describe.each(TABLES)('a ball on a stem, table %s', (table) => {
  const sheet = sheetOf(BALL, table);

  it('shows at the trial the pip that it must, on the side that it must, and none when finished', () => {
    const { trial, finished } = fedAlongSpindle(sheet, {});
    expect(2 * trial.radius).toBeCloseTo(value(sheet, 'size-and-pip', 'diameter'), 9);
    expect(trial.at.diameter).toBeCloseTo(value(sheet, 'size-and-pip', 'pip'), 9);
    expect(trial.at.diameter).toBeGreaterThan(1);
    // The pip stands out of the trial: the raw face, at 0, is beyond the place where the tip cuts.
    expect(trial.at.height).toBeLessThan(-0.1);
    expect(finished.radius).toBeCloseTo(16, 9);
    expect(finished.at.diameter).toBeCloseTo(0, 9);
    expect(finished.opposite.diameter).toBeCloseTo(14, 9);
    expect(finished.at.height).toBeCloseTo(-value(sheet, 'stock', 'faceStock'), 9);
    // Where the tip stands at the trial.
    const end = placed(sheet, {}, 'place-for-spindle-feed');
    const { centre, place } = drawnBack(end, value(sheet, 'rough-along-spindle', 'left'));
    const words = text(sheet, 'size-and-pip');
    if (table === 'flat')
      expect([words.includes('to the right of it'), centre[0] + place[0] > 0.5]).toEqual([true, true]);
    else expect([words.includes('above it'), centre[2] + place[2] > 0.5]).toEqual([true, true]);
  });

  it('would be ruined by moving the table for that pip', () => {
    const end = placed(sheet, {}, 'place-for-spindle-feed');
    const by = value(sheet, 'size-and-pip', 'pip') / 2;
    const moved = cut(tableMoved(end, table === 'flat' ? 'move the table to the right' : 'raise the table', by));
    expect(16 - moved.radius).toBeGreaterThan(0.1);
    expect(text(sheet, 'pip')).toContain('move nothing for it');
  });

  it.each([
    WIDE,
    { tiltDeg: -0.1, miss: 0.04 },
    { tiltDeg: 0.05, miss: -0.05 },
    { tiltDeg: -0.1, miss: -0.05, sweepRadius: 0.005 },
  ])('is brought to size, its pole met, from %o', (hidden) => {
    const { finished } = fedAlongSpindle(sheet, hidden);
    const first = cut(placed(sheet, hidden, 'place-for-spindle-feed'));
    expect(Math.abs(finished.radius - 16)).toBeLessThan(0.004);
    expect(finished.at.diameter).toBeLessThan(0.012);
    expect(Math.abs(first.radius - 16) + first.at.diameter).toBeGreaterThan(0.08);
  });

  it.each([
    ['sweep-and-distance', /close the sweep/, 'open the sweep'],
    ['sweep-and-distance', /further than/, 'less far than'],
    ['pip', /open the sweep/, 'close the sweep'],
    ['pip', /further than/, 'less far than'],
  ] as const)('is not if %s says not %s', (code, from, to) => {
    const error = (obeyed: Sheet): number => {
      const { finished } = fedAlongSpindle(obeyed, { tiltDeg: 0.3, miss: 0.2 });
      return Math.abs(finished.radius - 16) + finished.at.diameter;
    };
    expect(error(sheet)).toBeLessThan(error(spoiled(sheet, code, from, to)) / 1.5);
  });

  it('is not with the head tilted to the other side, or the tip at the other end of its circle', () => {
    const words = text(sheet, 'place-for-spindle-feed');
    expect(heightAgrees(clamped(sheet, {}), words)).toBe(true);
    const other = words.includes('highest') ? 'the lowest' : 'the highest';
    expect(heightAgrees(clamped(sheet, {}), words.replace(/the (highest|lowest)/, other))).toBe(false);
    // With a level work axis the wrong side brings the head to the stem's side of the sweep: the place contradicts.
    const turned = spoiled(sheet, 'tilt', /to the right: clockwise/, 'to the left: anticlockwise');
    expect(heightAgrees(clamped(turned, {}), words)).toBe(table === 'flat');
    const raised =
      table === 'flat'
        ? spoiled(sheet, 'place-for-spindle-feed', /raise the table/, 'lower the table')
        : spoiled(sheet, 'place-for-spindle-feed', /table to the right/, 'table to the left');
    const pole = fedAlongSpindle(raised, {}).finished.at.height;
    expect(Math.abs(pole + value(sheet, 'stock', 'faceStock'))).toBeGreaterThan(0.1);
  });
});

describe('a graduated head', () => {
  it.each(TABLES)('is proved by an indicator at what was set, table %s', (table) => {
    for (const target of [BALL, DOME, SOCKET]) {
      const sheet = sheetOf(target, table, true);
      const travel = value(sheet, 'indicator', 'travel');
      const level = text(sheet, 'indicator').includes('level');
      const needle = (tiltDeg: number): number => {
        const { spindle } = clamped(sheet, { tiltDeg });
        return travel * Math.abs(level ? spindle[2] : spindle[0]);
      };
      expect(value(sheet, 'indicator', 'needle')).toBeCloseTo(needle(0), 9);
      // A tilt off by its limit shows, and by as much as the step allows.
      const shows = Math.abs(needle(0.11) - needle(-0.11)) / 2;
      expect(shows / value(sheet, 'indicator', 'limit')).toBeCloseTo(1, 4);
      expect(shows).toBeGreaterThan(0.7 * travel * 0.11 * (Math.PI / 180));
    }
  });

  it('is proved before the tip is placed', () => {
    const codes = [...sheetOf(BALL, 'flat').keys()];
    const places = ['tilt', 'indicator', 'sweep', 'test-ring', 'place-for-spindle-feed'].map((code) =>
      codes.indexOf(code),
    );
    expect(places).toEqual([...places].sort((a, b) => a - b));
    expect(places[0]).toBeGreaterThan(0);
  });

  it('cuts what the graduations say, with the finished pole where it must be', () => {
    const sheet = sheetOf({ part: 'cap', radius: 200, baseDiameter: 60 }, 'flat', true);
    const end = cut(placed(sheet, {}, 'place-for-work-feed'));
    // By hand: a sweep of 30.08 across at 4.5 degrees.
    expect(end.radius).toBeCloseTo(15.04 / Math.sin((4.5 * Math.PI) / 180), 9);
    expect(end.at.height).toBeCloseTo(-value(sheet, 'stock', 'faceStock'), 9);
    expect(value(sheet, 'stock', 'faceStock')).toBeLessThan(0.5);
  });
});

describe('balls between stems', () => {
  it.each([
    [18, 12],
    [12, 18],
    [14, 14],
  ])('of %d and %d are placed at the free stem and cut both', (freeStemDiameter, stemDiameter) => {
    const target: SphereTarget = { part: 'ball-between-stems', diameter: 32, freeStemDiameter, stemDiameter };
    // A free stem that is the thicker one would need more than 90 degrees of tilt with the table flat.
    for (const table of freeStemDiameter > stemDiameter ? (['upright'] as const) : TABLES) {
      const sheet = sheetOf(target, table);
      const obeyed = (given: Sheet): Cut => {
        const { fromCentre, back } = {
          fromCentre: value(given, 'place-at-stem', 'fromCentre'),
          back: value(given, 'place-at-stem', 'back'),
        };
        return cut(drawnBack(brought(clamped(given, {}), fromCentre, freeStemDiameter / 2), back));
      };
      const ball = obeyed(sheet);
      expect(ball.radius).toBeCloseTo(16, 9);
      expect(ball.centre).toBeCloseTo(0, 9);
      expect(ball.at.diameter).toBeCloseTo(freeStemDiameter, 9);
      expect(ball.opposite.diameter).toBeCloseTo(stemDiameter, 9);
      for (const one of sheet.values()) {
        for (const number of Object.values(one.values)) expect(Math.abs(number)).toBeLessThan(100);
      }
      if (table === 'upright' && stemDiameter !== freeStemDiameter) {
        const [from, to] = text(sheet, 'tilt').includes(' clockwise')
          ? ([/to the right: clockwise/, 'to the left: anticlockwise'] as const)
          : ([/to the left: anticlockwise/, 'to the right: clockwise'] as const);
        expect(obeyed(spoiled(sheet, 'tilt', from, to)).opposite.diameter).not.toBeCloseTo(stemDiameter, 0);
      }
    }
  });

  it('keep to zero where graduations make the sweep a little too wide or narrow', () => {
    const target: SphereTarget = { part: 'ball-between-stems', diameter: 32, freeStemDiameter: 18, stemDiameter: 12 };
    const sheet = sheetOf(target, 'upright', true);
    const words = text(sheet, 'place-at-stem');
    const size = Math.abs(value(sheet, 'place-at-stem', 'back'));
    const back = words.includes('back from there') ? size : words.includes('beyond that') ? -size : 0;
    const set = brought(clamped(sheet, {}), value(sheet, 'place-at-stem', 'fromCentre'), 9);
    const ball = cut(drawnBack(set, back));
    expect(ball.radius).toBeCloseTo(16, 9);
    expect(ball.centre).toBeCloseTo(0, 9);
    expect(size).toBeGreaterThan(0.005);
    expect(Math.abs(cut(drawnBack(set, -back)).radius - 16)).toBeGreaterThan(0.005);
  });
});

describe.each(TABLES)('a ball with a flat end, table %s', (table) => {
  const target: SphereTarget = { part: 'ball-end', diameter: 50, stemDiameter: 16, flatDiameter: 8 };

  it.each([false, true])('is placed at the edge of its flat (graduations: %s)', (graduated) => {
    const sheet = sheetOf(target, table, graduated);
    const words = text(sheet, 'place-at-flat');
    const moves = words.match(/(raise|lower|move) the table( to the (left|right))?/g) ?? [];
    const obeyed = (first: string): SetUp => {
      const over = brought(clamped(sheet, {}), 0, 0);
      const set = tableMoved(over, first, value(sheet, 'place-at-flat', 'across'));
      const further = Math.abs(value(sheet, 'place-at-flat', 'further'));
      return moves[1] ? tableMoved(set, moves[1], further) : set;
    };
    const end = obeyed(moves[0] ?? '');
    const ball = cut(end);
    expect(ball.radius).toBeCloseTo(25, 9);
    // The flat of the sphere in the face, at 0.
    expect(2 * Math.sqrt(ball.radius ** 2 - ball.centre ** 2)).toBeCloseTo(8, 8);
    const opposite = /left/.test(moves[0] ?? '') ? 'move the table to the right' : 'raise the table';
    expect(Math.abs(cut(obeyed(opposite)).radius - 25)).toBeGreaterThan(0.5);
    const trial = cut(drawnBack(end, value(sheet, 'rough-along-spindle', 'left')));
    expect(2 * trial.radius).toBeCloseTo(value(sheet, 'size-and-flat', 'diameter'), 9);
    expect(2 * Math.sqrt(trial.radius ** 2 - trial.centre ** 2)).toBeCloseTo(value(sheet, 'size-and-flat', 'flat'), 8);
    // A flat that is too wide: the table is moved as the step says, and the flat is right again.
    const deeper = /(raise|move) the table( to the right)?/.exec(text(sheet, 'flat'))?.[0] ?? '';
    const off = tableMoved(drawnBack(end, 0), deeper, -0.1);
    const flat = (set: SetUp): number => 2 * Math.sqrt(cut(set).radius ** 2 - cut(set).centre ** 2);
    expect(flat(off)).toBeGreaterThan(8.2);
    expect(flat(tableMoved(off, deeper, 0.1))).toBeCloseTo(8, 8);
  });
});

describe.each([
  ['dome', DOME, 40],
  ['socket', SOCKET, 25],
] as const)('a %s fed along its own axis', (_name, target, radius) => {
  it.each(TABLES)('measures at the trial what it must, and is finished, table %s', (table) => {
    const sheet = sheetOf(target, table);
    expect(heightAgrees(clamped(sheet, {}), text(sheet, 'place-for-work-feed'))).toBe(true);
    const trial = cut(placed(sheet, {}, 'place-for-work-feed', value(sheet, 'rough-along-work', 'fed')));
    const [depth, diameter] = [value(sheet, 'size-and-depth', 'depth'), value(sheet, 'size-and-depth', 'diameter')];
    // From the pole that was cut, below the raw face, or from the socket's face at 0.
    const rim = target.part === 'cap' ? trial.at.height - depth : 0;
    if (target.part === 'cap') expect(trial.at.height).toBeLessThan(0);
    else expect(-trial.at.height).toBeCloseTo(depth, 9);
    expect(2 * Math.sqrt(trial.radius ** 2 - (rim - trial.centre) ** 2)).toBeCloseTo(diameter, 9);
    const end = cut(placed(sheet, {}, 'place-for-work-feed'));
    expect(end.radius).toBeCloseTo(radius, 9);
    expect(end.at.diameter).toBeCloseTo(0, 9);
    expect(-end.at.height).toBeCloseTo(value(sheet, 'feed-along-work', 'total'), 9);
    expect(text(sheet, 'feed-along-work')).toMatch(table === 'flat' ? /raise the table/ : /table to the right/);
  });

  it.each(TABLES)('is corrected by tilting to the right side, table %s', (table) => {
    const sheet = sheetOf(target, table);
    const hidden = { tiltDeg: 0.2 };
    const found = cut(placed(sheet, hidden, 'place-for-work-feed')).radius;
    const times = (found - radius) / value(sheet, 'tilt-again', 'per');
    const tilted = (words: string): number => {
      const sign = words.includes('away from upright') ? 1 : -1;
      const change = times * sign * Math.abs(value(sheet, 'tilt-again', 'tiltChangeDeg'));
      return cut(brought(clamped(sheet, hidden, change), 0, 0)).radius;
    };
    const words = text(sheet, 'tilt-again');
    const other = words.includes('away from')
      ? words.replace('away from', 'towards')
      : words.replace('towards', 'away from');
    expect(Math.abs(tilted(words) - radius)).toBeLessThan(Math.abs(found - radius) / 50);
    expect(Math.abs(tilted(other) - radius)).toBeGreaterThan(1.5 * Math.abs(found - radius));
    // Diameter and height that the found radius has, put into the rule that the step states.
    const half = 5;
    const height = found - Math.sqrt(found ** 2 - half ** 2);
    expect((2 * half) ** 2 / (8 * height) + height / 2).toBeCloseTo(found, 8);
    expect(words).toContain('the diameter squared, divided by 8 times the depth, and half the depth on top');
  });
});
