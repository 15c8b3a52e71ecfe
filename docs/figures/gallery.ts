/** The figures of the documentation, of invented parts. `write.ts` writes them; tests draw them too. */
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
  setoverFigure,
  setoverSettings,
  sweepFigure,
  sweepSettings,
  sweepSurface,
  tiltLimit,
  topSlideFigure,
  topSlideSettings,
} from 'generatrix';

type Looks = Omit<FigureOptions, 'unit'>;

/** All figures by file name. */
export function gallery(looks: Looks = {}): Readonly<Record<string, string>> {
  const common = { unit: 'mm', ...looks };
  const end = { ballDiameter: 10, mouthDiameter: 9, faceDiameter: 22, holder: { faceDistance: 3, faceDiameter: 8 } };
  const seat = ballSeat({ ballDiameter: 10, mouthDiameter: 9 });
  const ball = { part: 'ball-on-stem', diameter: 50, stemDiameter: 25 } as const;
  const off = { tiltDeg: 71, sweepRadius: 24.4, distance: 5.6 };
  const socket = { part: 'socket', openingDiameter: 48, depth: 18 } as const;
  return {
    'between-balls': setoverFigure({
      settings: ballCentresSettings({ taper: { oneIn: 8 }, faceLength: 150, headstock: end, tailstock: end }),
      work: { largeDiameter: 32, smallDiameter: 22, length: 80 },
      fromPivot: 60,
      balls: { headstock: 10, tailstock: 10 },
      ...common,
    }),
    'ball-seat': ballSeatFigure({
      seat,
      ballDiameter: 10,
      mouthDiameter: 9,
      pilotDiameter: 3,
      faceDiameter: 22,
      holder: end.holder,
      limit: tiltLimit({
        holder: end.holder,
        work: { protrusion: seat.protrusion, faceDiameter: 22, mouthDiameter: 9 },
      }),
      ...common,
    }),
    'sweep-ball': sweepFigure({ target: ball, result: sweepSettings({ target: ball }), ...common }),
    'sweep-off': sweepFigure({
      target: ball,
      result: { ...sweepSurface({ target: ball, sweep: off }), sweep: off },
      ...common,
    }),
    'sweep-socket': sweepFigure({
      target: socket,
      result: sweepSettings({ target: socket, noseRadius: 1.5 }),
      ...common,
    }),
    setover: setoverFigure({
      settings: setoverSettings({ taper: { oneIn: 20 }, centreDistance: 200, dial: { reads: 'radius', step: 0.02 } }),
      centreDistance: 200,
      work: { largeDiameter: 25, smallDiameter: 20, length: 100 },
      ...common,
    }),
    'top-slide': topSlideFigure({
      settings: topSlideSettings({
        taper: { includedAngleDeg: 16 },
        length: 50,
        scale: { reads: 'from-across', stepDeg: 1 },
      }),
      work: { largeDiameter: 40, smallDiameter: 25.946, length: 50 },
      ...common,
    }),
    'form-tool': formToolFigure({
      settings: formToolSettings({ taper: { includedAngleDeg: 60 }, length: 6, allowance: 1 }),
      work: { largeDiameter: 26, smallDiameter: 19.072, length: 6 },
      ...common,
    }),
    'guide-bar': guideBarFigure({
      settings: guideBarSettings({ taper: { oneIn: 12 }, length: 120 }),
      work: { largeDiameter: 40, smallDiameter: 30, length: 120 },
      scaleUnit: '°',
      ...common,
    }),
    'top-slide-inside': topSlideFigure({
      settings: topSlideSettings({ taper: { oneIn: 6 }, length: 60, scale: { reads: 'from-axis', stepDeg: 0.5 } }),
      work: { largeDiameter: 40, smallDiameter: 30, length: 60 },
      headstockEnd: 'small',
      side: 'inside',
      ...common,
    }),
    'departure-sphere': departureFigure({
      wanted: { kind: 'sphere', radius: 25 },
      points: Array.from({ length: 46 }, (_, i) => ({ z: -21 + i, departure: 0.006 * Math.sin(i / 9) - 0.002 })),
      ...common,
    }),
    'departure-cone': departureFigure({
      wanted: { kind: 'cone', work: { largeDiameter: 30, smallDiameter: 24, length: 60 } },
      points: Array.from({ length: 31 }, (_, i) => ({ z: 2 * i, departure: 0.00002 * i * (i - 30) + 0.0003 * i })),
      ...common,
    }),
    dial: dialFigure({
      setting: setoverSettings({ taper: { oneIn: 20 }, centreDistance: 201, dial: { reads: 'diameter', step: 0.05 } }),
      step: 0.05,
      name: 'Boring head dial, reads on the diameter',
      ...common,
    }),
    swivel: dialFigure({
      setting: topSlideSettings({ taper: { oneIn: 8 }, length: 40, scale: { reads: 'from-axis', stepDeg: 0.5 } }),
      step: 0.5,
      name: 'Swivel scale of the top slide',
      ...common,
    }),
    budget: budgetFigure({
      budget: budget({
        model: ({ far = 0, near = 0, scale = 0, warmth = 0 }) => far - near + scale + 40 * 11.5e-6 * warmth,
        inputs: {
          far: { value: 90, plusMinus: 0.02 },
          near: { readings: [50.01, 50.03, 49.99, 50.01] },
          scale: { value: 0, plusMinus: 0.005 },
          warmth: { value: 3, plusMinus: 2 },
        },
        meanings: {
          far: 'reading at the large end',
          near: 'reading at the small end',
          scale: 'error of the scale over the travel, from its certificate',
          warmth: 'work above 20 °C',
        },
      }),
      resultUnit: 'mm',
      ...common,
    }),
  };
}
