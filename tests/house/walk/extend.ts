/** Further valid calls, found by the types: every option and every way of stating one that no known call has. */
import { attempts } from './attempt.js';
import type { Call } from './calls.js';
import { placeName, places } from './mutations.js';
import type { Shape, Signature } from './shapes.js';
import { isPlainObject, withPlace } from './values.js';

/** Numbers to try where nothing but the type is known. */
const FILLS = [1, 0.01, 0.5, 10, 40, 0.9, 100, 2, -1, 480, 0.001, 20];

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
  const seen = new Set(calls.flatMap((call) => [...places(call, signature)].map(placeName)));
  const tried = new Set<string>();
  for (const call of calls) {
    for (const { position, path, value, shapes, handedBack } of [...places(call, signature)]) {
      if (handedBack || !isPlainObject(value)) continue;
      for (const alternative of shapes.flatMap(({ objects }) => objects)) {
        const same = Object.keys(value).every((key) => alternative.keys.has(key));
        for (const [key, { shape }] of alternative.keys) {
          const name = placeName({ position, path: [...path, key] });
          if (seen.has(name) || tried.has(name)) continue;
          if (same) tried.add(name);
          // With the key, or with it in the place of another.
          const others = same ? [{}, ...Object.keys(value).map((other) => ({ [other]: undefined }))] : [];
          const stands = same
            ? others.flatMap((other) => candidates(shape).map((stand) => ({ ...value, ...other, [key]: stand })))
            : FILLS.map((fill) => minimal(alternative, fill, 0)).filter(
                (stand) => isPlainObject(stand) && key in stand,
              );
          const tries = stands.map((stand) =>
            call.args.map((arg, i) => (i === position ? withPlace(arg, path, stand) : arg)),
          );
          const ends = await attempts(signature.name, tries, (end) => 'result' in end);
          const args = tries[ends.findIndex((end) => 'result' in end)];
          if (!args) continue;
          const found = { args, handedBack: call.handedBack };
          calls.push(found);
          for (const place of places(found, signature)) seen.add(placeName(place));
        }
      }
    }
  }
  return { calls, unreached: [...tried].filter((name) => !seen.has(name)).map((name) => name.replace(/^0:/, '')) };
}
