/** What a careless or hostile caller makes of a valid call: one place of one argument at a time. */
import type { Args, Call } from './calls.js';
import { below, type Kind, type Shape, type Signature } from './shapes.js';
import { isPlainObject, kindOf, type Path, told, withPlace } from './values.js';

/** One changed call. */
export interface Mutation {
  /** What was done. */
  readonly what: string;
  /** Which argument, and where in it. */
  readonly position: number;
  readonly path: Path;
  readonly args: Args;
  /** Codes of which one must be given, with exactly this path; none: a sound result will do, too. */
  readonly codes?: readonly string[];
  /** A refusal, if it is one, must name exactly this path. */
  readonly exact: boolean;
}

const WRONG_KINDS: readonly (readonly [Kind, unknown])[] = [
  ['string', 'text'],
  ['number', 7],
  ['boolean', true],
  ['null', null],
  ['array', []],
  ['object', {}],
  ['function', () => 1],
];

/** A place of a call and what the types say of it. */
export interface Place {
  readonly position: number;
  readonly path: Path;
  readonly value: unknown;
  readonly shapes: readonly Shape[];
  /** It stands in a result of the library that is handed back to it. */
  readonly handedBack: boolean;
  /** The path with `*` for a key of the caller's own and `0` for every item: places of one name are alike. */
  readonly name: string;
}

/** The name of a place below another. */
export const nameBelow = ({ name, shapes }: Pick<Place, 'name' | 'shapes'>, step: string | number): string =>
  `${name}.${shapes.some(({ objects }) => objects.some(({ keys, open }) => open && !keys.has(String(step)))) ? '*' : step}`;

/** Every place of a call; of arrays the first item. */
export function* places(call: Call, { parameters }: Signature): Generator<Place> {
  function* from(place: Place): Generator<Place> {
    const { position, path, value, shapes, handedBack } = place;
    const back = handedBack || call.handedBack.has(`${position}:${told(path)}`);
    yield { ...place, handedBack: back };
    const steps = Array.isArray(value) ? [0] : isPlainObject(value) ? Object.keys(value) : [];
    for (const step of steps) {
      const part = (value as Record<string | number, unknown>)[step];
      if (part === undefined) continue;
      yield* from({
        position,
        path: [...path, step],
        value: part,
        shapes: below(shapes, step),
        handedBack: back,
        name: nameBelow(place, step),
      });
    }
  }
  for (const [position, value] of call.args.entries()) {
    const shape = parameters[position]?.shape;
    yield* from({ position, path: [], value, shapes: shape ? [shape] : [], handedBack: false, name: `${position}` });
  }
}

/** Every mutation of one place. */
export function* mutations(args: Args, place: Place): Generator<Mutation> {
  const { position, path, value, shapes, handedBack } = place;
  const make = (what: string, changed: unknown, codes?: readonly string[], at: Path = path): Mutation => ({
    what,
    position,
    path: at,
    args: args.map((arg, i) => (i === position ? withPlace(arg, path, changed) : arg)),
    ...(codes && !handedBack && { codes }),
    exact: codes !== undefined && !handedBack,
  });
  const permitted = new Set<string>(shapes.flatMap(({ kinds }) => [...kinds]));
  const opaque = shapes.length === 0 || shapes.some((shape) => shape.opaque);
  const kind = kindOf(value);

  if (path.length > 0 && typeof path.at(-1) === 'string') yield make('missing', undefined);
  for (const [wrong, stand] of WRONG_KINDS) {
    if (wrong === kind || permitted.has(wrong)) continue;
    // An object of the platform, a type parameter: any refusal of the place will do.
    yield make(`a wrong kind, ${wrong},`, stand, opaque ? undefined : ['wrong-kind']);
  }
  if (typeof value === 'number') {
    yield make('NaN', Number.NaN, ['not-finite']);
    for (const wild of [Infinity, -Infinity]) yield { ...make(`${wild}`, wild), exact: !handedBack };
    const wilder = [-value, 0, -0, 1e308, -1e308, 5e-324, -5e-324, value * 1e9, value + 0.5];
    for (const wild of wilder)
      if (!Object.is(wild, value)) yield make(`the number ${Object.is(wild, -0) ? '-0' : wild}`, wild);
  } else if (typeof value === 'string') {
    const words = new Set(shapes.flatMap((shape) => [...shape.words]));
    if (words.size > 0) yield make('a word that is no choice', 'zzz', ['out-of-range', 'no-data', 'unreadable']);
    else
      for (const text of ['', ' ', 'x'.repeat(100_000), '\u0000\u202e']) yield make(`the text of ${text.length}`, text);
    for (const word of words) if (word !== value) yield make(`the word ${word}`, word);
  } else if (typeof value === 'boolean') yield make(`${!value}`, !value);
  else if (Array.isArray(value)) {
    yield make('no items', []);
    const hole = [...value];
    delete hole[0];
    if (value.length > 0) yield make('a hole', hole, [], [...path, 0]);
    if (value.length > 0) yield make('one item', value.slice(0, 1));
  } else if (isPlainObject(value)) {
    const open = opaque || shapes.some(({ objects }) => objects.some((object) => object.open));
    yield make('an unknown key', { ...value, zzz: 1 }, open ? undefined : ['unknown-option'], [...path, 'zzz']);
    yield make('no own keys', Object.create(value));
    yield make('no keys', {});
  } else if (typeof value === 'function') {
    yield make('a function that gives NaN', () => Number.NaN);
    yield make('a function that gives text', () => 'text');
  }
}
