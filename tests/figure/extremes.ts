/** Figures of parts and settings at the edge of what there is: slender, flat, tiny, huge, with noses as large as the work. */
import {
  ballCentresSettings,
  ballSeat,
  ballSeatFigure,
  budget,
  budgetFigure,
  departureFigure,
  dialFigure,
  type FigureOptions,
  formToolFigure,
  formToolSettings,
  guideBarFigure,
  guideBarSettings,
  type SphereTarget,
  setoverFigure,
  setoverSettings,
  sweepFigure,
  sweepSettings,
  sweepSurface,
  tiltLimit,
  topSlideFigure,
  topSlideSettings,
} from 'generatrix';

const SWEPT: Readonly<Record<string, readonly [SphereTarget, number?]>> = {
  lens: [{ part: 'cap', radius: 2000, baseDiameter: 60 }],
  dome: [{ part: 'cap', radius: 200, baseDiameter: 60 }],
  hemisphere: [{ part: 'cap', radius: 15, height: 15 }],
  'tall cap': [{ part: 'cap', radius: 20, height: 35 }],
  'nose as large as the ball': [{ part: 'ball-on-stem', diameter: 6, stemDiameter: 3 }, 3],
  'nose larger than the ball': [{ part: 'ball-on-stem', diameter: 32, stemDiameter: 14 }, 30],
  'nose nearly as large as the socket': [{ part: 'socket', openingDiameter: 48, depth: 18 }, 12],
  'deep socket': [{ part: 'socket', radius: 15, depth: 20 }],
  'shallow socket': [{ part: 'socket', openingDiameter: 20, depth: 0.01 }],
  'ball on a hair': [{ part: 'ball-on-stem', diameter: 50, stemDiameter: 0.01 }],
  'ball on a thick stem': [{ part: 'ball-on-stem', diameter: 50, stemDiameter: 49.9 }],
  'ball between equal stems': [{ part: 'ball-between-stems', radius: 20, stemDiameter: 20, freeStemDiameter: 20 }],
  'ball with a flat': [{ part: 'ball-end', radius: 20, stemDiameter: 2, flatDiameter: 38 }],
};

const OFF = [
  { tiltDeg: 20, sweepRadius: 24.4, distance: 5.6 },
  { tiltDeg: 120, sweepRadius: 20, distance: 15 },
  { tiltDeg: 85, sweepRadius: 24.9, distance: 2 },
  { tiltDeg: 71, sweepRadius: 30, distance: 25, noseRadius: 12 },
];

const TAPERS = [0.01, 0.5, 10, 60, 89].flatMap((half) => [0.05, 1, 30].map((slender) => [half, slender] as const));

/** All of them by name; those that cannot exist are left out. */
export function extremes(looks: Omit<FigureOptions, 'unit'> = {}): Readonly<Record<string, string>> {
  const common = { unit: 'mm', ...looks };
  const drawn: Record<string, string> = {};
  for (const [name, [target, noseRadius = 0]] of Object.entries(SWEPT)) {
    drawn[name] = sweepFigure({ target, result: sweepSettings({ target, noseRadius }), ...common });
  }
  OFF.forEach((sweep, i) => {
    const target = { part: 'ball-on-stem', diameter: 50, stemDiameter: 25 } as const;
    drawn[`sweep ${i}`] = sweepFigure({
      target,
      result: { ...sweepSurface({ target, sweep }), sweep },
      ...common,
    });
  });
  for (const [half, slender] of TAPERS) {
    const taper = { halfAngleDeg: half };
    const length = 100;
    const tan = Math.tan((half * Math.PI) / 180);
    const smallDiameter = length / slender;
    const work = { largeDiameter: smallDiameter + 2 * length * tan, smallDiameter, length };
    const name = `${half}° on 1 : ${slender}`;
    drawn[`top slide ${name}`] = topSlideFigure({ settings: topSlideSettings({ taper, length }), work, ...common });
    drawn[`form tool ${name}`] = formToolFigure({ settings: formToolSettings({ taper, length }), work, ...common });
    drawn[`guide bar ${name}`] = guideBarFigure({ settings: guideBarSettings({ taper, length }), work, ...common });
    if (half > 60) continue;
    for (const headstockEnd of ['large', 'small'] as const) {
      const settings = setoverSettings({ taper, centreDistance: 150 });
      drawn[`set-over, ${headstockEnd} end first, ${name}`] = setoverFigure({
        settings,
        centreDistance: 150,
        work,
        headstockEnd,
        ...common,
      });
    }
  }
  const end = { ballDiameter: 40, mouthDiameter: 39, faceDiameter: 60 };
  drawn['large balls'] = setoverFigure({
    settings: ballCentresSettings({ taper: { oneIn: 50 }, faceLength: 60, headstock: end, tailstock: end }),
    work: { largeDiameter: 60, smallDiameter: 59, length: 50 },
    balls: { headstock: 40, tailstock: 40 },
    ...common,
  });
  for (const [ballDiameter, mouthDiameter, faceDiameter] of [
    [10, 9.99, 11],
    [10, 1, 200],
    [100, 3, 4],
    [6, 8, 8],
  ] as const) {
    const holder = { faceDistance: ballDiameter * 0.6, faceDiameter: ballDiameter * 3 };
    const seat = ballSeat({ ballDiameter, mouthDiameter });
    const limit = tiltLimit({ holder, work: { protrusion: seat.protrusion, faceDiameter, mouthDiameter } });
    const given = { seat, ballDiameter, mouthDiameter, faceDiameter, holder, limit };
    drawn[`ball of ${ballDiameter} in ${mouthDiameter}`] = ballSeatFigure({ ...given, ...common });
  }
  for (const magnification of [0.1, 1, 1000, 1e6]) {
    const wanted = { kind: 'sphere', radius: 25 } as const;
    const points = [-25, -20, 0, 20, 25].map((z) => ({ z, departure: 0.01 * Math.cos(z) }));
    drawn[`departure ${magnification} times`] = departureFigure({ wanted, points, magnification, ...common });
  }
  for (const [length, departure] of [
    [1000, 5],
    [1, -0.5],
    [60, 1e-9],
  ] as const) {
    const wanted = { kind: 'cone', work: { largeDiameter: 30, smallDiameter: 0, length } } as const;
    const points = [0, 0.5, 1].map((part) => ({ z: part * length, departure: departure * (part - 0.3) }));
    drawn[`departure of a cone of ${length}`] = departureFigure({ wanted, points, ...common });
  }
  for (const [reading, settableReading, step] of [
    [123456.789, 123456.8, 0.1],
    [1e-9, 0, 0.001],
    [-0.0004, 0, undefined],
    [1e12, 1e12, undefined],
  ] as const) {
    const setting = { reading, settableReading, settableValue: 0, roundingError: settableReading - reading };
    drawn[`dial at ${reading}`] = dialFigure({ setting, ...(step && { step }), ...common });
  }
  const words = 'an input whose meaning takes many words, more than any page has room for on a single line';
  drawn['budget in many words'] = budgetFigure({
    budget: budget({
      model: ({ a = 0, b = 0, c = 0 }) => a + b + c,
      inputs: { a: { value: 1e6, plusMinus: 1e5 }, b: { value: 1, plusMinus: 1e-6 }, c: { value: 0, plusMinus: 0 } },
      meanings: { a: words, b: 'w'.repeat(150), c: '' },
    }),
    resultUnit: 'µm/(mm·K)',
    ...common,
  });
  return drawn;
}
