/**
 * What came of every kind of job in the exact shop, as a table; exits 1 if any is not as drawn. With `--real` instead
 * parts of every kind of taper, and of spheres by tilted sweep and swivelling tool, in a shop where everything is off by
 * what the job states; with `--spoil` every spoiled sheet of a taper that still does what it should, and how many of a
 * sphere give as good a part.
 */
import { exactly as ofSphere, sphereKinds } from './sphere-kinds.js';
import { isReal, reallySphere } from './sphere-real.js';
import { survivors as ofSphereSpoilt } from './sphere-spoil.js';
import { survivors } from './survivors.js';
import { exactly as ofTaper, taperKinds } from './taper-kinds.js';
import { off, type Real, really, tighter } from './taper-real.js';

/** Parts of a kind. */
const PARTS = 500;

if (process.argv.includes('--spoil')) spoil();
else if (process.argv.includes('--real')) real();
else exact();

function spoil(): void {
  for (const kind of taperKinds()) {
    const { all, left } = survivors(kind);
    console.log(`${kind.name}: ${left.length} of ${all}`);
    for (const what of left) console.log(`  ${what}`);
  }
  const kinds = new Map<string, number>();
  let [all, left] = [0, 0];
  for (const kind of sphereKinds()) {
    const { tried, survived } = ofSphereSpoilt(kind);
    all += tried;
    left += survived.length;
    for (const name of survived) kinds.set(name, (kinds.get(name) ?? 0) + 1);
  }
  for (const [name, count] of [...kinds].sort()) console.log(`${String(count).padStart(4)} kinds of spheres: ${name}`);
  console.log(`spheres: ${left} of ${all} spoilings`);
}

function real(): void {
  let [beyond, kinds] = [0, 0];
  const tell = (name: string, made: Real, more = ''): void => {
    const errors = off(made, PARTS);
    kinds++;
    if (errors < -3) beyond++;
    const { promised, share, tries, gouged, mishaps } = made;
    const told = [promised, share].map((one) => one.toFixed(3)).join('  ');
    console.log(
      `${name.padEnd(74)}  ${told}  ${errors.toFixed(1).padStart(6)}  in ${tries}  ${Math.round(gouged * PARTS)} gouged  ${more}${[...new Set(mishaps)].join('; ')}`,
    );
  };
  for (const kind of taperKinds()) {
    for (const one of [kind, tighter(kind, kind.job.unit === 'mm' ? 0.02 : 0.0008)])
      tell(kind.name, really(one, PARTS, 20_260));
  }
  for (const kind of sphereKinds()) {
    if (!isReal(kind)) continue;
    const made = reallySphere(kind, PARTS, 20_260);
    // Whatever single promise is not kept, or is kept too well.
    const differ = made.each.filter((one) => Math.abs(off(one, PARTS)) > 3);
    const more = differ.map(
      ({ quantity, promised, share }) => `${quantity} ${promised.toFixed(3)} ${share.toFixed(3)}  `,
    );
    tell(kind.name, made, more.join(''));
  }
  console.log(`${kinds} kinds of ${PARTS}: ${beyond} keep less than promised by more than three standard errors`);
  process.exitCode = beyond > 1 ? 1 : 0;
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
