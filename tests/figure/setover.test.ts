/** Sizes measured in the drawing of a set-over against the numbers: within a pixel. */
import { setoverFigure, setoverSettings } from 'generatrix';
import { describe, expect, it } from 'vitest';
import { directionOf, lengthOf, parsed, part, points, words } from './parsed.js';

/** The tapers run from one that is drawn much larger to one that is drawn true. */
const CASES = [
  { oneIn: 200, distance: 300, work: { largeDiameter: 20.5, smallDiameter: 20, length: 100 } },
  { oneIn: 20, distance: 200, work: { largeDiameter: 25, smallDiameter: 20, length: 100 } },
  { oneIn: 4, distance: 120, work: { largeDiameter: 30, smallDiameter: 15, length: 60 } },
  { oneIn: 20, distance: 8, work: { largeDiameter: 1, smallDiameter: 0.9, length: 2 } },
];

describe.each(CASES)('1 : $oneIn on $distance', ({ oneIn, distance, work }) => {
  const settings = setoverSettings({ taper: { oneIn }, centreDistance: distance });
  describe.each([360, 480, 800])('%d px', (width) => {
    it.each(['large', 'small'] as const)('%s end at the headstock', (headstockEnd) => {
      const figure = parsed(
        setoverFigure({ settings, centreDistance: distance, work, headstockEnd, width, unit: 'mm' }),
      );
      const [drawnOffset, drawnDistance] = [lengthOf(part(figure, 'offset')), lengthOf(part(figure, 'distance'))];
      const stated = words(figure)
        .join(' ')
        .match(/drawn (\d+) times/);
      const factor = stated ? Number(stated[1]) : 1;
      // From the numbers: S = L sin α, 2 tan α = 1/x.
      const offset = distance * Math.sin(Math.atan(1 / (2 * oneIn)));
      expect(Math.abs(drawnOffset - (drawnDistance * factor * offset) / distance)).toBeLessThan(0.1);
      expect(words(figure)).toContain(`${offset.toFixed(3)} mm`);
      // The tool runs along the machine's axis, along the work, and its path is the taper's length long.
      expect(Math.abs(directionOf(part(figure, 'tool-path')))).toBeLessThan(0.1);
      const scale = drawnDistance / distance;
      expect(Math.abs(lengthOf(part(figure, 'length')) - scale * work.length)).toBeLessThan(0.1);
      const mean = (lengthOf(part(figure, 'large-diameter')) + lengthOf(part(figure, 'small-diameter'))) / 2;
      expect(Math.abs(mean - (scale * (work.largeDiameter + work.smallDiameter)) / 2)).toBeLessThan(0.1);
      expect(points(part(figure, 'work'))).toHaveLength(8);
    });
  });
});

it('draws the true diameters where nothing is drawn larger', () => {
  const settings = setoverSettings({ taper: { oneIn: 4 }, centreDistance: 120 });
  const figure = parsed(
    setoverFigure({
      settings,
      centreDistance: 120,
      work: { largeDiameter: 30, smallDiameter: 15, length: 60 },
      unit: 'mm',
    }),
  );
  expect(words(figure).join(' ')).toContain('Drawn to scale.');
  expect(lengthOf(part(figure, 'large-diameter')) / lengthOf(part(figure, 'small-diameter'))).toBeCloseTo(2, 2);
});

it('refuses what does not fit', () => {
  const settings = setoverSettings({ taper: { oneIn: 4 }, centreDistance: 120 });
  const work = { largeDiameter: 30, smallDiameter: 15, length: 60 };
  expect(() => setoverFigure({ settings, work, unit: 'mm' })).toThrow('centreDistance: must be given');
  expect(() => setoverFigure({ settings, work: { ...work, length: 121 }, centreDistance: 120, unit: 'mm' })).toThrow(
    'work.length',
  );
  expect(() =>
    setoverFigure({ settings: { ...settings, offset: Number.NaN }, work, centreDistance: 120, unit: 'mm' }),
  ).toThrow('settings.offset');
});
