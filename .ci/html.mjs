// Looks at the html files as a browser does: node html.mjs BOXBOOK MODULES FOLDER,
// where MODULES has puppeteer-core, axe-core and html-validate, and FOLDER is for
// the files. Every page of the demo and the booklet:
//
// - is valid HTML, the same bytes twice, and shows no number that its JSON lacks
// - at four widths, light and dark: no axe violation (at three), no sideways scrolling of the
//   page, no request to anywhere, no console message, text of a picture at least 12
//   pixels and within it, a title and a sentence for each picture
// - prints on A4, on as many pages as expected; what is folded is on paper too, and
//   each part of the booklet begins a page
// - keeps what people typed as text, and leads to addresses and relative paths alone
//
// Then a fault of each kind is planted in a page, and must be found.
import { execFileSync } from 'node:child_process';
import { cpSync, readFileSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { Checks } from './html_checks.mjs';
import { statementsPrinted } from './html_statements.mjs';

const [boxbook, modules, folder] = process.argv.slice(2).map((path) => resolve(path));
const ASOF = ['--asof', '2026-11-25'];
const WIDTHS = [320, 390, 768, 1280];
const WITH_AXE = [320, 768, 1280];
const MOST_BYTES = 400_000;

// Each page's command and on how many pages it prints at the most.
const pages = {
  season: ['season ines', 2], flight: ['flight 2026-09-12/ines/known', 2], everything: ['flight 2026-09-12/ines/known --all', 3], families: ['families ines', 2], family: ['families ines intermediate-known-26/1', 1],
  faults: ['faults ines --all', 2], drills: ['drills ines --all', 2], plan: ['plan ines', 1], forecast: ['forecast advanced-known-26 --pilot ines', 2],
  ready: ['ready ines --all', 2], gates: ['ready ines', 1], panel: ['panel --season 2026', 2], year: ['year 2026', 4], debrief: ['debrief 2026-06-28/ines/unknown', 1],
  blank: ['debrief 2026-06-28/ines/unknown --blank', 1], home: ['--pilot ines', 1], pilots: ['pilots', 1], whatif: ['whatif 2026-09-12/ines/known 4=7.5', 1],
  statement: ['statement ines 2026', 1], statements: ['statement all 2026', 8], cashbook: ['statement club 2026', 1],
};
const BOOKLET_PAGES = 20; // 16 flights
const PARTS = ['Faults', 'Drills', 'Plan for', 'Readiness for', 'Families', 'Panel', 'Flights'];

const failed = [];
const must = (holds, what) => { if (!holds) failed.push(what); };
const run = (...args) => execFileSync(boxbook, [...args, ...ASOF], { cwd: folder, encoding: 'utf8', stdio: ['ignore', 'pipe', 'pipe'] });
const ask = (command, ...more) => run(...command.split(' '), '-f', 'demo/longmere.boxbook', ...more);
const json = (command) => JSON.parse(ask(command, '--format', 'json'));

execFileSync(boxbook, ['demo', 'demo'], { cwd: folder });
const checks = await Checks.open(modules);
const note = (name, said) => said.forEach((what) => failed.push(`${name}: ${what}`));

// made writes a page and demands the same bytes of a second writing.
function made(name, command) {
  const [file, again] = [join(folder, `${name}.html`), join(folder, `${name}-again.html`)];
  for (const path of [file, again]) ask(command, '-o', path);
  must(readFileSync(file).equals(readFileSync(again)), `${name}: two writings differ`);
  return file;
}

async function everywhere(name, file) {
  note(name, await checks.valid(file));
  const views = WIDTHS.flatMap((width) => ['light', 'dark'].map((scheme) => [width, scheme]));
  await Promise.all(views.map(async ([width, scheme]) => note(`${name} at ${width}, ${scheme}`, await checks.look(file, width, scheme, WITH_AXE.includes(width)))));
}

let numbers = 0;
async function counted(name, file, documents) {
  const { count, said } = await checks.shown(file, documents);
  numbers += count;
  note(name, said);
}

for (const [name, [command, most]] of Object.entries(pages)) {
  const file = made(name, command);
  await everywhere(name, file);
  await counted(name, file, [json(command)]);
  const { sheets, a4 } = await checks.print(file);
  must(a4, `${name}: it is not printed on A4`);
  must(sheets.length <= most, `${name}: it prints on ${sheets.length} pages, more than ${most}`);
}

// The table of gates is words, and wraps on the narrowest phone; so does everything of a
// mailed statement: the balance is what it is read for. On others no table is cut off.
for (const name of ['gates', 'statement']) note(`${name} at 320`, await checks.within(join(folder, `${name}.html`), 320));
for (const name of Object.keys(pages)) for (const width of [360, 390]) note(`${name} at ${width}`, await checks.within(join(folder, `${name}.html`), width));

// bookletPrinted is what is wrong with a printed booklet.
function bookletPrinted({ sheets, a4 }) {
  const said = a4 ? [] : ['print: it is not printed on A4'];
  if (sheets.length > BOOKLET_PAGES) said.push(`print: ${sheets.length} pages, more than ${BOOKLET_PAGES}`);
  if (!sheets.some((s) => s.includes('rolling quarter turn'))) said.push('print: a folded flight is not on paper');
  for (const part of PARTS) if (!sheets.some((s) => s.trimStart().startsWith(part))) said.push(`print: ${part} begins no page`);
  return said;
}

const booklet = made('booklet', 'booklet ines');
must(readFileSync(booklet).length <= MOST_BYTES, `booklet: ${readFileSync(booklet).length} bytes`);
await everywhere('booklet', booklet);
note('booklet at 360', await checks.within(booklet, 360));
const flights = json('season ines').flights.map((f) => json(`flight ${f.flight}`));
const parts = ['season ines', 'faults ines --all', 'drills ines --all', 'plan ines', 'ready ines --all', 'families ines', 'panel --pilot ines'].map(json);
await counted('booklet', booklet, [...parts, ...flights]);
const onPaper = await checks.print(booklet);
note('booklet', bookletPrinted(onPaper));

// What people type stays text, wherever it comes from.
const evil = `</style><script>alert(1)</script><img src=x onerror=alert(2)> & '`;
const hostile = join(folder, 'hostile');
cpSync(join(folder, 'demo'), hostile, { recursive: true });
for (const [path, changes] of Object.entries({
  'longmere.boxbook': [[/name( +)"([^"]*)"/g, `name$1"$2 ${evil}"`], [/note( +)"([^"]*)"/g, `note$1"$2 ${evil}"`]],
  'coach/marek.boxbook': [[/note( +)"([^"]*)"/g, `note$1"$2 ${evil}"`], [/^(  fault .*?)"([^"]*)"/gm, `$1"$2 ${evil}"`]],
})) {
  let text = readFileSync(join(hostile, path), 'utf8');
  for (const [from, to] of changes) text = text.replace(from, to);
  writeFileSync(join(hostile, path), text);
}
const ways = ['javascript:alert(1)', 'data:text/html,x', 'file:///etc/passwd', '//evil.example/a.mp4', '/home/a.mp4', 'https://videos.example/a.mp4', 'videos/a b.mp4'];
for (const [i, way] of ways.entries()) {
  const path = join(hostile, 'longmere.boxbook');
  writeFileSync(path, readFileSync(path, 'utf8').replace(/video( +)"[^"]*"/, `video$1"${way}"`));
  for (const [name, command] of [['booklet', 'booklet ines'], ['flight', 'flight 2026-04-18/ines/known'], ['year', 'year 2026']]) {
    if (i && name !== 'flight') continue;
    const file = join(folder, `hostile-${name}${i}.html`);
    run(...command.split(' '), '-f', 'hostile/longmere.boxbook', '-o', file);
    note(`hostile ${name} ${way}`, [...await checks.valid(file), ...await checks.look(file, 320, 'light')]);
    const page = readFileSync(file, 'utf8');
    must(page.includes('&lt;script&gt;alert(1)'), `hostile ${name}: what was typed is not there`);
    if (name === 'flight') must(/<a href/.test(page) === /^(https|videos)/.test(way), `hostile flight: ${way} ${/<a href/.test(page) ? 'is' : 'is not'} a link`);
  }
}

// A debrief of twelve figures and five judges with much noted on it, and the empty
// form of its sequence, print on one A4 page, all of it.
async function onePage(name, args, last) {
  const ledger = new URL('../testdata/print/debrief.boxbook', import.meta.url).pathname;
  const file = join(folder, `${name}.html`);
  run('debrief', '2026-06-27', ...args, '-f', ledger, '-o', file);
  const { sheets, a4 } = await checks.print(file);
  must(a4, `${name}: it is not printed on A4`);
  must(sheets.length === 1, `${name}: it prints on ${sheets.length} pages`);
  for (const what of ['reverse half Cuban down', 'come before anything here', last]) must(sheets.join(' ').replace(/\s+/g, ' ').includes(what), `${name}: not on paper: ${what}`);
}
for (const what of await statementsPrinted(boxbook, folder, (file) => checks.print(file))) must(false, what);
await onePage('debrief-print', [], 'half a second of line on either side of the roll');
await onePage('debrief-blank', ['--blank'], 'video at');

// A fault of each kind, planted in a page, is found: kind, page, change, and which
// check must say so.
const freely = (page) => page.replace(/<meta http-equiv="Content-Security-Policy"[^>]*>/, '');
const styled = (rule) => (page) => freely(page).replace('</style>', `${rule}</style>`);
const look = (file) => checks.look(file, 320, 'light');
const planted = [
  ['invalid', 'season', (p) => p.replace('<h1>', '<h1><div>').replace('</h1>', '</div></h1>'), (f) => checks.valid(f)],
  ['invalid', 'season', (p) => p.replace(/id="t\d+"/g, 'id="t1"'), (f) => checks.valid(f)],
  ['axe', 'season', styled('.head{color:#ddd!important}'), look],
  ['axe', 'season', (p) => p.replace('<html lang="en">', '<html>'), look],
  ['sideways', 'season', styled('.wide{overflow:visible!important}table{min-width:40rem}'), look],
  ['within', 'gates', styled('.words{min-width:13rem!important}'), (f) => checks.within(f, 320)],
  ['within', 'season', (p) => p.replace('class="stacks"', ''), (f) => checks.within(f, 360)],
  ['request', 'season', (p) => freely(p).replace('<h1>', '<h1><img alt="x" src="picture.png">'), look],
  ['console', 'season', (p) => p.replace('<h1>', '<script>1</script><h1>'), look],
  ['small', 'season', styled('.picture text{font-size:11px!important}'), look],
  ['picture', 'season', (p) => p.replace(/<desc[^>]*>[^<]*/, '<desc>'), look],
  ['picture', 'season', (p) => p.replace('<text x="0"', '<text x="-20"'), look],
  ['active', 'season', (p) => p.replace('<h1>', '<h1 onclick="1">'), look],
  ['link', 'season', (p) => p.replace('<h1>', '<h1><a href="javascript:1">x</a>'), look],
  ['number', 'season', (p) => p.replace(/(<td[^>]*>\d+\.)\d\d</, '$199<'), async (f) => (await checks.shown(f, [json('season ines')])).said],
  ['print', 'booklet', styled('@media print{details::details-content{display:none!important}}'), async (f) => bookletPrinted(await checks.print(f))],
  ['print', 'booklet', styled('tr{height:12mm}'), async (f) => bookletPrinted(await checks.print(f))],
  ['print', 'booklet', styled('section{break-before:auto!important}'), async (f) => bookletPrinted(await checks.print(f))],
  ['print', 'booklet', styled('@page{size:letter!important}'), async (f) => bookletPrinted(await checks.print(f))],
];
for (const [i, [kind, name, change, check]] of planted.entries()) {
  const [before, file] = [readFileSync(join(folder, `${name}.html`), 'utf8'), join(folder, `planted${i}.html`)];
  const after = change(before);
  must(after !== before, `planted fault ${i} (${kind}) changes nothing`);
  writeFileSync(file, after);
  const said = await check(file);
  must(said.some((what) => what.startsWith(`${kind}:`)), `planted fault ${i} (${kind}) is not found: ${said.join('; ') || 'no complaint'}`);
}

await checks.close();
for (const what of failed) console.error(what);
console.log(`${Object.keys(pages).length + 1} pages at ${WIDTHS.length} widths, ${numbers} numbers, a booklet of ${onPaper.sheets.length} printed pages and ${readFileSync(booklet).length} bytes, ${planted.length} planted faults: ${failed.length} complaints`);
process.exit(failed.length ? 1 : 0);
