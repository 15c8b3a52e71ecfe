/** What a lathe must be able to do for a taper: its bed, its scales, and what stands in the way of tool post and slide. */
import { inWords } from '../core/notes.js';
import { tiltLimit } from '../offset/between-balls/tilt-limit.js';
import type { Slope } from '../taper/taper.js';
import type { CentreBall, Job, Lathe, TaperPart } from './job.js';
import { limit } from './methods.js';
import type { ReadJob } from './read-job.js';
import type { Limit } from './result.js';

/** A taper to cut. */
export interface Work {
  readonly job: ReadJob;
  readonly part: TaperPart;
  readonly unit: Job['unit'];
  readonly slope: Slope;
  /** Diameter at the small end; 0 for a taper that runs to a point. */
  readonly smallDiameter: number;
  readonly trials: number;
}

/** The bed must be long enough for the piece. */
export function onBed({ part, unit }: Work, lathe: Lathe): Limit {
  const [needs, has] = [part.workLength, lathe.centreDistance];
  return limit(
    'bed',
    `the bed takes ${inWords(has)} ${unit} between centres, the piece is ${inWords(needs)} ${unit} long`,
    needs,
    has,
  );
}

/** Work set over hangs between two points: outside only, and it needs its centre holes. */
export function betweenCentres(work: Work, lathe: Lathe): readonly Limit[] {
  const { centreHoles, side } = work.part;
  return [
    onBed(work, lathe),
    { code: 'centres', message: 'the piece needs centre holes at both ends', met: centreHoles },
    { code: 'side', message: 'work between centres is cut outside only', met: side === 'outside' },
  ];
}

/** How far the work may tilt on a ball before it touches what holds the ball. */
export function ballTilt(end: CentreBall, protrusion: number, name: string, { slope }: Work): readonly Limit[] {
  const { holder, faceDiameter, mouthDiameter, holeAngleDeg = 60 } = end;
  if (!holder || faceDiameter === undefined) return [];
  const { tiltLimitDeg } = tiltLimit({ holder, work: { protrusion, faceDiameter, mouthDiameter, holeAngleDeg } });
  const message = `the work touches the holder of the ${name} ball at a tilt of ${inWords(tiltLimitDeg)}°, the half angle is ${inWords(slope.halfAngleDeg)}°`;
  return [limit('tilt', message, slope.halfAngleDeg, tiltLimitDeg)];
}

/** The tool post stands beside the tip: it must clear a shoulder at either end of the taper. */
export function shoulders(work: Work, { toolPost }: Lathe): readonly Limit[] {
  const { part, unit } = work;
  if (!toolPost || part.side === 'inside') return [];
  const { halfWidth, toolReach } = toolPost;
  return (part.shoulders ?? []).map(({ at, diameter, gap }) => {
    const rise = (diameter - diameterAt(work, at)) / 2;
    return rise <= toolReach
      ? limit(
          'shoulder',
          `the tool reaches ${inWords(toolReach)} ${unit} before the post, past the shoulder's ${inWords(rise)} ${unit}`,
          rise,
          toolReach,
        )
      : limit(
          'shoulder',
          `the post stands ${inWords(halfWidth)} ${unit} to each side of the tip, the shoulder at the ${at} end ${inWords(gap)} ${unit} beyond the taper`,
          halfWidth,
          gap,
        );
  });
}

/**
 * The swung top slide's nose runs ahead of the tip. At the end of the taper towards a shoulder it stands
 * beyond the taper by ahead cos α ∓ back sin α, and back from the side by ahead sin α ± back cos α.
 */
export function slideNose(work: Work, { topSlide }: Lathe): readonly Limit[] {
  const { part, slope, unit } = work;
  if (!topSlide?.nose || part.side === 'inside') return [];
  const { ahead, back } = topSlide.nose;
  return (part.shoulders ?? []).map(({ at, diameter, gap }) => {
    const opening = at === 'large' ? 1 : -1;
    const beyond = ahead * slope.cos - opening * back * slope.sin;
    const radius = diameterAt(work, at) / 2 + opening * ahead * slope.sin + back * slope.cos;
    return radius >= diameter / 2
      ? limit('shoulder', `the slide's nose passes outside the shoulder at the ${at} end`, diameter / 2, radius)
      : limit(
          'shoulder',
          `the slide's nose runs ${inWords(beyond)} ${unit} beyond the taper, the shoulder at the ${at} end stands ${inWords(gap)} ${unit} beyond it`,
          beyond,
          gap,
        );
  });
}

function diameterAt({ part, smallDiameter }: Work, end: 'large' | 'small'): number {
  return end === 'large' ? part.largeDiameter : smallDiameter;
}
