/** Sizes measured in the drawings against the numbers they were drawn from: within a pixel, and mostly a tenth. */
import {
  ballSeat,
  ballSeatFigure,
  budget,
  budgetFigure,
  departureFigure,
  dialFigure,
  guideBarFigure,
  guideBarSettings,
  setoverFigure,
  setoverSettings,
  sweepFigure,
  sweepSettings,
  sweepSurface,
  topSlideFigure,
  topSlideSettings,
} from 'generatrix';
import { describe, expect, it } from 'vitest';
import { circle, directionOf, lengthOf, parsed, part, parts, points, value, words } from './parsed.js';

/** Coordinates are written to hundredths of a pixel; a length has two ends. */
const PX = 0.1;
const close = (drawn: number, wanted: number, within = PX): void =>
  expect(Math.abs(drawn - wanted)).toBeLessThan(within);

describe.each([360, 800])('%d px', (width) => {
  it.each([
    { ballDiameter: 10, mouthDiameter: 9 },
    { ballDiameter: 10, mouthDiameter: 8 },
    { ballDiameter: 6, mouthDiameter: 8 },
  ])('a ball of $ballDiameter in a hole of $mouthDiameter', (hole) => {
    const figure = parsed(ballSeatFigure({ seat: ballSeat(hole), ...hole, unit: 'mm', width }));
    const ball = part(figure, 'ball');
    const [x, y, r] = [value(ball, 'cx'), value(ball, 'cy'), value(ball, 'r')];
    const scale = r / (hole.ballDiameter / 2);
    // Both points of contact lie on the ball, on the work's outline, and the ball's centre stands out of the face.
    for (const point of parts(figure, 'contact-point')) {
      close(Math.hypot(value(point, 'cx') - x, value(point, 'cy') - y), r);
    }
    const face = value(part(figure, 'face'), 'x1');
    // By hand: on the flank 2 r' - m/(2 tan 30°) with sin 30° = 1/2, on the edge sqrt(b² - m²)/2.
    const { ballDiameter: b, mouthDiameter: m } = hole;
    const flank = b * Math.cos(Math.PI / 6) <= m;
    close(x - face, scale * (flank ? b - m / 2 / Math.tan(Math.PI / 6) : Math.sqrt(b * b - m * m) / 2));
    const outline = points(part(figure, 'work'));
    expect(Math.max(...outline.map(([px]) => px))).toBeCloseTo(face, 1);
  });

  it.each([
    { part: 'ball-on-stem', diameter: 50, stemDiameter: 25 } as const,
    { part: 'ball-on-stem', diameter: 1, stemDiameter: 0.2 } as const,
    { part: 'ball-between-stems', radius: 20, stemDiameter: 20, freeStemDiameter: 10 } as const,
    { part: 'ball-end', radius: 20, stemDiameter: 20, flatDiameter: 8 } as const,
    { part: 'cap', radius: 40, height: 15 } as const,
    { part: 'socket', openingDiameter: 48, depth: 18 } as const,
    { part: 'socket', openingDiameter: 20, depth: 1 } as const,
  ])('a sweep that cuts $part', (target) => {
    const result = sweepSettings({ target });
    const figure = parsed(sweepFigure({ target, result, unit: 'mm', width }));
    const sphere = circle(figure, 'wanted', 'centre');
    const [centreX, centreY] = [sphere.x, sphere.y];
    const scale = sphere.r / result.radius;
    const sweep = part(figure, 'sweep');
    close(lengthOf(sweep), scale * result.sweepDiameter);
    // Both ends of the sweep lie on the sphere, and its plane stands at h from the centre, square to the tilted axis.
    for (const end of ['1', '2']) {
      close(Math.hypot(value(sweep, `x${end}`) - centreX, value(sweep, `y${end}`) - centreY), sphere.r);
    }
    const axis = part(figure, 'distance');
    close(lengthOf(axis), scale * Math.abs(result.sweep.distance));
    const spindle = directionOf(part(figure, 'spindle-axis'));
    // The table is flat: the head's upper end leans to the right of the work's axis, over a ball and into a socket.
    close(90 - spindle, result.sweep.tiltDeg, 0.1);
    close(Math.abs(value(sweep, 'x1') - centreX), scale * (result.coverage.freeEnd.diameter / 2), PX);
  });

  it('a pip as wide as the sweep leaves it', () => {
    const target = { part: 'ball-on-stem', diameter: 50, stemDiameter: 25 } as const;
    const sweep = { tiltDeg: 71, sweepRadius: 24.4, distance: 5.6 };
    const surface = sweepSurface({ target, sweep });
    const figure = parsed(sweepFigure({ target, result: { ...surface, sweep }, unit: 'mm', width }));
    const scale = value(part(figure, 'wanted'), 'r') / 25;
    close(value(part(figure, 'pip'), 'width'), scale * surface.pipDiameter);
    // By hand: twice |h sin α - r cos α|.
    const tilt = (71 * Math.PI) / 180;
    close(value(part(figure, 'pip'), 'width'), scale * 2 * Math.abs(5.6 * Math.sin(tilt) - 24.4 * Math.cos(tilt)));
    const skewed = sweepSurface({ target, sweep: { ...sweep, skew: 0.02 } });
    const told = parsed(
      sweepFigure({ target, result: { ...skewed, sweep: { ...sweep, skew: 0.02 } }, unit: 'mm', width }),
    );
    expect(words(told).join(' ')).toContain('pass each other by');
  });

  it('marks an undercut', () => {
    const target = { part: 'ball-on-stem', diameter: 50, stemDiameter: 25 } as const;
    const sweep = { tiltDeg: 76, sweepRadius: 24.6, distance: 4.5 };
    const surface = sweepSurface({ target, sweep });
    expect(surface.coverage.farEnd.state).toBe('undercut');
    const figure = parsed(sweepFigure({ target, result: { ...surface, sweep }, unit: 'mm', width }));
    expect(parts(figure, 'past-end')).toHaveLength(2);
    expect(words(figure).join(' ')).toContain('cuts into the stem');
  });

  it.each([16, 4, 0.5])('a top slide for a cone of %d degrees', (includedAngleDeg) => {
    const tan = Math.tan((includedAngleDeg * Math.PI) / 360);
    const work = { largeDiameter: 40, smallDiameter: 40 - 100 * tan, length: 50 };
    const settings = topSlideSettings({ taper: { includedAngleDeg }, length: 50 });
    const figure = parsed(topSlideFigure({ settings, work, unit: 'mm', width }));
    const factor = Number(
      words(figure)
        .join(' ')
        .match(/drawn (\d+) times/)?.[1] ?? 1,
    );
    const [edge, path] = [directionOf(part(figure, 'slide-edge')), directionOf(part(figure, 'tool-path'))];
    close(edge, path, 0.05);
    close(edge, (Math.atan(factor * tan) * 180) / Math.PI, 0.05);
    close(lengthOf(part(figure, 'travel')), lengthOf(part(figure, 'tool-path')));
    const scale = lengthOf(part(figure, 'length')) / 50;
    if (factor === 1) close(lengthOf(part(figure, 'travel')), scale * settings.travelNeeded);
    expect(words(figure)).toContain(`${settings.travelNeeded.toFixed(3)} mm`);
  });

  it('a guide bar alongside the cut', () => {
    const settings = guideBarSettings({ taper: { oneIn: 12 }, length: 120 });
    const work = { largeDiameter: 40, smallDiameter: 30, length: 120 };
    const figure = parsed(guideBarFigure({ settings, work, unit: 'mm', width }));
    const factor = Number(
      words(figure)
        .join(' ')
        .match(/drawn (\d+) times/)?.[1] ?? 1,
    );
    close(directionOf(part(figure, 'bar-line')), directionOf(part(figure, 'tool-path')), 0.05);
    const scale = lengthOf(part(figure, 'length')) / 120;
    close(lengthOf(part(figure, 'cross-travel')), scale * factor * 5);
  });

  describe.each(['outside', 'inside'] as const)('a taper %s', (side) => {
    it.each(['large', 'small'] as const)('with its %s end at the chuck', (headstockEnd) => {
      const [length, tan] = [50, Math.tan(Math.PI / 18)];
      const work = { largeDiameter: 40, smallDiameter: 40 - 2 * length * tan, length };
      const taper = { halfAngleDeg: 10 };
      const lies = { work, headstockEnd, side, unit: 'mm', width };
      const slide = parsed(topSlideFigure({ settings: topSlideSettings({ taper, length }), ...lies }));
      const bar = parsed(guideBarFigure({ settings: guideBarSettings({ taper, length }), ...lies }));
      // By hand: a tool at the front that moves to the tailstock must come nearer to the axis, upwards on the page,
      // where the large end is at the chuck, whether the surface lies outside or inside.
      const wanted = headstockEnd === 'large' ? 10 : -10;
      for (const figure of [slide, bar]) close(directionOf(part(figure, 'tool-path')), wanted, 0.05);
      close(directionOf(part(slide, 'slide-edge')), wanted, 0.05);
      close(directionOf(part(bar, 'bar-line')), wanted, 0.05);
      const said = [slide, bar].map((figure) => words(figure).join(' '));
      for (const text of said) {
        expect(text).toContain(
          headstockEnd === 'large' ? 'leads away from the operator' : 'leads towards the operator',
        );
      }
      // The larger diameter is at the end that is said to be at the chuck, on the left.
      const [large, small] = ['large', 'small'].map((end) => part(slide, `${end}-diameter`));
      expect(Math.sign(value(large as never, 'x1') - value(small as never, 'x1'))).toBe(
        headstockEnd === 'large' ? -1 : 1,
      );
      expect(lengthOf(large as never)).toBeGreaterThan(lengthOf(small as never));
      // The tool stands on the wall: outside work below it, inside work above it.
      const [tip, foot] = points(part(slide, 'tool'));
      expect(Math.sign((foot?.[1] ?? 0) - (tip?.[1] ?? 0))).toBe(side === 'outside' ? 1 : -1);
    });
  });

  it.each([undefined, 200, 5000])('departures, %d times larger', (magnification) => {
    const meridian = [-20, -10, 0, 10, 20].map((z) => ({ z, departure: 0.004 - 0.00002 * z * z }));
    const stated = magnification === undefined ? {} : { magnification };
    for (const wanted of [
      { kind: 'sphere', radius: 25 } as const,
      { kind: 'cone', work: { largeDiameter: 30, smallDiameter: 24, length: 60 } } as const,
    ]) {
      const shifted =
        wanted.kind === 'cone' ? meridian.map(({ z, departure }) => ({ z: z + 25, departure })) : meridian;
      const figure = parsed(departureFigure({ wanted, points: shifted, ...stated, unit: 'mm', width }));
      const factor = Number(
        words(figure)
          .join(' ')
          .match(/drawn (\d+) times/)?.[1],
      );
      if (magnification !== undefined) expect(factor).toBe(magnification);
      const line = points(part(figure, 'wanted'));
      const [first, last] = [line[0] as readonly [number, number], line.at(-1) as readonly [number, number]];
      const scale = (last[0] - first[0]) / (wanted.kind === 'sphere' ? 50 : 60);
      parts(figure, 'departure').forEach((drawn, i) => {
        close(lengthOf(drawn), Math.abs(shifted[i]?.departure ?? Number.NaN) * factor * scale);
      });
      // What is too much lies outside the wanted line, what is missing inside: away from the sphere's centre, half-way
      // between its poles; on the side to which the cone's large end, drawn first, is the higher one.
      const centre = [(first[0] + last[0]) / 2, (first[1] + last[1]) / 2] as const;
      const outwards = ([x, y]: readonly [number, number]): number =>
        wanted.kind === 'sphere' ? Math.hypot(x - centre[0], y - centre[1]) : y * Math.sign(first[1] - last[1]);
      parts(figure, 'departure').forEach((drawn, i) => {
        const [foot, end] = [1, 2].map((k) => [value(drawn, `x${k}`), value(drawn, `y${k}`)] as const);
        const moved = outwards(end as readonly [number, number]) - outwards(foot as readonly [number, number]);
        close(moved, (shifted[i]?.departure ?? Number.NaN) * factor * scale);
      });
      // The bar beside the drawing is as long as it says.
      const said = words(figure).find((text) => text.endsWith('of departure')) ?? '';
      close(lengthOf(part(figure, 'departure-scale')), Number.parseFloat(said) * factor * scale);
    }
  });

  it('bars as long as their contributions', () => {
    const result = budget({
      model: ({ a = 0, b = 0, c = 0 }) => a + 2 * b - c,
      inputs: { a: { value: 1, plusMinus: 0.3 }, b: { value: 2, plusMinus: 0.05 }, c: { value: 3, plusMinus: 0.02 } },
    });
    const figure = parsed(budgetFigure({ budget: result, unit: 'mm', width }));
    const bars = parts(figure, 'contribution').map((bar) => value(bar, 'width'));
    const longest = width - 32;
    // Rectangular distributions: contributions are as 0.3 : 2 * 0.05 : 0.02.
    [1, 1 / 3, 1 / 15].forEach((share, i) => {
      close(bars[i] ?? Number.NaN, share * longest);
    });
    const two = parsed(budgetFigure({ budget: result, unit: 'mm', width, most: 2 }));
    expect(parts(two, 'contribution')).toHaveLength(2);
    expect(words(two)).toContain('1 smaller contribution is not drawn.');
  });

  it('readings where they are on the scale', () => {
    const dial = { reads: 'diameter', step: 0.05 } as const;
    const setting = setoverSettings({ taper: { oneIn: 20 }, centreDistance: 201, dial });
    const figure = parsed(dialFigure({ setting, step: 0.05, unit: 'mm', width }));
    const marks = parts(figure, 'graduation').map((mark) => value(mark, 'x1'));
    const [low = 0, high = 0] = [marks[0], marks.at(-1)];
    const perUnit = (high - low) / (12 * 0.05);
    const tip = (name: string): number => points(part(figure, name))[0]?.[0] ?? Number.NaN;
    close(tip('nearest'), (low + high) / 2);
    // By hand: 2 L sin(atan(1/40)).
    close(tip('exact') - tip('nearest'), (402 * Math.sin(Math.atan(1 / 40)) - 10.05) * perUnit);
  });
});

