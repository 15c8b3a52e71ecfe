/**
 * `npm run check:circles`: 10,000 random set-ups (or as many as the first argument says) of a revolved circle
 * against brute force in space, and the worst error of each quantity relative to the set-up's size.
 */
import { randomFrom } from '../tests/revolve/brute-circle.js';
import { errorsOf } from '../tests/revolve/circle-cases.js';

const cases = Number(process.argv[2] ?? 10_000);
const random = randomFrom(1);
const worst: Record<string, number> = {};
for (let i = 0; i < cases; i++) {
  for (const [name, error] of Object.entries(errorsOf(random))) {
    worst[name] = Math.max(worst[name] ?? 0, Math.abs(error));
  }
}
console.table(worst);
const largest = Math.max(...Object.values(worst));
console.log(`${cases} set-ups; worst relative error ${largest}`);
process.exitCode = largest < 1e-12 ? 0 : 1;
