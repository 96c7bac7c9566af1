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

const [boxbook, modules, folder] = process.argv.slice(2).map((path) => resolve(path));
const need = createRequire(join(modules, 'none.js'));
const { default: puppeteer } = await import(pathToFileURL(need.resolve('puppeteer-core')));
const axe = readFileSync(need.resolve('axe-core/axe.min.js'), 'utf8');

const pages = {
  season: 'season ines', flight: 'flight 2026-09-12/ines/known', families: 'families ines', faults: 'faults ines --all', drills: 'drills ines --all',
  debrief: 'debrief 2026-09-12/ines/known', plan: 'plan --pilot ines', ready: 'ready ines --all', panel: 'panel --season 2026', year: 'year 2026', booklet: 'booklet ines',
};
execFileSync(boxbook, ['demo', 'demo'], { cwd: folder });

const failed = [];
const must = (holds, what) => { if (!holds) failed.push(what); };
const browser = await puppeteer.launch({ executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium', args: ['--no-sandbox', '--disable-gpu'] });

async function look(name, file, width, scheme) {
  const where = `${name} at ${width}, ${scheme}`;
  // A debrief of twelve figures and five judges with much noted on it, and the empty
// form of its sequence, print on one A4 page, all of it.
async function onePage(name, args, last) {
  const ledger = new URL('../testdata/print/debrief.boxbook', import.meta.url).pathname;
  const file = join(folder, `${name}.html`), pdf = join(folder, `${name}.pdf`);
  execFileSync(boxbook, ['debrief', '2026-06-27', ...args, '-f', ledger, '--asof', '2026-07-01', '-o', file]);
  const page = await browser.newPage();
  await page.goto(pathToFileURL(file).href);
  await page.pdf({ path: pdf, preferCSSPageSize: true });
  await page.close();
  const text = execFileSync('pdftotext', ['-layout', pdf, '-'], { encoding: 'utf8' });
  const pages = (text.match(/\f/g) ?? []).length;
  must(pages === 1, `${name}: it prints on ${pages} pages`);
  must(/A4/.test(execFileSync('pdfinfo', [pdf], { encoding: 'utf8' })), `${name}: the page is not A4`);
  for (const what of ['reverse half Cuban down', 'manual decide', last]) must(text.includes(what), `${name}: not on paper: ${what}`);
}
await onePage('debrief-print', [], 'half a second of line on either side of the roll');
await onePage('debrief-blank', ['--blank'], 'video at');

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

const page = await browser.newPage();
await page.goto(pathToFileURL(join(folder, 'booklet.html')).href);
await page.pdf({ path: join(folder, 'booklet.pdf'), preferCSSPageSize: true });
await browser.close();
const printed = execFileSync('pdftotext', ['-layout', join(folder, 'booklet.pdf'), '-'], { encoding: 'utf8' });
must(printed.includes('rolling quarter turn'), 'booklet: a folded flight is not on paper');
must((printed.match(/\f/g) ?? []).length > 1, 'booklet: it prints on one page');

for (const what of failed) console.error(what);
console.log(`${Object.keys(pages).length} pages looked at, ${failed.length} complaints`);
process.exit(failed.length ? 1 : 0);