it('draws a reading without graduations, and an angle', () => {
  const free = setoverSettings({ taper: { oneIn: 20 }, centreDistance: 200 });
  expect(words(parsed(dialFigure({ setting: free, unit: 'mm' })))).toContain('4.998 mm');
  const swivel = topSlideSettings({ taper: { oneIn: 8 }, length: 40, scale: { reads: 'from-axis', stepDeg: 0.5 } });
  expect(words(parsed(dialFigure({ setting: swivel, step: 0.5, unit: 'mm' })))).toContain('3.5°');
  expect(() => dialFigure({ setting: swivel, step: 0.3, unit: 'mm' })).toThrow('step');
});

it('tells readings as finely as the scale is read', () => {
  const dial = { reads: 'radius', step: 0.001 } as const;
  const told = (figure: { step?: number }): readonly string[] =>
    words(
      parsed(
        dialFigure({
          setting: { reading: 0.480171, settableReading: 0.48, settableValue: 0.48, roundingError: -0.000171 },
          unit: 'in',
          ...figure,
        }),
      ),
    );
  // The graduation in the decimals of the scale; two digits of the difference show in both readings.
  expect(told({ step: dial.step })).toEqual(expect.arrayContaining(['0.48017 in', '0.480 in', '-0.00017 in']));
  expect(told({})).toEqual(expect.arrayContaining(['0.48017 in', '0.4800 in', '-0.00017 in']));
  const settings = setoverSettings({ taper: { perFoot: 0.6 }, centreDistance: 12, dial });
  const work = { largeDiameter: 1, smallDiameter: 0.75, length: 5 };
  const plan = words(parsed(setoverFigure({ settings, centreDistance: 12, work, unit: 'in' })));
  // By hand: 12 sin(atan(0.3/12)) = 0.299906.
  expect(plan).toEqual(expect.arrayContaining(['0.2999 in', '0.29991 in', '0.3000 in', '1.0000 in']));
});

it('draws a surface without any departure', () => {
  const flat = [0, 30, 60].map((z) => ({ z, departure: 0 }));
  const wanted = { kind: 'cone', work: { largeDiameter: 30, smallDiameter: 24, length: 60 } } as const;
  expect(words(parsed(departureFigure({ wanted, points: flat, unit: 'mm' }))).join(' ')).toContain('No departure');
  expect(() => departureFigure({ wanted, points: [{ z: 61, departure: 0 }, ...flat], unit: 'mm' })).toThrow(
    'points[0].z',
  );
});

it('names the result and its unit', () => {
  const of = (kind: 'length' | 'angleDeg' | 'number') => {
    const result = budget({ model: ({ a = 0 }) => a, inputs: { a: { value: 1, plusMinus: 0.3 } } });
    return words(parsed(budgetFigure({ budget: { ...result, result: { kind, meaning: 'size' } }, unit: 'mm' }))).join(
      '|',
    );
  };
  expect(of('length')).toMatch(/Uncertainty: size.*0\.173 mm/);
  expect(of('angleDeg')).toContain('0.173°');
  expect(of('number')).toContain('0.173|');
});
