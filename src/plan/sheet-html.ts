/** A sheet as one HTML page: style and drawings inside, nothing fetched, nothing run; prints on A4 or Letter. */
import { escaped } from '../draw/svg.js';
import { KINDS, tableCells } from './markdown.js';
import type { SheetBlank, SheetContent, SheetStep } from './sheet-content.js';
import { rule } from './sheet-steps.js';
import { ASSUMED } from './words.js';

/** Paper for printing. */
type Paper = 'a4' | 'letter';

const SIZES: Readonly<Record<Paper, string>> = { a4: 'A4', letter: 'letter' };

// Drawings print in the size in which they were drawn, so that their words stay as high as they are meant to be.
const style = (paper: Paper): string => `
:root { color-scheme: light dark; --ink: #1b1d1f; --paper: #fdfdfb; --rule: #b9bdb8; --soft: #565c58; --warn: #8a3b00; --wash: #f6efe6; }
@media (prefers-color-scheme: dark) { :root { --ink: #e6e7e3; --paper: #16181a; --rule: #4a4f4d; --soft: #a7ada9; --warn: #ffb27a; --wash: #2a2119; } }
* { box-sizing: border-box; }
body { margin: 0 auto; max-width: 60rem; padding: 1rem; color: var(--ink); background: var(--paper); font: 1rem/1.4 system-ui, sans-serif; overflow-wrap: break-word; }
h1 { font-size: 1.6rem; line-height: 1.2; margin: 0 0 .5rem; }
h2 { font-size: 1.1rem; margin: 1rem 0 .3rem; border-bottom: 1px solid var(--rule); }
dl { display: grid; grid-template-columns: max-content 1fr; gap: .1rem .8rem; margin: .6rem 0 0; }
dt { color: var(--soft); } dd { margin: 0; min-width: 0; }
ol, ul { margin: 0; padding-left: 1.6rem; } li { margin: .25rem 0; }
.settings { border: 2px solid var(--ink); padding: .2rem .8rem .5rem; font-weight: 600; } .settings h2 { border: 0; margin: .3rem 0; }
.caution { border-left: 4px solid var(--warn); background: var(--wash); color: var(--warn); padding: .1rem .5rem; margin: .2rem 0; }
.blank { margin: .3rem 0; } .blank i { display: inline-block; min-width: 7em; border-bottom: 1px solid var(--ink); }
@media screen and (max-width: 40rem) { .wide thead { display: none; } .wide tr { display: block; margin: .3rem 0; } .wide td { display: block; border: 0; } .wide td::before { content: attr(data-of) ": "; color: var(--soft); } }
table { border-collapse: collapse; font-variant-numeric: tabular-nums; }
th, td { border: 1px solid var(--rule); padding: .1rem .5rem; text-align: left; vertical-align: top; }
.positions { columns: 14rem; } .positions thead { display: none; } .positions table { width: 100%; } .positions td, .positions th { text-align: right; }
figure { margin: .8rem 0 0; } figure svg { display: block; max-width: 100%; height: auto; }
figcaption, .note { color: var(--soft); font-size: .9rem; }
@media (min-width: 52rem) { figure { float: right; margin: 0 0 1rem 1rem; max-width: 50%; } }
@page { size: ${SIZES[paper]}; margin: 9mm; }
@media print {
  :root { color-scheme: light; --ink: #000; --paper: #fff; --rule: #999; --soft: #333; --warn: #000; --wash: #fff; }
  body { padding: 0; max-width: none; font: 9pt/1.2 Arial, Helvetica, "Liberation Sans", "DejaVu Sans Condensed", sans-serif; }
  h1 { font-size: 13pt; margin: 0 0 1mm; } h2 { font-size: 9pt; margin: 1.4mm 0 .5mm; break-after: avoid; }
  dl { margin-top: 1mm; gap: 0 2mm; } ul { padding-left: 4mm; } ol { padding-left: 6.5mm; } li { margin: .3mm 0; break-inside: avoid; }
  .settings { padding: 0 2mm 1mm; border-width: 1.5pt; } .settings h2 { margin: .6mm 0 0; }
  .caution { padding: 0 1.5mm; margin: .2mm 0; border-width: 2pt; font-style: italic; }
  .blank { margin: .8mm 0 .4mm; } .blank i { min-width: 22mm; }
  th, td { padding: 0 1.2mm; } figure { float: right; margin: 0 0 2mm 3mm; max-width: none; break-inside: avoid; }
  figure svg { max-width: 192mm; } figcaption { display: none; } .note { font-size: inherit; margin: .4mm 0 0; }
  .small ul { columns: 2; column-gap: 5mm; }
  .positions { columns: 3; font-size: 8pt; line-height: 1.05; } .positions tr { break-inside: avoid; }
}`;

/** Writes a sheet as a page. */
export function sheetHtml(content: SheetContent, paper: Paper): string {
  const { title, facts, settings, steps, expected, cautions, assumed, figures } = content;
  const table = (columns: readonly string[], rows: readonly (readonly string[])[]): string =>
    `<table><thead><tr>${columns.map((one) => `<th scope="col">${escaped(one)}</th>`).join('')}</tr></thead><tbody>${rows
      .map(
        (row) =>
          `<tr>${row.map((one, i) => `<td data-of="${escaped(columns[i] ?? '')}">${escaped(one)}</td>`).join('')}</tr>`,
      )
      .join('')}</tbody></table>`;
  const list = (lines: readonly string[]): string =>
    `<ul>${lines.map((one) => `<li>${escaped(one)}</li>`).join('\n')}</ul>`;
  const blank = ({ what, passes, otherwise }: SheetBlank): string =>
    `<p class="blank">${escaped(what)} <i></i>${escaped(rule(passes, otherwise))}</p>`;
  const step = ({ kind, text, table: positions, blanks, cautions: own }: SheetStep): string =>
    `<li><strong>${KINDS[kind]}.</strong> ${escaped(text)}${
      positions
        ? `<p class="note">${escaped(['No.', ...positions.columns].join(' | '))}</p><div class="positions">${table(['No.', ...positions.columns], tableCells(positions))}</div>`
        : ''
    }${blanks.map(blank).join('')}${own.map((one) => `<p class="caution">${escaped(one)}</p>`).join('')}</li>`;
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<title>${escaped(title)}</title>
<style>${style(paper)}
</style>
</head>
<body>
<main>
<h1>${escaped(title)}</h1>
<section class="settings"><h2>Settings</h2>${list(settings)}</section>
<dl>${facts.map(([name, value]) => `<dt>${name}</dt><dd>${escaped(value)}</dd>`).join('')}</dl>
${figures.map((one) => `<figure>${one.svg}<figcaption>${escaped(one.title)}</figcaption></figure>`).join('\n')}
<section><h2>Order of work</h2><ol>
${steps.map(step).join('\n')}
</ol></section>
<section><h2>Expected error</h2><div class="wide">${table(expected.columns, expected.rows)}</div></section>
<section class="small"><p class="note">${assumed.length === 0 ? ASSUMED.none : ASSUMED.some}</p>
${assumed.length === 0 ? '' : list(assumed)}</section>
<section class="small"><h2>Cautions</h2>${list(cautions)}</section>
</main>
</body>
</html>
`;
}
