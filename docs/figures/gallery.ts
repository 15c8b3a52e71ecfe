/** The figures of the documentation, of invented parts. `write.ts` writes them; tests draw them too. */
import { budget, budgetFigure, type FigureOptions, setoverFigure, setoverSettings } from 'generatrix';

type Looks = Omit<FigureOptions, 'unit'>;

/** All figures by file name. */
export function gallery(looks: Looks = {}): Readonly<Record<string, string>> {
  const common = { unit: 'mm', ...looks };
  return {
    setover: setoverFigure({
      settings: setoverSettings({ taper: { oneIn: 20 }, centreDistance: 200, dial: { reads: 'radius', step: 0.02 } }),
      centreDistance: 200,
      work: { largeDiameter: 25, smallDiameter: 20, length: 100 },
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
