/**
 * The looks of all figures, each told once. They are written twice into a figure: as attributes of each element,
 * in light colours, which hold wherever styles are not allowed; and as one style sheet, which brings the dark theme.
 * Every class begins with `gx`, since a style within an SVG that stands in a page holds for the whole page; a page
 * may set the `--gx-…` colours itself. On paper the figures are light.
 */

/** Colours, light and dark. */
const COLOURS = {
  paper: ['#ffffff', '#11171e'],
  ink: ['#1b2430', '#e7edf3'],
  soft: ['#566270', '#a3b1bf'],
  faint: ['#c9d1d9', '#3a4653'],
  work: ['#e3e9ef', '#26313c'],
  machine: ['#b9c4cf', '#465361'],
  accent: ['#0a5ca8', '#6cb6ff'],
  alert: ['#b23c06', '#ff9d5c'],
} as const;

type Colour = keyof typeof COLOURS;

interface Paint {
  readonly fill: Colour | 'none';
  readonly stroke?: Colour;
  /** Properties that may be attributes too. */
  readonly more?: Readonly<Record<string, string | number>>;
}

/** What an element looks like: the class that it bears. */
export type Look =
  | 'gx-heading'
  | 'gx-meaning'
  | 'gx-value'
  | 'gx-note'
  | 'gx-symbol'
  | 'gx-tag'
  | 'gx-name'
  | 'gx-paper'
  | 'gx-work'
  | 'gx-body'
  | 'gx-machine'
  | 'gx-slide'
  | 'gx-tool'
  | 'gx-ink'
  | 'gx-bar'
  | 'gx-axis'
  | 'gx-dimension'
  | 'gx-leader'
  | 'gx-grid'
  | 'gx-mark'
  | 'gx-wanted'
  | 'gx-sweep'
  | 'gx-cut'
  | 'gx-over'
  | 'gx-over-thin'
  | 'gx-alert';

/** Size of the body text, pixels: capitals of usual faces are then 2.6 mm high on paper, above the 2.5 of ISO 3098. */
export const TEXT_SIZE = 14;
/** Size of the heading. */
export const HEADING_SIZE = 16;

const FACE = 'system-ui,sans-serif';
const SYMBOL = { 'font-style': 'italic', 'font-weight': 600 };
/** Words that stand in a drawing have the paper round about. */
const HALO = { 'paint-order': 'stroke', 'stroke-width': 4, 'stroke-linejoin': 'round' };

const LOOKS: Readonly<Record<Look, Paint>> = {
  'gx-heading': { fill: 'ink', more: { 'font-size': `${HEADING_SIZE}px`, 'font-weight': 600 } },
  'gx-meaning': { fill: 'ink' },
  'gx-value': { fill: 'ink' },
  'gx-note': { fill: 'soft' },
  'gx-symbol': { fill: 'accent', more: SYMBOL },
  'gx-tag': { fill: 'accent', stroke: 'paper', more: { ...SYMBOL, ...HALO } },
  'gx-name': { fill: 'ink', stroke: 'paper', more: HALO },
  'gx-paper': { fill: 'paper' },
  'gx-work': { fill: 'work', stroke: 'ink', more: { 'stroke-width': 1.5, 'stroke-linejoin': 'round' } },
  'gx-body': { fill: 'work' },
  'gx-machine': { fill: 'machine', stroke: 'soft', more: { 'stroke-linejoin': 'round' } },
  'gx-slide': { fill: 'none', stroke: 'machine', more: { 'stroke-width': 10 } },
  'gx-tool': { fill: 'accent' },
  'gx-ink': { fill: 'ink' },
  'gx-bar': { fill: 'accent' },
  'gx-axis': { fill: 'none', stroke: 'soft', more: { 'stroke-dasharray': '12 3 2 3' } },
  'gx-dimension': { fill: 'none', stroke: 'accent' },
  'gx-leader': { fill: 'none', stroke: 'soft', more: { 'stroke-width': 0.75 } },
  'gx-grid': { fill: 'none', stroke: 'faint' },
  'gx-mark': { fill: 'none', stroke: 'ink' },
  'gx-wanted': { fill: 'none', stroke: 'soft', more: { 'stroke-width': 1.25, 'stroke-dasharray': '5 3' } },
  'gx-sweep': { fill: 'none', stroke: 'ink', more: { 'stroke-width': 2 } },
  'gx-cut': {
    fill: 'none',
    stroke: 'accent',
    more: { 'stroke-width': 2.5, 'stroke-linecap': 'round', 'stroke-linejoin': 'round' },
  },
  'gx-over': { fill: 'none', stroke: 'alert', more: { 'stroke-width': 3, 'stroke-linecap': 'round' } },
  'gx-over-thin': { fill: 'none', stroke: 'alert', more: { 'stroke-width': 1.5 } },
  'gx-alert': { fill: 'alert', stroke: 'alert' },
};

/** The attributes of a whole figure's text. */
export const TEXT: Readonly<Record<string, string | number>> = { 'font-family': FACE, 'font-size': `${TEXT_SIZE}px` };

/** The attributes of a look, in light colours; none for a class that is no look. */
export function painted(look: string): Readonly<Record<string, string | number>> {
  if (!Object.hasOwn(LOOKS, look)) return {};
  const { fill, stroke, more = {} } = LOOKS[look as Look];
  const light = (colour: Colour | 'none'): string => (colour === 'none' ? colour : COLOURS[colour][0]);
  return { fill: light(fill), ...(stroke && { stroke: light(stroke) }), ...more };
}

const colours = (dark: 0 | 1): string =>
  Object.entries(COLOURS)
    .map(([name, pair]) => `--gx-${name}:${pair[dark]}`)
    .join(';');

/** The style sheet. It holds no character that XML or HTML would read as markup. */
export const STYLE: string = [
  `.gx,.gx-light{${colours(0)}}`,
  `.gx-dark{${colours(1)}}`,
  `@media screen and (prefers-color-scheme:dark){.gx-auto{${colours(1)}}}`,
  `.gx{font:${TEXT_SIZE}px/1.3 ${FACE};max-width:100%;height:auto}`,
  '.gx .gx-value{font-variant-numeric:tabular-nums}',
  ...Object.entries(LOOKS).map(([look, { fill, stroke = 'none', more = {} }]) => {
    const colour = (name: string): string => (name === 'none' ? name : `var(--gx-${name})`);
    const rest = Object.entries(more).map(([property, value]) => `;${property}:${value}`);
    return `.gx .${look}{fill:${colour(fill)};stroke:${colour(stroke)}${rest.join('')}}`;
  }),
].join('');
