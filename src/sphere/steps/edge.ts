/**
 * Height of the edge that two stops of a tool's corner leave on a sphere, square to it. A stop clears all within the
 * corner's radius n of the quadrant that its centre has run over, so that what is left between two stops is a square
 * edge, or an edge on one or both of the fillets. Radians; derived here, proved in tests/sphere/steps.test.ts against
 * the cleared regions themselves.
 */
import { centreRadius, type NoseOnSphere, ridgeHeight } from '../scallop.js';

/** Height of the edge between the steps that stop at two angles, first < second ≤ 90°. */
export function edgeHeight(nose: NoseOnSphere, first: number, second: number): number {
  if (first === second) return 0;
  const { side, radius, noseRadius: n } = nose;
  const out = side === 'ball' ? 1 : -1;
  const centres = centreRadius(nose);
  const stop = (angle: number): { x: number; z: number } => ({
    x: centres * Math.sin(angle),
    z: centres * Math.cos(angle),
  });
  // `wide` makes the edge's cylinder, `flat` its plane: on a ball the second and the first, in a socket the other way.
  const [wide, flat] = side === 'ball' ? [stop(second), stop(first)] : [stop(first), stop(second)];
  const square = { x: wide.x - out * n, z: flat.z - out * n };
  const onFlatFillet = out * (flat.x - square.x) > 0;
  const onWideFillet = out * (wide.z - square.z) > 0;
  const arc = (past: number): number => Math.sqrt(Math.max(0, (n - past) * (n + past)));
  const edge = onFlatFillet
    ? { x: square.x, z: flat.z - out * arc(flat.x - square.x) }
    : onWideFillet
      ? { x: wide.x - out * arc(wide.z - square.z), z: square.z }
      : square;
  const alone = onFlatFillet ? out * (edge.z - wide.z) >= 0 : !onWideFillet || out * (edge.x - flat.x) >= 0;
  if (alone) return out * (Math.hypot(edge.x, edge.z) - radius);
  if (onFlatFillet && onWideFillet) {
    const other = { x: wide.x - out * arc(wide.z - square.z), z: square.z };
    if (out * (other.x - flat.x) >= 0) return out * (Math.hypot(other.x, other.z) - radius);
  }
  return ridgeHeight(nose, Math.sin((second - first) / 2));
}
