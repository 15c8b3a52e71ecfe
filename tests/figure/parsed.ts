/** A figure read by a strict XML parser: parts by name, their coordinates, and what text there is. */
import { DOMParser, type Document, type Element } from '@xmldom/xmldom';

/** Parses; anything that is not well-formed throws. */
export function parsed(svg: string): Document {
  return new DOMParser({
    onError: (level, message) => {
      throw new Error(`${level}: ${message}`);
    },
  }).parseFromString(svg, 'image/svg+xml');
}

/** All elements of a document, in order. */
export function elements(document: Document): readonly Element[] {
  return Array.from(document.getElementsByTagName('*'));
}

/** The elements of one part. */
export function parts(document: Document, name: string): readonly Element[] {
  return elements(document).filter((element) => element.getAttribute('data-part') === name);
}

/** The only element of a part. */
export function part(document: Document, name: string): Element {
  const found = parts(document, name);
  if (found.length !== 1) throw new Error(`${found.length} parts ${name}`);
  return found[0] as Element;
}

/** A number among an element's attributes. */
export function value(element: Element, attribute: string): number {
  const text = element.getAttribute(attribute);
  if (text === null || text === '') throw new Error(`no ${attribute}`);
  return Number(text);
}

/** Place and radius of a circle; of one that is cut off at the edge, the place of what marks its centre. */
export function circle(document: Document, name: string, centre: string): { x: number; y: number; r: number } {
  const [round, middle] = [part(document, name), part(document, centre)];
  const r =
    round.tagName === 'circle' ? value(round, 'r') : Number(/A([\d.]+) /.exec(round.getAttribute('d') ?? '')?.[1]);
  const marked = round.tagName === 'circle' ? round : middle;
  return { x: value(marked, 'cx'), y: value(marked, 'cy'), r };
}

/** Length of a line in pixels. */
export function lengthOf(element: Element): number {
  return Math.hypot(value(element, 'x2') - value(element, 'x1'), value(element, 'y2') - value(element, 'y1'));
}

/** Direction of a line in degrees, 90 up. */
export function directionOf(element: Element): number {
  const [dx, dy] = [value(element, 'x2') - value(element, 'x1'), value(element, 'y2') - value(element, 'y1')];
  return (Math.atan2(-dy, dx) * 180) / Math.PI;
}

/** The points of a path made of straight lines. */
export function points(element: Element): readonly (readonly [number, number])[] {
  const numbers = (element.getAttribute('d') ?? '').match(/-?\d+(?:\.\d+)?/g)?.map(Number) ?? [];
  return Array.from({ length: numbers.length / 2 }, (_, i) => [numbers[2 * i] as number, numbers[2 * i + 1] as number]);
}

/** All words of a figure, text by text. */
export function words(document: Document): readonly string[] {
  return Array.from(document.getElementsByTagName('text')).map((text) => text.textContent ?? '');
}
