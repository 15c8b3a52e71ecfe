/** A sheet as one HTML page: style and drawings inside, nothing fetched, nothing run; prints on A4. */
import { escaped } from '../draw/svg.js';
import type { Step } from '../method/steps.js';
import { KINDS, tableCells } from './markdown.js';
import type { SheetContent } from './sheet-content.js';
import { ASSUMED } from './words.js';

const STYLE = `
:root { color-scheme: light dark; --ink: #1b1d1f; --paper: #fdfdfb; --rule: #b9bdb8; --soft: #565c58; --warn: #8a3b00; --wash: #f6efe6; }
@media (prefers-color-scheme: dark) { :root { --ink: #e6e7e3; --paper: #16181a; --rule: #4a4f4d; --soft: #a7ada9; --warn: #ffb27a; --wash: #2a2119; } }
* { box-sizing: border-box; }
body { margin: 0 auto; max-width: 60rem; padding: 1rem; color: var(--ink); background: var(--paper); font: 1rem/1.4 system-ui, sans-serif; overflow-wrap: break-word; }
h1 { font-size: 1.6rem; line-height: 1.2; margin: 0 0 .5rem; }
h2 { font-size: 1.1rem; margin: 1rem 0 .3rem; border-bottom: 1px solid var(--rule); }
dl { display: grid; grid-template-columns: max-content 1fr; gap: .1rem .8rem; margin: 0; }
dt { color: var(--soft); } dd { margin: 0; min-width: 0; }
ol, ul { margin: 0; padding-left: 1.6rem; } li { margin: .15rem 0; }
.cautions { background: var(--wash); border-left: 4px solid var(--warn); padding: .2rem .8rem .5rem; margin-top: .8rem; }
.cautions h2 { border: 0; margin: .3rem 0; color: var(--warn); }
.settings { border: 2px solid var(--ink); padding: .2rem .8rem .5rem; margin-top: .8rem; font-weight: 600; } .settings h2 { border: 0; margin: .3rem 0; }
.wide { overflow-x: auto; }
table { border-collapse: collapse; font-variant-numeric: tabular-nums; }
th, td { border: 1px solid var(--rule); padding: .1rem .5rem; text-align: left; vertical-align: top; }
.positions { columns: 14rem; } .positions table { width: 100%; } .positions td, .positions th { text-align: right; }
.figures { display: flex; flex-wrap: wrap; gap: 1rem; } figure { margin: 0; flex: 1 1 16rem; min-width: 0; }
figure svg { display: block; max-width: 100%; height: auto; } figcaption, .note { color: var(--soft); font-size: .9rem; }
@page { size: A4; margin: 9mm; }
@media print {
  :root { color-scheme: light; --ink: #000; --paper: #fff; --rule: #999; --soft: #333; --warn: #000; --wash: #fff; }
  body { padding: 0; max-width: none; font-size: 9pt; line-height: 1.22; }
  h1 { font-size: 13pt; margin: 0 0 1mm; } h2 { font-size: 9pt; margin: 1.6mm 0 .6mm; break-after: avoid; }
  li { margin: .2mm 0; break-inside: avoid; } .cautions { padding: 0 2mm 1mm; margin-top: 1.5mm; } .cautions ul { columns: 2; column-gap: 5mm; }
  .cautions h2 { margin: .6mm 0; } th, td { padding: 0 1.2mm; } .figures { gap: 3mm; } figure { flex: 0 1 80mm; break-inside: avoid; }
  figcaption, .note { font-size: inherit; margin: .6mm 0 0; }
  .positions { columns: 4; font-size: 6.6pt; line-height: 1.05; } .positions tr { break-inside: avoid; }
}`;

/** Writes a sheet as a page. */
export function sheetHtml(content: SheetContent): string {
  const { title, facts, settings, steps, expected, cautions, assumed, figures } = content;
  const cells = (tag: 'th' | 'td', values: readonly string[]): string =>
    values.map((value) => `<${tag}${tag === 'th' ? ' scope="col"' : ''}>${escaped(value)}</${tag}>`).join('');
  const table = (columns: readonly string[], rows: readonly (readonly string[])[]): string =>
    `<table><thead><tr>${cells('th', columns)}</tr></thead><tbody>${rows.map((row) => `<tr>${cells('td', row)}</tr>`).join('')}</tbody></table>`;
  const step = ({ kind, text, table: positions }: Step): string =>
    `<li><strong>${KINDS[kind]}.</strong> ${escaped(text)}${positions ? `<div class="positions">${table(['No.', ...positions.columns], tableCells(positions))}</div>` : ''}</li>`;
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<title>${escaped(title)}</title>
<style>${STYLE}
</style>
</head>
<body>
<main>
<h1>${escaped(title)}</h1>
<dl>${facts.map(([name, value]) => `<dt>${name}</dt><dd>${escaped(value)}</dd>`).join('')}</dl>
<section class="settings"><h2>Settings</h2><ul>${settings.map((one) => `<li>${escaped(one)}</li>`).join('')}</ul></section>
<section class="cautions"><h2>Cautions</h2><ul>
${cautions.map(({ message }) => `<li>${escaped(message)}</li>`).join('\n')}
</ul></section>
<section><h2>Order of work</h2><ol>
${steps.map(step).join('\n')}
</ol></section>
<section><h2>Expected error</h2><div class="wide">${table(expected.columns, expected.rows)}</div>
<p class="note">${assumed.length === 0 ? ASSUMED.none : ASSUMED.some}</p>
${assumed.length === 0 ? '' : `<ul class="note">${assumed.map((one) => `<li>${escaped(one)}</li>`).join('')}</ul>`}</section>
${figures.length === 0 ? '' : `<section><h2>Drawings</h2><div class="figures">${figures.map((one) => `<figure>${one.svg}<figcaption>${escaped(one.title)}</figcaption></figure>`).join('\n')}</div></section>`}
</main>
</body>
</html>
`;
}
