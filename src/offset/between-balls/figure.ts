/**
 * A ball in a centre hole, in section and to scale: where it bears, and how far its centre stands out of the
 * end face. The work lies on the left, what holds the ball on the right.
 */

import { refuse } from '../../core/errors.js';
import {
  anyNumber,
  choice,
  defaulted,
  type Fields,
  type Filled,
  nonNegative,
  number,
  object,
  optional,
  positive,
  read,
} from '../../core/read.js';
import { fitted } from '../../draw/fit.js';
import { FIGURE, type FigureOptions, type Looks, part } from '../../draw/options.js';
import { type Block, type KeyRow, key, page, remarks } from '../../draw/page.js';
import type { Bounds } from '../../draw/scale.js';
import { arc, dimension, disc, type Element, line, outline, type Point } from '../../draw/svg.js';
import { type Tag, tags } from '../../draw/tags.js';
import { writer } from '../../draw/text.js';
import type { BallSeat, BallSeatOptions } from '../between-balls/ball-seat.js';
import { type BallHolder, HOLDER, type TiltLimit } from '../between-balls/tilt-limit.js';

/** What {@link ballSeatFigure} needs. */
export interface BallSeatFigureOptions
  extends FigureOptions,
    Pick<BallSeatOptions, 'ballDiameter' | 'mouthDiameter' | 'holeAngleDeg'> {
  /** How the ball sits, as `ballSeat` gives it. */
  readonly seat: BallSeat;
  /** Diameter of the pilot hole beyond the cone. @defaultValue 0, none */
  readonly pilotDiameter?: number;
  /** Diameter of the work's end face; schematic if left out. */
  readonly faceDiameter?: number;
  /** What holds the ball; not drawn if left out. */
  readonly holder?: BallHolder;
  /** How far the work can tilt, as `tiltLimit` gives it. */
  readonly limit?: TiltLimit;
}

type Drawn = Omit<BallSeatFigureOptions, 'seat'> & {
  readonly seat: Pick<BallSeat, 'seat' | 'protrusion' | 'contactDiameter' | 'contactDepth'>;
};

const FIELDS: Fields<Drawn, Looks | 'holeAngleDeg' | 'pilotDiameter'> = {
  ...FIGURE,
  seat: part({
    seat: choice('flank', 'edge'),
    protrusion: anyNumber,
    contactDiameter: positive,
    contactDepth: nonNegative,
  }),
  ballDiameter: positive,
  mouthDiameter: positive,
  holeAngleDeg: defaulted(number({ above: 0, below: 180 }), 60),
  pilotDiameter: defaulted(nonNegative, 0),
  faceDiameter: optional(positive),
  holder: optional(object(HOLDER)),
  limit: optional(
    object<TiltLimit>({
      tiltLimitDeg: number({ min: 0, max: 90 }),
      contact: choice(
        'holder-edge-on-work-face',
        'work-edge-on-holder-face',
        'holder-edge-in-hole',
        'hole-edge-on-holder-side',
        'none',
      ),
    }),
  ),
};

/**
 * Section of a ball in a centre hole, with its circle of contact and the place of its centre.
 * @returns The figure as SVG text.
 * @throws GeneratrixError for a seat that is not complete.
 * @example
 * ```ts
 * import { ballSeat, ballSeatFigure } from 'generatrix';
 * const hole = { ballDiameter: 10, mouthDiameter: 9 };
 * const svg = ballSeatFigure({ seat: ballSeat(hole), ...hole, unit: 'mm' });
 * svg.includes('2.206 mm'); // => true
 * ```
 */
export function ballSeatFigure(figure: BallSeatFigureOptions): string {
  const given = read<Drawn, Looks | 'holeAngleDeg' | 'pilotDiameter'>(figure, FIELDS);
  const { width, seat, ballDiameter, mouthDiameter, pilotDiameter, faceDiameter, limit } = given;
  if (pilotDiameter >= mouthDiameter) {
    refuse('out-of-range', 'pilotDiameter', pilotDiameter, number({ min: 0, below: mouthDiameter }).allowed);
  }
  if (faceDiameter !== undefined && faceDiameter < mouthDiameter) {
    refuse('out-of-range', 'faceDiameter', faceDiameter, number({ min: mouthDiameter }).allowed);
  }
  const write = writer(given.unit, given.decimals);
  const where =
    seat.seat === 'flank'
      ? "The ball bears on the flank of the hole's cone."
      : 'The ball bears on the edge of the hole.';
  const rows: KeyRow[] = [
    { symbol: 'b', meaning: 'Diameter of the ball', value: write.length(ballDiameter) },
    { symbol: 'm', meaning: 'Diameter of the hole at the face', value: write.length(mouthDiameter) },
    { symbol: 'c', meaning: "The ball's centre stands out of the face by", value: write.length(seat.protrusion) },
    { symbol: 'k', meaning: 'Circle of contact, diameter', value: write.length(seat.contactDiameter) },
    { meaning: 'Circle of contact below the face', value: write.length(seat.contactDepth) },
  ];
  if (limit) rows.push({ symbol: 'γ', meaning: 'The work can tilt by', value: write.angle(limit.tiltLimitDeg) });
  return page(
    given,
    'Ball in a centre hole',
    `${where} Its centre stands ${write.length(seat.protrusion)} out of the end face. Drawn to scale.`,
    [lay(given), remarks([`${where} Drawn to scale.`], width), key(rows, width)],
  );
}

