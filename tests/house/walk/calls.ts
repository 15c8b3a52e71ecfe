/** Valid calls of every exported function: those that the examples make, and a table for what they do not reach. */
import * as door from 'generatrix';
import { runExample, writtenExamples } from '../../oracle/examples.js';
import { copy, isPlainObject, type Path, told } from './values.js';

export type Args = readonly unknown[];

/** The arguments of a valid call. */
export interface Call {
  readonly args: Args;
  /** Places (`0:budget`) where a result of the library is handed back to it, which only reads what it needs. */
  readonly handedBack: ReadonlySet<string>;
}
type Callable = (...args: Args) => unknown;

/** The exported function of that name. */
export const functionNamed = (name: string): Callable =>
  (door as unknown as Record<string, Callable>)[name] as Callable;

/** Calls that no example makes. */
const MORE: Readonly<Record<string, readonly Args[]>> = {};

/** By function, the arguments of every call that was accepted while the examples ran. */
export async function validCalls(): Promise<ReadonlyMap<string, readonly Call[]>> {
  const calls = new Map<string, Call[]>();
  const keep = (name: string, call: Call): void => {
    calls.set(name, [...(calls.get(name) ?? []), call]);
  };
  for (const [name, list] of Object.entries(MORE)) for (const args of list) keep(name, { args, handedBack: new Set() });
  const results = new WeakSet<object>();
  const recording = Object.fromEntries(
    Object.entries(door).map(([name, value]) => {
      if (typeof value !== 'function' || value === door.GeneratrixError) return [name, value];
      const recorded = (...args: Args): unknown => {
        const call = {
          args: copy(args),
          handedBack: new Set(
            args.flatMap((arg, i) =>
              parts(arg)
                .filter(([, part]) => results.has(part))
                .map(([path]) => `${i}:${told(path)}`),
            ),
          ),
        };
        const result = (value as Callable)(...args);
        keep(name, call);
        for (const [, part] of parts(result)) results.add(part);
        return result;
      };
      return [name, recorded];
    }),
  );
  for (const example of writtenExamples()) {
    await runExample(example, {
      load: () => recording,
      check: () => undefined,
      refused: (_, call) => {
        try {
          call();
        } catch {
          // What is refused is no valid call.
        }
      },
    });
  }
  return calls;
}

/** All objects and arrays in a value, with where they stand. */
function parts(value: unknown, path: Path = []): (readonly [Path, object])[] {
  if (!Array.isArray(value) && !isPlainObject(value)) return [];
  const below = Object.entries(value).flatMap(([key, part]) =>
    parts(part, [...path, Array.isArray(value) ? Number(key) : key]),
  );
  return [[path, value], ...below];
}
