/**
 * A ball in a centre hole, in section and to scale: where it bears, and how far its centre stands out of the
 * end face. The work lies on the left, what holds the ball on the right.
 */
import { choice, number, options, positive } from '../core/checks.js';
import { field, record } from '../draw/field.js';
import { COMMON, type FigureOptions, readCommon } from '../draw/options.js';
import { type Block, type KeyRow, key, page, remarks } from '../draw/page.js';
import { type Bounds, viewOf } from '../draw/scale.js';
import { arc, dimension, disc, type Element, line, outline, type Point } from '../draw/svg.js';
import { type Tag, tags } from '../draw/tags.js';
import type { BallSeat } from '../offset/ball-seat.js';
import type { BallHolder, TiltLimit } from '../offset/tilt-limit.js';

/** What {@link ballSeatFigure} needs. */
export interface BallSeatFigureOptions extends FigureOptions {
  /** How the ball sits, as `ballSeat` gives it. */
  readonly seat: BallSeat;
  /** Diameter of the ball. */
  readonly ballDiameter: number;
  /** Diameter of the hole's cone at the end face. */
  readonly mouthDiameter: number;
  /** Included angle of the hole's cone, degrees; 60 if left out. */
  readonly holeAngleDeg?: number;
  /** Diameter of the pilot hole beyond the cone; none if left out. */
  readonly pilotDiameter?: number;
  /** Diameter of the work's end face; schematic if left out. */
  readonly faceDiameter?: number;
  /** What holds the ball; not drawn if left out. */
  readonly holder?: BallHolder;
  /** How far the work can tilt, as `tiltLimit` gives it. */
  readonly limit?: TiltLimit;
}

/**
 * Section of a ball in a centre hole, with its circle of contact and the place of its centre.
 *
 * @param figure - The seat, ball and hole, unit and looks.
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
  const given = options(
    figure,
    'figure',
    ['seat', 'ballDiameter', 'mouthDiameter', 'unit'],
    ['holeAngleDeg', 'pilotDiameter', 'faceDiameter', 'holder', 'limit', ...COMMON],
  );
  const common = readCommon(given);
  const { write, width } = common;
  const mouth = positive(given['mouthDiameter'], 'mouthDiameter');
  const part: Part = {
    ball: positive(given['ballDiameter'], 'ballDiameter'),
    mouth,
    halfAngle: (number(given['holeAngleDeg'] ?? 60, 'holeAngleDeg', { above: 0, below: 180 }) * Math.PI) / 360,
    pilot: number(given['pilotDiameter'] ?? 0, 'pilotDiameter', { min: 0, below: mouth }),
    out: field(given['seat'], 'seat', 'protrusion'),
    contact: field(given['seat'], 'seat', 'contactDiameter', { above: 0 }),
    depth: field(given['seat'], 'seat', 'contactDepth', { min: 0 }),
    face:
      given['faceDiameter'] === undefined ? undefined : number(given['faceDiameter'], 'faceDiameter', { min: mouth }),
    holder: readHolder(given['holder']),
    limit:
      given['limit'] === undefined ? undefined : field(given['limit'], 'limit', 'tiltLimitDeg', { min: 0, max: 90 }),
  };
  const bears = choice(record(given['seat'], 'seat')['seat'], 'seat.seat', ['flank', 'edge']);
  const where =
    bears === 'flank' ? "The ball bears on the flank of the hole's cone." : 'The ball bears on the edge of the hole.';
  const rows: KeyRow[] = [
    { symbol: 'b', meaning: 'Diameter of the ball', value: write.length(part.ball) },
    { symbol: 'm', meaning: 'Diameter of the hole at the face', value: write.length(part.mouth) },
    { symbol: 'c', meaning: "The ball's centre stands out of the face by", value: write.length(part.out) },
    { symbol: 'k', meaning: 'Circle of contact, diameter', value: write.length(part.contact) },
    { meaning: 'Circle of contact below the face', value: write.length(part.depth) },
  ];
  if (part.limit !== undefined) {
    rows.push({ symbol: 'γ', meaning: 'The work can tilt by', value: write.angle(part.limit) });
  }
  return page(
    common,
    'Ball in a centre hole',
    `${where} Its centre stands ${write.length(part.out)} out of the end face. Drawn to scale.`,
    [lay(part, width), remarks([`${where} Drawn to scale.`], width), key(rows, width)],
  );
}

interface Part {
  readonly ball: number;
  readonly mouth: number;
  readonly halfAngle: number;
  readonly pilot: number;
  readonly out: number;
  readonly contact: number;
  readonly depth: number;
  readonly face: number | undefined;
  readonly holder: BallHolder | undefined;
  readonly limit: number | undefined;
}

function lay(part: Part, width: number): Block {
  const { ball, mouth, halfAngle, pilot, out, contact, depth, holder, limit } = part;
  const size = Math.max(ball, mouth);
  const face = part.face === undefined ? 0.85 * size : Math.min(part.face / 2, 1.2 * size);
  // The cone ends at the pilot hole, or in its point.
  const coneDepth = Math.min((mouth - pilot) / (2 * Math.tan(halfAngle)), 2.5 * size);
  const coneEnd = Math.max(mouth / 2 - coneDepth * Math.tan(halfAngle), 0);
  const back = -(coneDepth + 0.45 * size);
  const held = holder === undefined ? 0 : Math.min(holder.faceDiameter / 2, 1.2 * size);
  const front = Math.max(out + ball / 2, holder === undefined ? 0 : out + holder.faceDistance) + 0.35 * size;
  const bounds: Bounds = { left: back, right: front, bottom: -Math.max(face, held), top: Math.max(face, held) };
  const view = viewOf(bounds, width, 360, 34);
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
  return { height: view.height, content: [...content, ...tags(marks, width, view.height)] };
}

function readHolder(value: unknown): BallHolder | undefined {
  if (value === undefined) return undefined;
  const holder = options(value, 'holder', ['faceDistance', 'faceDiameter']);
  return {
    faceDistance: number(holder['faceDistance'], 'holder.faceDistance'),
    faceDiameter: positive(holder['faceDiameter'], 'holder.faceDiameter'),
  };
}