function lay(given: Filled<Drawn, Looks | 'holeAngleDeg' | 'pilotDiameter'>): Block {
  const { ballDiameter: ball, mouthDiameter: mouth, pilotDiameter: pilot, holder, width } = given;
  const { protrusion: out, contactDiameter: contact, contactDepth: depth } = given.seat;
  const halfAngle = (given.holeAngleDeg * Math.PI) / 360;
  const limit = given.limit?.tiltLimitDeg;
  const size = Math.max(ball, mouth);
  const face = given.faceDiameter === undefined ? 0.85 * size : Math.min(given.faceDiameter / 2, 1.2 * size);
  // The cone ends at the pilot hole, or in its point.
  const coneDepth = Math.min((mouth - pilot) / (2 * Math.tan(halfAngle)), 2.5 * size);
  const coneEnd = Math.max(mouth / 2 - coneDepth * Math.tan(halfAngle), 0);
  const back = -(coneDepth + 0.45 * size);
  const held = holder === undefined ? 0 : Math.min(holder.faceDiameter / 2, 1.2 * size);
  const front = Math.max(out + ball / 2, holder === undefined ? 0 : out + holder.faceDistance) + 0.35 * size;
  const bounds: Bounds = { left: back, right: front, bottom: -Math.max(face, held), top: Math.max(face, held) };
  return fitted(bounds, { width, tallest: 360, room: 34 }, (view) => {
    const at = view.at;
    const px = 1 / view.scale;
    const hole: readonly Point[] =
      pilot > 0
        ? [
            [0, mouth / 2],
            [-coneDepth, coneEnd],
            [back, coneEnd],
          ]
        : [
            [0, mouth / 2],
            [-coneDepth, coneEnd],
          ];
    const upper: readonly Point[] = [[back, face], [0, face], ...hole];
    const lower = upper.map(([x, y]): Point => [x, -y]).reverse();
    const centre = at(out, 0);
    const low = -Math.max(face, held) - 16 * px;
    const content: Element[] = [];
    if (holder !== undefined) {
      const start = out + holder.faceDistance;
      content.push(
        outline('holder', 'gx-machine', [at(start, held), at(front, held), at(front, -held), at(start, -held)]),
      );
    }
    content.push(
      outline(
        'work',
        'gx-work',
        [...upper, ...lower].map(([x, y]) => at(x, y)),
      ),
      disc('ball', 'gx-machine', centre, (ball / 2) * view.scale),
      line('axis', 'gx-axis', at(back - 0.1 * size, 0), at(front + 0.1 * size, 0)),
      line('face', 'gx-leader', at(0, -face), at(0, low - 4 * px)),
      line('extension', 'gx-leader', centre, at(out, low - 4 * px)),
      ...dimension('protrusion', at(0, low), at(out, low)),
      line('contact', 'gx-cut', at(-depth, -contact / 2), at(-depth, contact / 2)),
      disc('contact-point', 'gx-tool', at(-depth, contact / 2), 3.5),
      disc('contact-point', 'gx-tool', at(-depth, -contact / 2), 3.5),
      disc('ball-centre', 'gx-tool', centre, 2.5),
    );
    const marks: Tag[] = [
      { text: 'c', at: at(out / 2, low), towards: -90 },
      { text: 'k', at: at(-depth, contact / 2), towards: 160, leader: true },
      { text: 'm', at: at(0, mouth / 2), towards: 60, leader: true },
      { text: 'b', at: at(out + (ball / 2) * Math.SQRT1_2, (ball / 2) * Math.SQRT1_2), towards: 45, leader: true },
    ];
    if (limit !== undefined && limit < 90) {
      const turn = (limit * Math.PI) / 180;
      const long = 0.75 * Math.min(out - back, face / Math.max(Math.sin(turn), 1e-9));
      content.push(
        line('tilted-axis', 'gx-wanted', centre, at(out - long * Math.cos(turn), long * Math.sin(turn))),
        arc('tilt', 'gx-dimension', centre, 0.7 * long * view.scale, 180, 180 - limit),
      );
      const half = turn / 2;
      marks.push({
        text: 'γ',
        at: at(out - 0.7 * long * Math.cos(half), 0.7 * long * Math.sin(half)),
        towards: 180 - limit / 2,
      });
    }
    return [...content, ...tags(marks, width, view.height)];
  });
}
