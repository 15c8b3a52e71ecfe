/** English phrases of spheres' sheets and what each stands for: control and way, what is off, what is touched. */

const UNIT = '(?:mm|in|°|minutes of arc)';
const N = `(\\d+(?:\\.\\d+)?) ${UNIT}`;

/** What a phrase orders: control and way, or control and what is done to it. */
export type Phrase = readonly [pattern: string, ...orders: string[]];

/** Phrases; each may stand in a sentence more than once. */
export const PHRASES: readonly Phrase[] = [
  ['move the table to the left', 'table left'],
  ['move the table to the right', 'table right'],
  ['raise the table', 'knee up'],
  ['lower the table', 'knee down'],
  ['feed along the spindle', 'quill forward'],
  [`feed ${N} further than to zero`, 'quill forward'],
  [`feed ${N} less far than to zero`, 'quill back'],
  [`while the quill goes ${N} down`, 'quill forward'],
  ['draw the tool back along the spindle', 'quill back'],
  ['turn the head clockwise', 'head clockwise'],
  ['turn the head anticlockwise', 'head anticlockwise'],
  ['upper end to the right: clockwise seen from the front', 'head clockwise'],
  ['upper end to the left: anticlockwise seen from the front', 'head anticlockwise'],
  ['open the sweep', 'boring-head open'],
  ['close the sweep', 'boring-head close'],
  ['coming up from below', 'boring-head below'],
  ["lengthen the swivel's radius", 'swivel-tool open'],
  ["shorten the swivel's radius", 'swivel-tool close'],
  ['move the carriage towards the headstock', 'carriage headstock'],
  ['move the carriage towards the tailstock', 'carriage tailstock'],
  ['past zero, towards the headstock', 'carriage headstock'],
  ['short of zero, towards the tailstock', 'carriage tailstock'],
  ['move the cross slide towards you', 'cross-slide operator'],
  ['move the cross slide away from you', 'cross-slide away-from-operator'],
  ['free end up', 'rotary-table up'],
  ['free end on the right seen from the front', 'rotary-table right'],
  ['nearest the free end, the highest of its circle', 'spindle up'],
  ['nearest the free end, the one farthest to the right on its circle', 'spindle right'],
  ['deepest in the work, the lowest of its circle', 'spindle down'],
  ['deepest in the work, the one farthest to the left on its circle', 'spindle left'],
  ['into line with the axis, on the side towards the tailstock', 'swivel-tool tailstock'],
  ['into line with the axis, on the side towards the headstock', 'swivel-tool headstock'],
  ['square to the axis, on your side', 'swivel-tool operator'],
  ['through 180° from your side of the cylinder to the far one', 'swivel-tool away-from-operator'],
  ['counted from the axis on the side of the tailstock', 'first-stop tailstock', 'last-stop tailstock'],
  ['counted from the axis on the side of the headstock', 'first-stop headstock', 'last-stop headstock'],
  ['under its left roller', 'gauge-blocks left'],
  ['under its right roller', 'gauge-blocks right'],
  ['short of the centre, to the right of it', 'pip right'],
  ['short of the centre, to the left of it', 'pip left'],
  ['short of the centre, above it', 'pip up'],
  ['short of the centre, below it', 'pip down'],
  ['added to each', 'shift from-axis'],
  ['taken from each', 'shift to-axis'],
  ['nearer to the axis than the table says', 'positions to-axis'],
  ['farther from the axis than the table says', 'positions from-axis'],
  ['each cut running towards the headstock', 'running headstock'],
  ['each cut running towards the tailstock', 'running tailstock'],
  ["lock the table's movement to left and right", 'table lock'],
  ["free the table's movement to left and right", 'table unlock'],
  ["lock the table's movement to and from you", 'saddle lock'],
  ["free the table's movement to and from you", 'saddle unlock'],
  ["lock the table's height", 'knee lock'],
  ["free the table's height", 'knee unlock'],
  ["lock the spindle's feed", 'quill lock'],
  ["free the spindle's feed", 'quill unlock'],
  ['(?<!spindle and )clamp the head', 'head lock'],
  ['loosen its clamps', 'head unlock'],
  ["tighten the boring head's slide", 'boring-head lock'],
  ["loosen the boring head's slide", 'boring-head unlock'],
  ['lock the carriage', 'carriage lock'],
  ['free the carriage', 'carriage unlock'],
  ['lock the cross slide', 'cross-slide lock'],
  ['free the cross slide', 'cross-slide unlock'],
  ['against a level block on the table, its plunger upright', 'against level-face'],
  ['against the upright side of a square that stands on its left, its plunger level', 'against square-on-left'],
  ['down along the top of the bar, its plunger square to it', 'against sine-bar'],
  ['down along the upright side of a square that stands on the bar, on its left', 'against square-on-sine-bar'],
  ['with a true cylinder in the spindle', 'against cylinder'],
  ['must be pushed in by', 'needle in'],
  ['must come out by', 'needle out'],
  ['must stand still|must read the same', 'needle still'],
];

/** What is said of something measured for which a change is told. */
export const OFF: readonly Phrase[] = [
  [`for every ${N} that [a-z ]*(?:larger|wider|too large|moves more|pushed in)`, 'too-large'],
  [`for every ${N} that [a-z ]*(?:smaller|narrower|too small|moves less|comes out)`, 'too-small'],
];

/** The other way round, which must be told of the opposite. */
export const OTHERWISE: readonly Phrase[] = [
  ['(?:larger|wider|too large|more): as much (?:the other way|farther from it)', 'too-small'],
  ['(?:smaller|narrower|too small|less): as much (?:the other way|farther from it)', 'too-large'],
  ['the other way: as much back', 'too-large', 'too-small'],
];

/** Where a cutter cuts, and so which way the first column of its table counts. */
export const CUTS: readonly Phrase[] = [
  ['cut on the right of the work only, where the shank leans away from it', 'right'],
  ['cut above the work only, in the plane of its axis', 'up'],
  ['the cutter enters along the work axis', 'right', 'up'],
];

/** Things touched. */
export const TOUCHED: readonly Phrase[] = [
  ['touch(?:es)? the end face', 'end-face'],
  ['touch(?:es)? the shoulder', 'shoulder'],
  ['touch(?:es)? the stem', 'free-stem'],
  ['touch(?:es)? a turned diameter', 'turned-diameter'],
];

const PATTERNS = new Map(
  [...PHRASES, ...OFF, ...OTHERWISE, ...CUTS, ...TOUCHED].map(([pattern]) => [
    pattern,
    // An amount behind it belongs to it.
    new RegExp(`(?<![a-z])(?:${pattern})(?![a-z])(?: by ${N})?`, 'gi'),
  ]),
);

/** All that phrases of a text say, each as often as it stands there, with its amount. */
export function found(
  text: string,
  phrases: readonly Phrase[],
): readonly { order: string; amount: string | undefined }[] {
  return phrases.flatMap(([pattern, ...orders]) =>
    [...text.matchAll(PATTERNS.get(pattern) as RegExp)].flatMap((match) =>
      orders.map((order) => ({ order, amount: match.slice(1).find((one) => one !== undefined) })),
    ),
  );
}

export function said(text: string, phrases: readonly Phrase[]): readonly string[] {
  return found(text, phrases).map(({ order }) => order);
}
