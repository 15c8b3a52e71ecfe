/**
 * Whether a text is a figure that this kit wrote. It is read strictly, element by element, by what the kit writes,
 * built anew from what was read, and taken only if that comes out the same to the letter: so nothing that is not
 * the kit's own can get through, whatever a browser would make of it.
 */
import { type Element, ENTITIES, type Tag, write } from './svg.js';
import { painted, STYLE } from './theme.js';

/** What elements stand in which. */
const WITHIN: Readonly<Record<string, readonly Tag[]>> = {
  '': ['svg'],
  svg: ['title', 'desc', 'style', 'rect', 'g'],
  g: ['line', 'path', 'rect', 'circle', 'text'],
};

/** Elements that hold text. */
const WORDS: readonly string[] = ['title', 'desc', 'text'];

const NUMBER = /^[\d.e+-]+$/;
/** What attributes there are, and what they may say; how a class looks is added when it is written. */
const VALUES: Readonly<Record<string, RegExp>> = {
  xmlns: /^http:\/\/www\.w3\.org\/2000\/svg$/,
  class: /^gx-[a-z-]+$|^gx gx-(?:auto|light|dark)$/,
  role: /^img$/,
  id: /^gx-[\da-f]{8}-(?:title|desc)$/,
  'aria-labelledby': /^gx-[\da-f]{8}-title gx-[\da-f]{8}-desc$/,
  'data-part': /^[a-z-]+$/,
  'text-anchor': /^(?:middle|end)$/,
  'font-family': /^system-ui,sans-serif$/,
  'font-size': /^\d+px$/,
  viewBox: /^[\d. ]+$/,
  transform: /^translate\([\d. e+-]+\)$/,
  d: /^[MLAZ\d .e+-]+$/,
  ...Object.fromEntries(['x', 'y', 'x1', 'y1', 'x2', 'y2', 'cx', 'cy', 'r', 'width', 'height'].map((x) => [x, NUMBER])),
};

const PIECE = /<\/([a-z]+)>|<([a-z]+)((?: [A-Za-z\d-]+="[^"<>]*")*)(\/?)>|([^<>]+)/y;
const ATTRIBUTE = / ([A-Za-z\d-]+)="([^"]*)"/g;
const SIGNS: Readonly<Record<string, string>> = Object.fromEntries(
  Object.entries(ENTITIES).map(([sign, entity]) => [entity, sign]),
);

interface Open {
  readonly tag: Tag | '';
  readonly attributes: Element['attributes'];
  readonly children: (Element | string)[];
}

/** Whether the text is a figure of this kit, whole and unchanged but for white space round about. */
export function isOwnFigure(text: string): boolean {
  const figure = text.trim();
  const [root, ...more] = readElements(figure) ?? [];
  return typeof root === 'object' && more.length === 0 && write(root) === figure;
}

function readElements(text: string): readonly (Element | string)[] | undefined {
  const stack: Open[] = [{ tag: '', attributes: {}, children: [] }];
  for (let at = 0; at < text.length; at = PIECE.lastIndex) {
    PIECE.lastIndex = at;
    const piece = PIECE.exec(text);
    const inner = stack.at(-1);
    if (!piece || !inner) return undefined;
    const [, closed, opened, given = '', single, words] = piece;
    if (words !== undefined) {
      const said = words.replace(/&[^;]*;/g, (entity) => SIGNS[entity] ?? entity);
      if (inner.tag === 'style' ? said !== STYLE : !WORDS.includes(inner.tag)) return undefined;
      inner.children.push(said);
    } else if (opened !== undefined) {
      const attributes = attributesOf(given);
      if (!WITHIN[inner.tag]?.includes(opened as Tag) || !attributes) return undefined;
      if (single) inner.children.push({ tag: opened as Tag, attributes, children: [] });
      else stack.push({ tag: opened as Tag, attributes, children: [] });
    } else {
      stack.pop();
      if (inner.tag !== closed) return undefined;
      stack.at(-1)?.children.push(inner as Element);
    }
  }
  return stack.length === 1 ? stack[0]?.children : undefined;
}

/** The attributes of an element without those that its class brings; undefined if one is strange. */
function attributesOf(given: string): Element['attributes'] | undefined {
  const pairs = [...given.matchAll(ATTRIBUTE)].map(([, name = '', value = '']) => [name, value] as const);
  const look = painted(pairs.find(([name]) => name === 'class')?.[1] ?? '');
  const own = pairs.filter(([name]) => !Object.hasOwn(look, name));
  const known = own.every(([name, value]) => Object.hasOwn(VALUES, name) && VALUES[name]?.test(value));
  return known ? Object.fromEntries(own) : undefined;
}
