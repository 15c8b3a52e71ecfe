// Runs every check and ends with the one line 'N passed, N failed'. "Passed" counts test cases from
// the test runner's own report; a check that fails without a failing test case counts as one failure.
import { spawnSync } from 'node:child_process';
import { readFileSync, rmSync } from 'node:fs';

const total = { passed: 0, failed: 0, skipped: 0 };
const broken = [];

const run = (name, command) => {
  const start = Date.now();
  console.log(`\n== ${name}: ${command}`);
  const env = { ...process.env, NO_COLOR: '1', FORCE_COLOR: '0' };
  const { status } = spawnSync(command, { shell: true, stdio: 'inherit', env });
  const seconds = ((Date.now() - start) / 1000).toFixed(1);
  console.log(`-- ${name}: ${status === 0 ? 'ok' : `FAILED (exit ${status})`} in ${seconds} s`);
  return status === 0;
};

const check = (name, command) => {
  if (run(name, command)) return;
  broken.push(name);
  total.failed += 1;
};

const tests = (name, command, report) => {
  rmSync(report, { force: true }); // an old report must not be counted
  const ok = run(name, `${command} -- --reporter=default --reporter=json --outputFile.json=${report}`);
  let files = [];
  try {
    files = JSON.parse(readFileSync(report, 'utf8')).testResults;
  } catch (error) {
    console.log(`no report: ${error.message}`);
  }
  const cases = files.flatMap((file) => file.assertionResults);
  const passed = cases.filter((test) => test.status === 'passed').length;
  // A file that could not be loaded has no failing case of its own.
  const unloaded = files.filter(
    (file) => file.status === 'failed' && !file.assertionResults.some((test) => test.status === 'failed'),
  ).length;
  let failed = cases.filter((test) => test.status === 'failed').length + unloaded;
  // An unhandled error or a coverage threshold fails the run without failing a case.
  if ((!ok || passed === 0) && failed === 0) failed = 1;
  if (failed > 0) broken.push(name);
  total.passed += passed;
  total.failed += failed;
  total.skipped += cases.length - passed - cases.filter((test) => test.status === 'failed').length;
};

check('lint and format', 'npm run -s check:lint');
check('types', 'npm run -s check:types');
check('build', 'npm run -s build'); // before the tests: some of them use what is shipped
tests('tests', 'npm run coverage', 'reports/vitest.json');
check('long run', 'SEED=1 npm run -s test:long'); // one seed here; the command alone draws a new one
tests('browser', 'npm run check:browser', 'reports/browser.json');
tests('loading', 'npm run check:loading', 'reports/loading.json');
check('seams', 'npm run -s check:seams -- 60 21'); // one seed here; the command alone draws a new one
check('unused code', 'npm run -s check:unused');
check('exports', 'npm run -s check:exports');
check('size', 'npm run -s check:size');
check('package', 'npm run -s check:package');
check('docs', 'npm run -s docs');

const { passed, failed, skipped } = total;
console.log(`\n${broken.length > 0 ? `broken: ${broken.join(', ')}` : 'every check is green'}`);
console.log(`${passed} passed, ${failed} failed${skipped > 0 ? `, ${skipped} skipped` : ''}`);
process.exitCode = failed > 0 || passed === 0 ? 1 : 0;
