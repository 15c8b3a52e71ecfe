/**
 * A sphere with a boring head tilted over turning work, as one method of cutting. It cuts the whole surface in one
 * set-up, but two machine axes must be brought to meet and a tilt set: harder than a swivelling tool.
 */
import { perMovement, unmarked } from '../../core/dial.js';
import { say, tell } from '../../core/words.js';
import { type Limit, limit, range } from '../../method/limits.js';
import { angleMeans } from '../../method/means.js';
import type { Method, MethodTypes, MillBase } from '../../method/method.js';
import type { SourceName } from '../../method/sources.js';
import { errorsFit, stockFits } from '../limits.js';
import { type SpherePart, type SphereWork, shapeOf } from '../part.js';
import type { SharedStep } from '../step-words.js';
import { nosePath, zoneOf } from '../target.js';
import { sweepClearance } from './clearance.js';
import type { SweepTrial, sweepDiagnosis } from './diagnosis.js';
import { sweptExpectations } from './expected.js';
import { BORING_HEAD_EQUIPMENT, type BoringHead, type BoringHeadEquipment } from './machine.js';
import { type SweepSettings, sweepSettings } from './settings.js';
import type { sweepSurface } from './surface.js';
import type { WORDS } from './words.js';

/** The types of this method. */
export interface TiltedSweepMethod extends MethodTypes {
  readonly name: 'tilted-sweep';
  readonly part: SpherePart;
  readonly on: 'mills';
  readonly equipment: BoringHeadEquipment;
  readonly needs: { readonly boringHead: BoringHead };
  readonly settings: SweepSettings;
  readonly surface: ReturnType<typeof sweepSurface>;
  readonly measured: {
    /** The trials so far, what was changed between them and what was read on each. */
    readonly trials: readonly SweepTrial[];
  };
  readonly correction: ReturnType<typeof sweepDiagnosis>;
  readonly limit: 'errors' | 'stock' | 'tilt' | 'sweep' | 'nose' | 'clearance';
  readonly step: keyof typeof WORDS | SharedStep;
  readonly caution: 'head-off-balance' | 'head-tilt-clamp' | 'open-sweep' | 'table-lock';
}

const ACTING: readonly SourceName[] = ['headTiltDeg', 'sweepRadius', 'skew', 'miss', 'position'];

export const tiltedSweep: Method<TiltedSweepMethod> = {
  name: 'tilted-sweep',
  kind: 'sphere',
  on: 'mills',
  ease: 2,
  equipment: BORING_HEAD_EQUIPMENT,
  has: (mill): mill is typeof mill & { readonly boringHead: BoringHead } => mill.boringHead !== undefined,
  missing: (name) => `${name} has no boring head`,
  sources: ACTING,
  setBy: {
    source: 'headTiltDeg',
    atHand: (work, { table, headTilt, boringHead }) => {
      const angleDeg = tiltFor(work, table, boringHead);
      const reach = { travel: QUILL_TRAVEL[work.unit], along: ['guide', 'face'] } as const;
      return angleMeans({ angleDeg, ...reach, divisionDeg: headTilt.stepDeg }, work);
    },
  },
  assumes: ({ boringHead }) =>
    boringHead.noseRadius === undefined
      ? [{ key: 'boringHead.noseRadius', value: 0, reason: 'a sharp point; a nose changes what to set' }]
      : [],
  limits: (work, { boringHead, table, headTilt }) => {
    const { part } = work;
    const { noseRadius = 0 } = boringHead;
    if (!noseFits(work, noseRadius)) {
      const message = say`the tool's nose has a radius of ${tell(noseRadius)}, with which no sweep cuts this part`;
      return [{ code: 'nose', message, met: false }];
    }
    const exact = sweepSettings({ target: part.target, noseRadius });
    const readings = { flat: Math.abs(exact.headTiltTableFlatDeg), upright: Math.abs(exact.headTiltTableUprightDeg) };
    const tiltDeg = readings[table];
    const other = table === 'flat' ? 'upright' : 'flat';
    // Whoever cannot tilt so far may clamp the table the other way.
    const instead =
      tiltDeg > headTilt.largestDeg && readings[other] <= headTilt.largestDeg
        ? say`, with the table ${other} it needs ${tell(readings[other], { unit: '°' })}`
        : '';
    const { reads, from, to } = boringHead.dial;
    const [needed, there] = [tell(tiltDeg, { unit: '°' }), tell(headTilt.largestDeg, { unit: '°' })];
    const reading = (exact.tipDiameter / 2) * perMovement(reads);
    return [
      errorsFit(work, ACTING),
      ...stockFits(work),
      limit(
        'tilt',
        say`the head tilts ${there}, with the table ${table} this part needs ${needed}${instead}`,
        tiltDeg,
        headTilt.largestDeg,
      ),
      ...range('sweep', say`the head's dial, on the ${reads},`, reading, { from, to }, ''),
      ...clears(work, boringHead),
    ];
  },
  settings: ({ part }, { boringHead, table, headTilt }) =>
    sweepSettings({
      target: part.target,
      noseRadius: boringHead.noseRadius ?? 0,
      head: headOf({ boringHead, table, headTilt }),
    }),
  limitsOfSettings: () => [],
  expected: (work, _mill, settings) => sweptExpectations(work, settings),
};

