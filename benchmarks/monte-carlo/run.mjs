/**
 * A million trials of a five-input model: the library, a loop written by hand for this model with the same
 * generator, and numpy if it is there. All compute the same: draws, results, mean, standard uncertainty, both
 * coverage intervals. Runs interleaved, medians, ratios of one run. Run `npm run bench:monte-carlo`, which builds first.
 */
import { execFileSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { monteCarlo } from 'generatrix/budget';
import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';

const TRIALS = 1_000_000;
const REPEATS = 15;
const quantity = { kind: 'number', meaning: 'any' };

/** Sine bar with two gauge blocks: sin θ = (h₁ + h₂ + k)/L + d, five inputs. */
const inputs = {
  h1: { value: 20, plusMinus: 0.0005 },
  h2: { value: 5, standardUncertainty: 0.0002 },
  k: { value: 0, standardUncertainty: 0.001 },
  length: { value: 100, plusMinus: 0.002 },
  d: { value: 0, plusMinus: 0.00002 },
};
const model = {
  name: 'bench',
  result: quantity,
  inputs: { h1: quantity, h2: quantity, k: quantity, length: quantity, d: quantity },
  evaluate: ({ add, divide, asin }, { h1, h2, k, length, d }) => asin(add(divide(add(add(h1, h2), k), length), d)),
};
const plain = ({ h1, h2, k, length, d }) => Math.asin((h1 + h2 + k) / length + d);
const batch = ({ h1, h2, k, length, d }, count, results) => {
  for (let i = 0; i < count; i++) results[i] = Math.asin((h1[i] + h2[i] + k[i]) / length[i] + d[i]);
};

/** By hand, as one would write it: no named inputs, no blocks, no checks. */
function bareLoop() {
  const stream = xoroshiro128plus(1);
  const values = new Float64Array(TRIALS);
  const normal = () =>
    Math.sqrt(-2 * Math.log(1 - uniformFloat64(stream))) * Math.cos(2 * Math.PI * uniformFloat64(stream));
  for (let i = 0; i < TRIALS; i++) {
    const h1 = 19.9995 + 0.001 * uniformFloat64(stream);
    const h2 = 5 + 0.0002 * normal();
    const k = 0.001 * normal();
    const length = 99.998 + 0.004 * uniformFloat64(stream);
    const d = -0.00002 + 0.00004 * uniformFloat64(stream);
    values[i] = Math.asin((h1 + h2 + k) / length + d);
  }
  return summary(values);
}

function summary(values) {
  let sum = 0;
  for (let i = 0; i < TRIALS; i++) sum += values[i];
  const mean = sum / TRIALS;
  let squares = 0;
  for (let i = 0; i < TRIALS; i++) squares += (values[i] - mean) ** 2;
  values.sort();
  const outside = 0.05 * TRIALS;
  const within = TRIALS - outside;
  let best = 0;
  for (let r = 0; r < outside; r++) {
    if (values[r + within] - values[r] < values[best + within] - values[best]) best = r;
  }
  return {
    mean,
    u: Math.sqrt(squares / (TRIALS - 1)),
    low: values[outside / 2 - 1],
    high: values[outside / 2 - 1 + within],
  };
}

const library = (how) => {
  const { mean, standardUncertainty: u, symmetric } = monteCarlo({ model: how, inputs, trials: TRIALS });
  return { mean, u, low: symmetric.low, high: symmetric.high };
};

function numpy() {
  const script = fileURLToPath(new URL('./reference.py', import.meta.url));
  try {
    return JSON.parse(
      execFileSync('python3', [script, String(TRIALS)], { encoding: 'utf8', stdio: ['ignore', 'pipe', 'ignore'] }),
    );
  } catch {
    return undefined;
  }
}

const median = (list) => [...list].sort((a, b) => a - b)[Math.floor(list.length / 2)];
const cases = {
  'bare loop': bareLoop,
  'library, model': () => library(model),
  'library, batch function': () => library({ batch }),
  'library, plain function': () => library(plain),
};
const times = Object.fromEntries([...Object.keys(cases), 'numpy'].map((name) => [name, []]));
const answers = {};
for (let repeat = 0; repeat < REPEATS; repeat++) {
  for (const [name, run] of Object.entries(cases)) {
    const from = performance.now();
    answers[name] = run();
    times[name].push(performance.now() - from);
  }
  const found = numpy();
  if (found) {
    answers.numpy = found;
    times.numpy.push(found.milliseconds);
  }
}

// Each must have done the job: u = 0.0000185 or so, known to 1 in 1000; ends to 1 in 200 of u.
const { u, mean, low, high } = answers['bare loop'];
for (const [name, found] of Object.entries(answers)) {
  const wrong = [found.u / u - 1, (found.mean - mean) / u, (found.low - low) / u, (found.high - high) / u];
  if (wrong.some((x) => !(Math.abs(x) < 0.02)))
    throw new Error(`${name} gives another answer: ${JSON.stringify(found)}`);
}
const base = median(times['bare loop']);
const py = times.numpy.length > 0 ? median(times.numpy) : undefined;
console.log(`${TRIALS} trials, five inputs, median of ${REPEATS}; node ${process.version}, ${process.arch}`);
for (const [name, list] of Object.entries(times)) {
  if (list.length === 0) {
    console.log(`${name.padEnd(26)} not installed here, left out`);
    continue;
  }
  const t = median(list);
  const against = py ? `, ${(t / py).toFixed(2)} x numpy` : '';
  console.log(`${name.padEnd(26)} ${t.toFixed(1).padStart(7)} ms  ${(t / base).toFixed(2)} x bare loop${against}`);
}
