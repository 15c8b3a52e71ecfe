/**
 * The largest scale at which a drawing stays within its strip of the page. What stands at a distance in pixels, such
 * as dimension lines, takes room that hangs on the scale: so a drawing is measured as it comes out, and drawn again
 * with more room until nothing of it leaves the strip.
 */
import type { Block } from './page.js';
import { type Bounds, type View, viewOf } from './scale.js';
import { arcs, disc, type Element, type Point } from './svg.js';
import type { Look } from './theme.js';

/** Air between a drawing and the edge of its strip, pixels. */
const EDGE = 6;
/** Rounds of drawing at most: each leaves less over by the part of the page that is measured in pixels. */
const ROUNDS = 20;

/** Draws a rectangle of the part as large as width and height allow, with `room` pixels round about. */
export function fitted(
  bounds: Bounds,
  { width, tallest, room }: { readonly width: number; readonly tallest: number; readonly room: number },
  draw: (view: View) => readonly Element[],
): Block {
  let wanted = bounds;
  for (let round = 1; ; round++) {
    const view = viewOf(wanted, width, tallest, room);
    const content = draw(view);
    const reach = content.flatMap((element) => element.reach ?? []);
    const over = (of: (point: Point) => number): number => reach.reduce((most, point) => Math.max(most, of(point)), 0);
    const left = over(([x]) => EDGE - x);
    const right = over(([x]) => x + EDGE - width);
    const top = over(([, y]) => EDGE - y);
    const bottom = over(([, y]) => y + EDGE - view.height);
    if ((left === 0 && right === 0 && top === 0 && bottom === 0) || round === ROUNDS) {
      return { height: view.height, content };
    }
    wanted = {
      left: wanted.left - left / view.scale,
      right: wanted.right + right / view.scale,
      bottom: wanted.bottom - bottom / view.scale,
      top: wanted.top + top / view.scale,
    };
  }
}

/** As much of a circle, or of the part of it between two angles, as a strip has room for. */
export function arcWithin(
  part: string,
  look: Look,
  centre: Point,
  r: number,
  { width, height }: { readonly width: number; readonly height: number },
  fromDeg = 0,
  toDeg = 360,
): Element {
  const [x, y] = centre;
  const inside = (deg: number): boolean => {
    const [px, py] = [x + r * Math.cos((deg * Math.PI) / 180), y - r * Math.sin((deg * Math.PI) / 180)];
    return px >= EDGE && px <= width - EDGE && py >= EDGE && py <= height - EDGE;
  };
  const [low, high] = [Math.min(fromDeg, toDeg), Math.max(fromDeg, toDeg)];
  // Where the circle crosses the four edges; an angle that does not exist is NaN and falls out below.
  const crossings = [Math.acos((EDGE - x) / r), Math.acos((width - EDGE - x) / r)].flatMap((angle) => [angle, -angle]);
  for (const sine of [(y - EDGE) / r, (y - height + EDGE) / r])
    crossings.push(Math.asin(sine), Math.PI - Math.asin(sine));
  const places = crossings
    .map((angle) => low + (((((angle * 180) / Math.PI - low) % 360) + 360) % 360))
    .filter((deg) => deg > low && deg < high)
    .sort((a, b) => a - b);
  if (places.length === 0 && high - low === 360 && inside(0)) return disc(part, look, centre, r);
  const ends = [low, ...places, high];
  const spans = ends.slice(1).map((end, i) => [ends[i] as number, end] as const);
  return arcs(
    part,
    look,
    centre,
    r,
    spans.filter(([from, to]) => inside((from + to) / 2)),
  );
}
