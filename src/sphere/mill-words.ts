/** Words for a mill's head and the tip on its circle, seen as docs/conventions.md has it. */
import { plusMinus, say } from '../core/words.js';
import { told } from '../method/action-words.js';
import type { SetReading, Turn, Way } from '../method/actions.js';

const PLACES: Partial<Record<Way, string>> = {
  up: 'the highest of its circle',
  down: 'the lowest of its circle',
  right: 'the one farthest to the right on its circle',
  left: 'the one farthest to the left on its circle',
};

/** The place of a sweep that cuts what lies nearest to the free end of a ball, or the bottom of a socket. */
export function nearest({ way }: Turn): string {
  const ball = way === 'up' || way === 'right';
  return say`its place ${ball ? 'nearest the free end' : 'deepest in the work'}, ${PLACES[way] ?? way}`;
}

/** On which side of the work's axis. */
export function sides(way: Way | undefined): string {
  return { right: 'to the right of', left: 'to the left of', up: 'above', down: 'below' }[way as 'right'] ?? '';
}

/** How the head is set, on its scale. */
export function turned({ reading, way }: SetReading): string {
  const within = plusMinus(reading.limit ?? 0, reading.unit);
  if (reading.value === 0) return say`Set the head upright, ${told(reading)}, ${within}`;
  const side = way === 'clockwise' ? 'right' : 'left';
  return say`Tilt the head to ${told(reading)} from upright, its upper end to the ${side}: ${way ?? ''} seen from the front, ${within}`;
}