function headOf({ boringHead, table, headTilt }: Pick<MillBase, 'table' | 'headTilt'> & TiltedSweepMethod['needs']) {
  return {
    table,
    largestTiltDeg: headTilt.largestDeg,
    // Both are brought to the exact value: the tilt by its means, the sweep by a test ring.
    dial: unmarked(boringHead.dial),
  } as const;
}

/** Whether a nose leaves a sweep that its tip can run on: less than a socket's radius, and than the sweep round a ball. */
function noseFits(work: SphereWork, noseRadius: number): boolean {
  const zone = zoneOf(work.part.target);
  if (noseRadius > LARGEST_NOSE * zone.radius || (zone.side === 'socket' && noseRadius >= zone.radius)) return false;
  const { radius, half } = nosePath(zone, noseRadius);
  return radius * half.sin > (zone.side === 'ball' ? noseRadius : 0);
}

/** Times the sphere's radius: a nose so large is straight. */
const LARGEST_NOSE = 1e6;

/** Travel of the quill over which an indicator is watched, within most quills: common practice, no source. */
export const QUILL_TRAVEL = { mm: 50, in: 2 } as const;

function tiltFor({ part }: SphereWork, table: MillBase['table'], { noseRadius = 0 }: BoringHead): number {
  const { headTiltTableFlatDeg, headTiltTableUprightDeg } = sweepSettings({ target: part.target, noseRadius });
  return Math.abs(table === 'flat' ? headTiltTableFlatDeg : headTiltTableUprightDeg);
}

/** The head's body must clear the part behind a tool that reaches so far. */
function clears(
  work: SphereWork,
  { bodyRadius, toolReach, noseRadius = 0 }: BoringHead,
): readonly Limit<'clearance'>[] {
  const { part } = work;
  const { side, toDeg } = shapeOf(work);
  if (side === 'socket' && toDeg > 90) {
    // Its rim would meet the bar: the chord of the opening, seen along the spindle, is less than the sweep.
    const rim = tell(toDeg, { unit: '°' });
    const message = say`a straight tool comes in by the opening and cuts half a sphere at most, 90° from the bottom; this rim lies at ${rim}`;
    return [limit('clearance', message, toDeg, 90)];
  }
  if (bodyRadius === undefined || toolReach === undefined) return [];
  const { leastReach, firstCollision, clearances } = sweepClearance({
    target: part.target,
    noseRadius,
    headDiameter: 2 * bodyRadius,
    reach: toolReach,
  });
  const first = clearances[0];
  // A tool that touches by itself is not helped by more reach.
  if (firstCollision && first && !firstCollision.startsWith('head')) {
    return [{ code: 'clearance', message: say`${firstCollision} overlap by ${tell(-first.distance)}`, met: false }];
  }
  const message = say`the tool reaches ${tell(toolReach)} before the head, which clears the part from ${tell(leastReach)} on`;
  // Rounding at the very reach that just clears is no collision.
  return [limit('clearance', message, leastReach, firstCollision ? toolReach : Math.max(toolReach, leastReach))];
}
