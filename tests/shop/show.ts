/** Prints how every kind of job came out in the virtual shop; exits 1 if any is not as drawn. */
import { exactly, sphereKinds } from './sphere-kinds.js';

let bad = 0;
const digits = (value: number): string => value.toExponential(1).padStart(9);
console.log(`${'kind'.padEnd(46)}    meant  printed  allowed`);
for (const kind of sphereKinds()) {
  try {
    const { name, meant, printed, allowed, good } = exactly(kind);
    if (!good) bad++;
    console.log(`${name.padEnd(46)}${digits(meant)}${digits(printed)}${digits(allowed)} ${good ? 'good' : 'BAD'}`);
  } catch (error) {
    bad++;
    console.log(`${kind.name.padEnd(46)} ${error instanceof Error ? error.message : error}`);
  }
}
console.log(bad === 0 ? 'all as drawn' : `${bad} not as drawn`);
if (bad > 0) process.exitCode = 1;
