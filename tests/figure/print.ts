/**
 * Prints the sheets of many jobs as people see them, to be looked at: `npm run gallery` writes into reports/gallery.
 * Each job as HTML, as PDF on A4 and Letter, and at 360 px light, dark and grey; pages of the PDF as pictures where
 * `pdftoppm` is on the PATH.
 */
import { spawnSync } from 'node:child_process';
import { mkdirSync, writeFileSync } from 'node:fs';
import { planFigure, planJob, shopSheet } from 'generatrix';
import { startBrowser } from '../oracle/browser.js';
import { PRINT_JOBS } from './print-jobs.js';

/** Makes pictures of a PDF's pages. */
const PICTURES = process.env['PDFTOPPM'] ?? 'pdftoppm';
const OUT = 'reports/gallery';
const only = process.argv.slice(2);
mkdirSync(OUT, { recursive: true });
const browser = await startBrowser();
for (const { name, job, method: wanted } of PRINT_JOBS) {
  if (only.length > 0 && !only.some((part) => name.includes(part))) continue;
  const plan = planJob(job, { trials: 2000 });
  const method = plan.methods.findIndex((one) => one.method === wanted && one.reaches);
  if (method < 0) {
    const limits = plan.methods.find((one) => one.method === wanted)?.limits.filter(({ met }) => !met);
    throw new Error(`${name}: ${limits?.map(({ message }) => message).join('; ')}`);
  }
  // Drawn as wide as a phone shows it, which leaves room for the steps beside it on paper.
  const figures = [{ title: 'The set-up', svg: planFigure({ plan, method, width: 328, brief: true }) }];
  const html = shopSheet({ plan, method, figures, format: 'html' });
  writeFileSync(`${OUT}/${name}.html`, html);
  writeFileSync(`${OUT}/${name}.md`, shopSheet({ plan, method, figures, format: 'markdown' }));
  const pages: string[] = [];
  for (const paper of ['a4', 'letter'] as const) {
    const page = await browser.newPage();
    await page.setContent(shopSheet({ plan, method, figures, format: 'html', paper }));
    const pdf = await page.pdf({ preferCSSPageSize: true });
    writeFileSync(`${OUT}/${name}-${paper}.pdf`, pdf);
    pages.push(`${paper} ${pdf.toString('latin1').match(/\/Type\s*\/Page\b/g)?.length}`);
    await page.close();
    spawnSync(PICTURES, ['-r', '80', '-png', `${OUT}/${name}-${paper}.pdf`, `${OUT}/${name}-${paper}`]);
  }
  for (const look of ['light', 'dark', 'grey'] as const) {
    const colorScheme = look === 'dark' ? 'dark' : 'light';
    const page = await browser.newPage({ viewport: { width: 360, height: 740 }, colorScheme });
    await page.setContent(html);
    if (look === 'grey') await page.addStyleTag({ content: 'html{filter:grayscale(1)}' });
    await page.screenshot({ path: `${OUT}/${name}-${look}.png`, fullPage: true });
    await page.close();
  }
  console.log(`${name}: pages ${pages.join(', ')}`);
}
await browser.close();
