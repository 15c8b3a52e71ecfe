/** What the limits that a shop states must leave of a sphere. */
import { say, tell } from '../core/words.js';
import { type Limit, limit } from '../method/limits.js';
import { SOURCES, type SourceName } from '../method/sources.js';
import { type SphereWork, shapeOf } from './part.js';

/** Errors as large as half the part leave nothing to speak of, and no model holds there. */
const LARGEST_PART = 0.5;

/** The stated limits of lengths together must be small beside the sphere; `more` is what they do beyond their own size. */
export function errorsFit(work: SphereWork, sources: readonly SourceName[], more = 0): Limit<'errors'> {
  const { unit, setting } = work;
  const off = sources.reduce((sum, name) => sum + (SOURCES[name].kind === 'length' ? setting[name] : 0), more);
  const most = LARGEST_PART * shapeOf(work).radius;
  const [needed, there] = [tell(off, { unit }), tell(most, { unit })];
  return limit('errors', say`the settings may be off by ${needed} together, half the radius is ${there}`, off, most);
}

/** Stock, or the face of a socket, must be as wide as the part; nothing is asked where the job leaves it open. */
export function stockFits(work: SphereWork): readonly Limit<'stock'>[] {
  const { part, unit } = work;
  if (part.stockDiameter === undefined) return [];
  const { side, radius, fromDiameter, fromDeg, toDiameter, toDeg } = shapeOf(work);
  const past = side === 'ball' && fromDeg <= 90 && toDeg >= 90;
  const widest = past ? 2 * radius : Math.max(fromDiameter, toDiameter);
  const [needs, there] = [tell(widest, { unit }), tell(part.stockDiameter, { unit })];
  return [limit('stock', say`the stock is ${there} across, the part needs ${needs}`, widest, part.stockDiameter)];
}
