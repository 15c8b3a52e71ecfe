/** How often 95 % intervals hold the truth in 20,000 simulated experiments of each kind; fails outside 94 to 96 %. */
import { coverage, shapes } from '../../tests/budget/experiments.js';

let failed = false;
for (const name of Object.keys(shapes)) {
  const held = coverage(name, 20_000);
  const right = held >= 0.94 && held <= 0.96;
  failed ||= !right;
  console.log(`${name.padEnd(22)} ${(100 * held).toFixed(2)} %${right ? '' : '  outside 94 to 96 %'}`);
}
if (failed) process.exitCode = 1;
