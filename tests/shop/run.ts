/**
 * What came of every kind of job in the exact shop, as a table; exits 1 if any is not as drawn. With `--spoil` instead
 * every spoiled sheet of a taper that still does what it should.
 */
import { exactly as ofSphere, sphereKinds } from './sphere-kinds.js';
import { survivors } from './survivors.js';
import { exactly as ofTaper, taperKinds } from './taper-kinds.js';

if (process.argv.includes('--spoil')) spoil();
else exact();

function spoil(): void {
  for (const kind of taperKinds()) {
    const { all, left } = survivors(kind);
    console.log(`${kind.name}: ${left.length} of ${all}`);
    for (const what of left) console.log(`  ${what}`);
  }
}

function exact(): void {
  const digits = (value: number): string => value.toExponential(1).padStart(9);

  const rows = [
    ...taperKinds().map((kind) => ({ name: kind.name, ...ofTaper(kind) })),
    ...sphereKinds().map((kind) => ofSphere(kind)),
  ];
  const bad = rows.filter(({ good }) => !good).length;
  console.log(`${'kind'.padEnd(74)}   as meant    printed    allowed`);
  for (const { name, meant, printed, allowed, good } of rows) {
    console.log(
      `${name.padEnd(74)}  ${digits(meant)}  ${digits(printed)}  ${digits(allowed)}  ${good ? 'good' : 'BAD'}`,
    );
  }
  console.log(`${rows.length} kinds, ${bad} not as drawn`);
  process.exitCode = bad > 0 ? 1 : 0;
}
