/** Calls of one function, and how each ended. */
import { Script } from 'node:vm';
import { GeneratrixError } from 'generatrix';
import { type Args, functionNamed } from './calls.js';
import { frozen } from './values.js';

export type End = { readonly result: unknown } | { readonly refusal: GeneratrixError } | { readonly foreign: unknown };

/** So long may the calls together take at most, in ms: a call that does not end is ended, and counts as a foreign error. */
const MOST = 100_000;
const RUN = new Script('globalThis.__calls()');

/** Calls one after the other with frozen arguments, until one is `enough`. */
export async function attempts(
  name: string,
  list: readonly Args[],
  enough: (end: End) => boolean = () => false,
): Promise<readonly End[]> {
  const ends: (End | Promise<End>)[] = [];
  let stopped = false;
  const failed = (error: unknown): End =>
    // By constructor: an error that only looks like ours is not ours.
    error instanceof GeneratrixError && error.constructor === GeneratrixError ? { refusal: error } : { foreign: error };
  const shared = globalThis as { __calls?: () => void };
  shared.__calls = () => {
    while (ends.length < list.length && !stopped) {
      const args = frozen(list[ends.length] as Args);
      let end: End | Promise<End>;
      try {
        const result = functionNamed(name)(...args);
        end = result instanceof Promise ? result.then((value) => ({ result: value }), failed) : { result };
      } catch (error) {
        end = failed(error);
      }
      ends.push(end);
      stopped = !(end instanceof Promise) && enough(end);
    }
  };
  while (ends.length < list.length && !stopped) {
    try {
      RUN.runInThisContext({ timeout: MOST });
    } catch (error) {
      ends.push({ foreign: error });
    }
  }
  return await Promise.all(ends);
}
