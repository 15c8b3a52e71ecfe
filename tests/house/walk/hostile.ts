/**
 * The long walk: every mutation of every function, then random calls with one to three places changed at once.
 * `npm run check:hostile -- 20000 7 setover`: 20,000 random calls, from seed 7, of functions whose names hold `setover`.
 */
import { attempts, type End } from './attempt.js';
import { type Call, validCalls } from './calls.js';
import { extended } from './extend.js';
import { type Mutation, mutations, places } from './mutations.js';
import { signatures } from './shapes.js';
import { judge, walk } from './walk.js';

const count = Number(process.argv[2] ?? 100_000);
const seed = Number(process.argv[3] ?? Date.now() % 1e6);
const part = process.argv[4] ?? '';

/** Marsaglia's 32-bit xorshift (J. Stat. Softw. 8(14), 2003): numbers below n. */
let state = seed * 2 + 1;
function below(n: number): number {
  state ^= state << 13;
  state ^= state >>> 17;
  state ^= state << 5;
  return (state >>> 0) % n;
}
const one = <T>(list: readonly T[]): T => list[below(list.length)] as T;

const recorded = await validCalls();
const chosen = signatures().filter(({ name }) => name.toLowerCase().includes(part.toLowerCase()));
const found = new Map<string, Set<string>>();
const note = (name: string, what: string): void => {
  found.set(name, (found.get(name) ?? new Set()).add(what));
};

let made = 0;
const valid = new Map<string, readonly Call[]>();
for (const signature of chosen) {
  const { calls, unreached } = await extended(signature, recorded.get(signature.name) ?? []);
  valid.set(signature.name, calls);
  if (calls.length === 0) note(signature.name, 'no valid call is known');
  if (unreached.length > 0) console.log(`${signature.name}: no valid call reaches ${unreached.join(', ')}`);
  const walked = await walk(signature, calls);
  made += walked.calls;
  for (const violation of walked.violations) note(signature.name, violation);
}

console.log(`seed ${seed}`);
for (let i = 0; i < count; i++) {
  const signature = one(chosen);
  const [calls = []] = [valid.get(signature.name)];
  if (calls.length === 0) continue;
  const call = one(calls);
  const done: Mutation[] = [];
  for (let changes = 1 + below(3); changes > 0; changes--) {
    const args = done.at(-1)?.args ?? call.args;
    const changed = [...mutations(args, one([...places({ ...call, args }, signature)]))];
    if (changed.length > 0) done.push(one(changed));
  }
  const last = done.at(-1);
  if (!last) continue;
  const [end] = await attempts(signature.name, [last.args]);
  const { codes: _, ...free } = last;
  const wrong = judge(signature, { ...free, exact: false }, end as End);
  made++;
  if (wrong)
    note(signature.name, `${done.map(({ what, path }) => `${what} at ${path.join('.')}`).join(', ')}: ${wrong}`);
}

let total = 0;
for (const [name, list] of found) {
  total += list.size;
  console.log(`\n${name}: ${list.size}`);
  for (const what of [...list].slice(0, 25)) console.log(`  ${what.slice(0, 300)}`);
}
console.log(`\n${made} calls of ${chosen.length} functions: ${total} violations in ${found.size} functions`);
process.exitCode = total > 0 ? 1 : 0;
