// Reads a job file and prints what to set, what the settings really cut, and what to change after measuring.
// Usage: node docs/demo/run.mjs [job file]. Build first: `npm run demo` does both. Sheets for the shop wall go to reports/demo.
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import {
  ballCentresCorrection,
  ballCentresSettings,
  ballCentresSurface,
  convertTaper,
  formatAngle,
  planFigure,
  planJob,
  shopSheet,
  socketTiltCorrection,
  sweepDiagnosis,
  sweepSettings,
  sweepSurface,
} from '../../dist/index.js';

const file = process.argv[2] ?? new URL('./sluice-gear.json', import.meta.url);
const { taper, ball, socket } = JSON.parse(readFileSync(file, 'utf8'));

const heading = (text) => console.log(`\n${text}\n${'='.repeat(text.length)}`);
const line = (label, value, unit = 'mm') => console.log(`  ${label.padEnd(52)} ${value} ${unit}`.trimEnd());
const mm = (value, digits = 4) => (Math.abs(value) < 0.5 * 10 ** -digits ? 0 : value).toFixed(digits);
const notes = (list) => {
  for (const { message } of list) console.log(`  note: ${message}`);
};

/** Nothing simulated is certain, and nothing is rounded up. */
const percent = (p) => (p > 0.999 ? 'more than 99.9 %' : `${(Math.floor(1000 * p) / 10).toFixed(1)} %`);

/** Every method, its verdict and its reasons. */
function compare(job) {
  const plan = planJob(job);
  for (const { method, machine, meets, reaches, probability, tries, reasons } of plan.methods) {
    const verdict = meets
      ? `meets the tolerance in ${tries} ${tries === 1 ? 'try' : 'tries'}`
      : reaches
        ? 'misses the tolerance'
        : 'cannot';
    console.log(`  ${method} on ${machine}: ${verdict}${reaches ? ` (probability ${percent(probability)})` : ''}`);
    for (const { message } of reasons) console.log(`      ${message}`);
  }
  for (const { path, value, reason } of plan.assumptions) console.log(`  assumed: ${path} = ${value} (${reason})`);
  return plan;
}

/** Writes the sheet for the shop wall, its drawing so wide that its words stay readable in print. */
function sheet(plan, methodName, name, title) {
  const folder = fileURLToPath(new URL('../../reports/demo/', import.meta.url));
  mkdirSync(folder, { recursive: true });
  const method = plan.methods.findIndex((candidate) => candidate.method === methodName);
  const figures = [{ title, svg: planFigure({ plan, method, width: 328, brief: true }) }];
  writeFileSync(`${folder}${name}.html`, shopSheet({ plan, method, figures, format: 'html' }));
  console.log(`\n  sheet written: reports/demo/${name}.html`);
}

function taperJob({ job, asReallySet, trialCut }) {
  const { part, lathes } = job;
  const { headstock, tailstock, dial } = lathes[0].ballCentres;
  const between = { headstock, tailstock, faceLength: part.workLength };

  heading(`${job.title}: which method`);
  const plan = compare(job);

  heading('Settings: work between balls, boring head in the tailstock');
  const set = ballCentresSettings({ ...between, taper: part.taper, dial, length: part.length });
  line('half angle', formatAngle(convertTaper(part.taper, 'halfAngleDeg')), '');
  line('taper per foot', convertTaper(part.taper, 'perFoot').toFixed(5), 'in');
  line('distance of the ball centres', mm(set.centreDistance));
  line('set-over, exact', mm(set.offset));
  line('head dial (reads the diameter): exact reading', mm(set.reading));
  line('head dial by the usual shop rule, L (D - d) / 2l', mm(set.rule.value));
  line('head dial: set', mm(set.settableReading, 2));
  line('error of the small diameter from the graduation', mm(-set.differenceError));
  notes(set.notes);

  sheet(plan, 'ball-centres', 'spindle', 'The work between balls, from above');

  heading('What these settings really cut');
  // The part counts its places from the end face, the set-up from the centre of the headstock's ball.
  const fromPivot = part.largeEndAt + set.headstockSeat.protrusion;
  const cut = {
    ...between,
    offset: set.settableValue,
    fromPivot,
    length: part.length,
    largeDiameter: part.largeDiameter,
  };
  const ideal = ballCentresSurface(cut);
  line(`as set: a ${ideal.surface.kind}; small diameter`, mm(ideal.smallDiameter));
  const real = ballCentresSurface({ ...cut, ...asReallySet });
  line(`with the errors in the job file: a ${real.surface.kind}; small diameter`, mm(real.smallDiameter));
  line('waist of the surface, radius', mm(real.waist));
  line('these errors together change the small diameter by', mm(-real.differenceError));
  line('the height of the path alone would change it by', mm(real.heightError));
  line('departure from a straight side', mm(real.departure.bestFit.straightness, 6));

  heading('After the trial cut');
  const { diameter, length } = job.measuring;
  const correction = ballCentresCorrection({
    ...between,
    taper: part.taper,
    dial,
    trials: [{ reading: set.settableReading, ...trialCut }],
    // Limits of ± a, evenly spread, have a standard uncertainty of a / √3.
    diameterStandardUncertainty: diameter / Math.sqrt(3),
    lengthStandardUncertainty: length / Math.sqrt(3),
    touchOffPlace: { fromPivot, diameter: trialCut.largeDiameter },
  });
  line('zero error of the set-over found', mm(correction.zeroError));
  line('its standard uncertainty', mm(correction.standardUncertainty.zeroError));
  line('new reading of the head dial', mm(correction.settableReading, 2));
  line('turn the dial by', mm(correction.readingChange, 2));
  line('touch off again: the tool moves towards the work by', mm(correction.toolMove));
  notes(correction.notes);
}

