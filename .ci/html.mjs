// Looks at the html files as a browser does: node html.mjs BOXBOOK MODULES FOLDER,
// where MODULES has puppeteer-core and axe-core, and FOLDER is for the files.
// At three widths, light and dark: no axe violation, no sideways scrolling of the
// page, no request to anywhere, no console message, text of a picture at least 12
// pixels; printed, what is folded is on paper too.
import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { statementsPrinted } from './html_statements.mjs';

const [boxbook, modules, folder] = process.argv.slice(2).map((path) => resolve(path));
const need = createRequire(join(modules, 'none.js'));
const { default: puppeteer } = await import(pathToFileURL(need.resolve('puppeteer-core')));
const axe = readFileSync(need.resolve('axe-core/axe.min.js'), 'utf8');

const pages = {
  season: 'season ines', flight: 'flight 2026-09-12/ines/known', families: 'families ines', faults: 'faults ines --all', drills: 'drills ines --all',
  plan: 'plan --pilot ines', ready: 'ready ines --all', panel: 'panel --season 2026', year: 'year 2026', booklet: 'booklet ines',
  statement: 'statement ines', statements: 'statement all', cashbook: 'statement club',
};
execFileSync(boxbook, ['demo', 'demo'], { cwd: folder });

const failed = [];
const must = (holds, what) => { if (!holds) failed.push(what); };
const browser = await puppeteer.launch({ executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium', args: ['--no-sandbox', '--disable-gpu'] });

async function look(name, file, width, scheme) {
  const where = `${name} at ${width}, ${scheme}`;
  const page = await browser.newPage();
  await page.emulateMediaFeatures([{ name: 'prefers-color-scheme', value: scheme }]);
  await page.setViewport({ width, height: 800 });
  const address = pathToFileURL(file).href;
  page.on('request', (request) => must(request.url() === address, `${where}: asks for ${request.url()}`));
  page.on('console', (message) => must(false, `${where}: console: ${message.text()}`));
  page.on('pageerror', (error) => must(false, `${where}: ${error}`));
  await page.goto(address);
  await page.evaluate(() => document.querySelectorAll('details').forEach((d, i) => { d.open = i < 2; }));
  const wide = await page.evaluate(() => document.documentElement.scrollWidth);
  must(wide <= width, `${where}: the page is ${wide} pixels wide`);
  const small = await page.evaluate(() => Math.min(...[...document.querySelectorAll('svg text')].map((t) => parseFloat(getComputedStyle(t).fontSize)), 99));
  must(small >= 12, `${where}: a picture has text of ${small} pixels`);
  await page.evaluate(axe);
  const { violations } = await page.evaluate(() => window.axe.run());
  for (const v of violations) must(false, `${where}: ${v.id}: ${v.help}: ${v.nodes[0].html.slice(0, 160)}`);
  await page.close();
}

for (const [name, command] of Object.entries(pages)) {
  const file = join(folder, `${name}.html`);
  execFileSync(boxbook, [...command.split(' '), '-f', 'demo/longmere.boxbook', '-o', file], { cwd: folder });
  for (const width of [320, 768, 1280]) for (const scheme of ['light', 'dark']) await look(name, file, width, scheme);
}

// print gives the text of each printed page, and whether they are A4.
async function print(file) {
  const page = await browser.newPage();
  await page.goto(pathToFileURL(file).href);
  const pdf = file.replace(/\.html$/, '.pdf');
  await page.pdf({ path: pdf, preferCSSPageSize: true });
  await page.close();
  const a4 = /Page size:\s+59[45][.\d]* x 84[12]/.test(execFileSync('pdfinfo', [pdf], { encoding: 'utf8' }));
  return { sheets: execFileSync('pdftotext', ['-layout', pdf, '-'], { encoding: 'utf8' }).split('\f').slice(0, -1), a4 };
}

const { sheets } = await print(join(folder, 'booklet.html'));
must(sheets.some((s) => s.includes('rolling quarter turn')), 'booklet: a folded flight is not on paper');
must(sheets.length > 2, 'booklet: it prints on one page');
for (const what of await statementsPrinted(boxbook, folder, print)) must(false, what);
await browser.close();

for (const what of failed) console.error(what);
console.log(`${Object.keys(pages).length} pages looked at, ${failed.length} complaints`);
process.exit(failed.length ? 1 : 0);
