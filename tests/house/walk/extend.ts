/** Further valid calls, found by the types: every option and every way of stating one that no known call has. */
import { attempts } from './attempt.js';
import type { Call } from './calls.js';
import { nameBelow, places } from './mutations.js';
import type { Shape, Signature } from './shapes.js';
import { isPlainObject, withPlace } from './values.js';

/** Numbers to try where nothing but the type is known. */
const FILLS = [1, 0.01, 0.5, 10, 40, 0.9, 100, 2, -1, 480, 0.001, 20, 0];

/** Options that need company, or values that the type does not tell. */
const HINTS: Readonly<Record<string, readonly object[]>> = {
  topRatio: [{ distribution: 'trapezoidal', topRatio: 0.5 }],
  inexactness: [{ distribution: 'curvilinear-trapezoid', inexactness: 1e-6 }],
  radius: [{ by: 'offset', step: undefined, radius: 100 }],
  radiusAlong: [{ by: 'offset', step: undefined, radius: 100, radiusAlong: 'bed' }],
  readingStandardUncertainty: [{ readingStandardUncertainty: 0.01, diameterStandardUncertainty: 0.01 }],
  lengthStandardUncertainty: [{ lengthStandardUncertainty: 0.01, diameterStandardUncertainty: 0.01 }],
  centreDistanceStandardUncertainty: [{ centreDistanceStandardUncertainty: 0.01, diameterStandardUncertainty: 0.01 }],
  holder: [{ holder: { faceDistance: 8, faceDiameter: 8 }, faceDiameter: 30, mouthDiameter: 8 }],
  without: [{ without: ['1.005'] }, { without: ['0.1001'] }],
  meanings: [{ meanings: {} }],
  mostTrials: [{ mostTrials: 1_000_000 }],
  steps: [{ steps: {} }],
  signal: [{ signal: new AbortController().signal }],
  freeStemDiameter: [{ part: 'ball-between-stems', stemDiameter: 8, freeStemDiameter: 8 }],
  flatDiameter: [{ part: 'ball-end', stemDiameter: 8, flatDiameter: 8 }],
  holeAngleDeg: [{ holeAngleDeg: 60, mouthDiameter: 8 }],
  pilotDiameter: [{ pilotDiameter: 3, mouthDiameter: 8 }],
  depth: [{ depth: 10, mouthDiameter: 8 }],
  faceLength: [
    {
      faceLength: 150,
      lengthOverBalls: undefined,
      headstock: { ballDiameter: 10, mouthDiameter: 8 },
      tailstock: { ballDiameter: 10, mouthDiameter: 8 },
    },
  ],
  scale: [{ scale: { by: 'per-foot' } }],
  shared: [{ shared: [] }],
  arc: [{ arc: { fromDeg: -90, toDeg: 90 } }],
  height: [
    { kind: 'diameter-at', value: 34.6, height: 10, uncertainty: 0.05 },
    { kind: 'diameter-at', height: 10, uncertainty: 0.05 },
  ],
  costs: [{ method: 'least-cost', costs: { offset: 1, length: 1 } }],
  ratios: [{ method: 'equal-ratio', ratios: { offset: 1, length: 1 } }],
  faceStock: [
    {
      target: { part: 'ball-on-stem', diameter: 50, stemDiameter: 25 },
      sweep: { tiltDeg: 75, sweepRadius: 24.148146, distance: 6.470476 },
      faceStock: 1,
    },
  ],
  figures: [{ figures: [] }],
  method: [{ method: 0 }],
};

/** Values that the type allows, the plainest first. */
function candidates(shape: Shape, fills: readonly number[] = FILLS, depth = 0): readonly unknown[] {
  if (depth > 4) return [];
  const { kinds, words, objects, items } = shape;
  return [
    ...words,
    ...(kinds.has('number') ? fills : []),
    ...(kinds.has('boolean') ? [true, false] : []),
    ...objects.flatMap((alternative) => fills.map((fill) => minimal(alternative, fill, depth))),
    ...(items.length > 0
      ? fills.slice(0, 3).map((fill) => items.flatMap((item) => candidates(item, [fill], depth + 1).slice(0, 1)))
      : []),
    ...(kinds.has('string') && words.size === 0 ? ['text', '1'] : []),
    ...(kinds.has('function') ? [() => 1] : []),
  ].filter((value) => value !== undefined);
}

/** An object with what it must have. */
function minimal({ keys }: Shape['objects'][number], fill: number, depth: number): unknown {
  const parts = [...keys]
    .filter(([, { optional }]) => !optional)
    .map(([key, { shape }]) => [key, candidates(shape, [fill], depth + 1)[0]] as const);
  return parts.some(([, part]) => part === undefined) ? undefined : Object.fromEntries(parts);
}

/** The calls, with those that were found behind them, and the options that nothing reached. */
export async function extended(
  signature: Signature,
  valid: readonly Call[],
): Promise<{ readonly calls: readonly Call[]; readonly unreached: readonly string[] }> {
  const calls = [...valid];
  const seen = new Set(calls.flatMap((call) => [...places(call, signature)].map(({ name }) => name)));
  const tried = new Set<string>();
  for (const call of calls) {
    for (const place of [...places(call, signature)]) {
      const { position, path, value, shapes, handedBack } = place;
      if (handedBack || !isPlainObject(value)) continue;
      for (const alternative of shapes.flatMap(({ objects }) => objects)) {
        const same = Object.keys(value).every((key) => alternative.keys.has(key));
        for (const [key, { shape }] of alternative.keys) {
          const name = nameBelow(place, key);
          if (seen.has(name) || tried.has(name) || (shape.kinds.size === 0 && !shape.opaque)) continue;
          if (same) tried.add(name);
          // With the key, or with it in the place of another.
          const others = same ? [{}, ...Object.keys(value).map((other) => ({ [other]: undefined }))] : [];
          const hinted = (HINTS[key] ?? []).map((hint) => ({ ...value, ...hint }));
          const stands = same
            ? others.flatMap((other) => candidates(shape).map((stand) => ({ ...value, ...other, [key]: stand })))
            : FILLS.map((fill) => minimal(alternative, fill, 0)).filter(
                (stand) => isPlainObject(stand) && key in stand,
              );
          const tries = [...hinted, ...stands].map((stand) =>
            call.args.map((arg, i) => (i === position ? withPlace(arg, path, stand) : arg)),
          );
          const ends = await attempts(signature.name, tries, (end) => 'result' in end);
          const args = tries[ends.findIndex((end) => 'result' in end)];
          if (!args) continue;
          const found = { args, handedBack: call.handedBack };
          calls.push(found);
          for (const reached of places(found, signature)) seen.add(reached.name);
        }
      }
    }
  }
  return { calls, unreached: [...tried].filter((name) => !seen.has(name)) };
}
