/**
 * The walk over the interface: each place of each valid call is changed in every way, and the call must end in a
 * refusal of ours that names the caller's own path, or in a sound result.
 */
import type { GeneratrixError } from 'generatrix';
import { attempts, type End } from './attempt.js';
import type { Call } from './calls.js';
import { type Mutation, mutations, places } from './mutations.js';
import { below, type Shape, type Signature } from './shapes.js';
import { told, unsound } from './values.js';

/** What the walk found at one function. */
export interface Found {
  readonly violations: readonly string[];
  readonly calls: number;
}

/** Takes every `stride`-th mutation. */
export async function walk(signature: Signature, valid: readonly Call[], stride = 1): Promise<Found> {
  const seen = new Set<string>();
  const violations: string[] = [];
  let calls = 0;
  let n = 0;
  for (const call of valid) {
    const fresh = [...places(call, signature)].filter((place) => !seen.has(place.name));
    for (const { name } of fresh) seen.add(name);
    const chosen = fresh.flatMap((place) => [...mutations(call.args, place)]).filter(() => n++ % stride === 0);
    const ends = await attempts(
      signature.name,
      chosen.map(({ args }) => args),
    );
    for (const [i, mutation] of chosen.entries()) {
      calls++;
      const wrong = judge(signature, mutation, ends[i] as End);
      if (wrong === undefined) continue;
      const at = told(mutation.path) || signature.parameters[mutation.position]?.name;
      violations.push(`${mutation.what} at ${at}: ${wrong}`);
    }
  }
  return { violations, calls };
}

/** What is wrong with how the changed call ends. */
export function judge({ parameters }: Signature, mutation: Mutation, end: End): string | undefined {
  if ('foreign' in end) return `throws ${String(end.foreign).slice(0, 200)}`;
  const { codes, exact, position, path } = mutation;
  if ('result' in end) return codes ? 'is accepted' : unsound(end.result);
  const { refusal } = end;
  const said = `${refusal.code} ${JSON.stringify(refusal.parameter)}`;
  const ill = illFormed(refusal);
  if (ill) return `${said}: ${ill}`;
  // A parameter that is no options object, or stands beside one, has a name of its own.
  const { name = '', shape } = parameters[position] ?? {};
  const named = position > 0 || parameters.length > 1 || !shape?.kinds.has('object');
  const at = told(path);
  const wanted = [at, ...(named ? [at === '' || at.startsWith('[') ? name + at : `${name}.${at}`] : [])];
  if (exact && !wanted.includes(refusal.parameter)) return `${said}, but the path is ${wanted.join(' or ')}`;
  if (codes && codes.length > 0 && !codes.includes(refusal.code))
    return `${said}, but the code is ${codes.join(' or ')}`;
  const own = parameters.some((parameter, i) =>
    resolves(
      refusal,
      mutation.args[i],
      parameter,
      i > 0 || parameters.length > 1 || !parameter.shape.kinds.has('object'),
    ),
  );
  return own ? undefined : `${said}: no path from the caller's own argument`;
}

/** What every refusal must have. */
function illFormed({ code, parameter, allowed, message }: GeneratrixError): string | undefined {
  if (typeof code !== 'string' || typeof parameter !== 'string') return 'without code or path';
  if (typeof allowed?.kind !== 'string' || typeof allowed.phrase !== 'string') return 'what is allowed is no data';
  if (/NaN|undefined|\[object|^$/.test(allowed.phrase)) return `says ${allowed.phrase}`;
  if (unsound(JSON.parse(JSON.stringify(allowed)))) return `says ${allowed.phrase}`;
  return message.length > 2000 ? 'a message without end' : undefined;
}

/** Whether the path leads somewhere in this argument, or to a key that its type knows. */
function resolves(
  { parameter, code }: GeneratrixError,
  arg: unknown,
  { name, shape }: Signature['parameters'][number],
  named: boolean,
): boolean {
  const follow = (text: string): boolean => {
    let [value, shapes]: [unknown, readonly Shape[]] = [arg, [shape]];
    const steps = [...text.matchAll(/([^.[\]]+)|\[(\d+)\]/g)];
    for (const [i, [, key, index]] of steps.entries()) {
      const step = key ?? Number(index);
      const there = typeof value === 'object' && value !== null && step in value;
      shapes = below(shapes, step);
      // What is missing is not there, nor is the item of a hole.
      const missing = i === steps.length - 1 && typeof value === 'object' && (i > 0 || code === 'missing-option');
      if (!there && shapes.length === 0 && !missing) return false;
      value = there ? (value as Record<string | number, unknown>)[step] : undefined;
    }
    return true;
  };
  if (named && new RegExp(`^${name}(?![\\w])`).test(parameter)) return follow(parameter.slice(name.length));
  return follow(parameter);
}
