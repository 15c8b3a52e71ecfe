/**
 * The looks of all figures: one style sheet, written into each figure, in light and dark. Every class
 * begins with `gx`, since a style within an SVG that stands in a page holds for the whole page; a page may
 * set the `--gx-…` colours itself. On paper the figures are light.
 */

const LIGHT =
  '--gx-paper:#ffffff;--gx-ink:#1b2430;--gx-soft:#566270;--gx-faint:#c9d1d9;--gx-work:#e3e9ef;--gx-machine:#b9c4cf;--gx-accent:#0a5ca8;--gx-alert:#b23c06';
const DARK =
  '--gx-paper:#11171e;--gx-ink:#e7edf3;--gx-soft:#a3b1bf;--gx-faint:#3a4653;--gx-work:#26313c;--gx-machine:#465361;--gx-accent:#6cb6ff;--gx-alert:#ff9d5c';

/** Size of the body text, pixels. */
export const TEXT_SIZE = 13;
/** Size of the heading. */
export const HEADING_SIZE = 15;

/** The style sheet. It holds no character that XML or HTML would read as markup. */
export const STYLE: string = [
  `.gx,.gx-light{${LIGHT}}`,
  `.gx-dark{${DARK}}`,
  `@media screen and (prefers-color-scheme:dark){.gx-auto{${DARK}}}`,
  `.gx{font:${TEXT_SIZE}px/1.3 system-ui,sans-serif;max-width:100%;height:auto}`,
  '.gx text{fill:var(--gx-ink);stroke:none}',
  `.gx .gx-heading{font-size:${HEADING_SIZE}px;font-weight:600}`,
  '.gx .gx-value{font-variant-numeric:tabular-nums}',
  '.gx .gx-note{fill:var(--gx-soft)}',
  '.gx .gx-alert-text{fill:var(--gx-alert)}',
  '.gx .gx-symbol{font-style:italic;font-weight:600;fill:var(--gx-accent)}',
  '.gx .gx-tag{font-style:italic;font-weight:600;fill:var(--gx-accent);paint-order:stroke;stroke:var(--gx-paper);stroke-width:4px;stroke-linejoin:round}',
  '.gx-paper{fill:var(--gx-paper)}',
  '.gx-work{fill:var(--gx-work);stroke:var(--gx-ink);stroke-width:1.5;stroke-linejoin:round}',
  '.gx-machine{fill:var(--gx-machine);stroke:var(--gx-soft);stroke-width:1;stroke-linejoin:round}',
  '.gx-tool{fill:var(--gx-accent);stroke:none}',
  '.gx-axis{fill:none;stroke:var(--gx-soft);stroke-width:1;stroke-dasharray:12 3 2 3}',
  '.gx-dimension{fill:none;stroke:var(--gx-accent);stroke-width:1}',
  '.gx-leader{fill:none;stroke:var(--gx-soft);stroke-width:.75}',
  '.gx-wanted{fill:none;stroke:var(--gx-soft);stroke-width:1.25;stroke-dasharray:5 3}',
  '.gx-cut{fill:none;stroke:var(--gx-accent);stroke-width:2.5;stroke-linecap:round;stroke-linejoin:round}',
  '.gx-over{fill:none;stroke:var(--gx-alert);stroke-width:3;stroke-linecap:round}',
  '.gx-over-thin{fill:none;stroke:var(--gx-alert);stroke-width:1.5}',
  '.gx-slide{fill:none;stroke:var(--gx-machine);stroke-width:10}',
  '.gx-body{fill:var(--gx-work);stroke:none}',
  '.gx-sweep{fill:none;stroke:var(--gx-ink);stroke-width:2}',
  '.gx-alert{fill:var(--gx-alert);stroke:var(--gx-alert);stroke-width:1}',
  '.gx-mark{fill:none;stroke:var(--gx-ink);stroke-width:1}',
  '.gx-grid{fill:none;stroke:var(--gx-faint);stroke-width:1}',
  '.gx-bar{fill:var(--gx-accent);stroke:none}',
].join('');