function ballJob({ job, misSet, settingUncertainties, measured }) {
  const { target } = job.part;
  const { headTilt, boringHead, table } = job.mills[0];

  heading(`${job.title}: which method`);
  const plan = compare(job);

  heading('Settings of the tilted sweep');
  const head = { table, largestTiltDeg: headTilt.largestDeg, tiltStepDeg: headTilt.stepDeg, dial: boringHead.dial };
  const set = sweepSettings({ target, head });
  line('tilt of the head, exact', set.headTiltTableUprightDeg.toFixed(4), '°');
  line('tilt of the head, nearest graduation', set.tilt.settableReadingDeg.toFixed(2), '°');
  line('sweep diameter, exact', mm(set.sweepDiameter));
  line('sweep diameter on the dial', mm(set.dial.settableReading, 2));
  line('radius that the graduations cut', mm(set.settable.radius));
  notes(set.notes);

  sheet(plan, 'tilted-sweep', 'handle', 'The tilted sweep, from the side');

  heading('A mis-set sweep, and what it cuts');
  const sweep = {
    ...set.sweep,
    tiltDeg: set.sweep.tiltDeg + misSet.tiltErrorDeg,
    sweepRadius: set.sweep.sweepRadius + misSet.sweepRadiusError,
    skew: misSet.skew,
  };
  const cut = sweepSurface({ target, sweep });
  line('radius', mm(cut.radius));
  line('largest less smallest radius', mm(cut.largestRadius - cut.smallestRadius));
  line('pip in the middle, diameter', mm(cut.pipDiameter));
  line(`at the stem: ${cut.coverage.farEnd.state}, the cut ends at diameter`, mm(cut.coverage.farEnd.diameter));

  heading('Diagnosis from what was measured');
  const found = sweepDiagnosis({
    target,
    sweep: set.sweep,
    uncertainties: settingUncertainties,
    trials: [{ measurements: measured }],
  });
  for (const { kind, value } of measured) line(`measured ${kind}`, value);
  for (const [cause, { estimate, low, high }] of Object.entries(found.causes)) {
    const unit = cause.endsWith('Deg') ? '°' : 'mm';
    line(`error of ${cause} (95 % interval)`, `${mm(estimate, 3)} (${mm(low, 3)} to ${mm(high, 3)})`, unit);
  }
  notes(found.notes);
}

function socketJob({ target, head, soFar }) {
  heading('The socket for the ball');
  const set = sweepSettings({ target, head });
  line('tilt of the head, table flat', set.headTiltTableFlatDeg.toFixed(4), '°');
  line('sweep diameter on the dial', mm(set.dial.settableReading, 2));
  notes(set.notes);
  line('measured so far: opening', mm(soFar.openingDiameter));
  line('measured so far: depth', mm(soFar.depth));
  const change = socketTiltCorrection({ radius: set.radius, sweepRadius: set.dial.settableValue, ...soFar });
  line('radius so far', mm(change.radius));
  line('change the tilt by', change.tiltChangeDeg.toFixed(3), '°');
}

if (taper) taperJob(taper);
if (ball) ballJob(ball);
if (socket) socketJob(socket);
console.log(
  "\nNumbers are no substitute for care: follow the machine's manual and local rules, guard the work, try every\n" +
    'movement by hand with the power off first, and ask somebody trained where in doubt.',
);
