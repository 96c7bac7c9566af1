// The README's pictures: node pictures.mjs BOXBOOK MODULES FOLDER [check], where
// MODULES has puppeteer-core, and FOLDER is for what they are made from.
//
// Each is a picture of what the program writes of the demo: a page at a terminal, the
// first screen of the booklet on a phone, the first sheet of the workbook as LibreOffice
// shows it. Beside it stands its text. With `check` nothing is made: the texts that are
// there must be those that the program writes now, so that fonts do not matter.
import { execFileSync } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join, resolve } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';

const [boxbook, modules, folder] = process.argv.slice(2, 5).map((path) => resolve(path));
const checking = process.argv[5] === 'check';
const pictures = fileURLToPath(new URL('../testdata/pictures', import.meta.url));
const PHONE = 390; // pixels
const MOST_BYTES = 300_000;

const need = createRequire(join(modules, 'none.js'));
const { default: puppeteer } = await import(pathToFileURL(need.resolve('puppeteer-core')));
const browser = await puppeteer.launch({ executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium', args: ['--no-sandbox', '--disable-gpu'] });
const run = (...args) => execFileSync(boxbook, args, { cwd: folder, encoding: 'utf8', env: { ...process.env, NO_COLOR: '' } });
run('demo', 'demo');
const LEDGER = ['-f', 'demo/longmere.boxbook', '--asof', '2026-11-25'];

async function opened(html, width, scale) {
  const page = await browser.newPage();
  await page.setViewport({ width, height: 900, deviceScaleFactor: scale });
  const file = join(folder, 'page.html');
  writeFileSync(file, html);
  await page.goto(pathToFileURL(file).href);
  return page;
}

// terminal: the disputed score sheet, to the end of its table, with its colours.
async function terminal() {
  const command = 'boxbook flight 2026-09-12/yuki';
  const written = run(...command.split(' ').slice(1), ...LEDGER, '--color', 'always');
  const end = written.search(/\n\S*\n\S*Is the official total right/);
  if (end < 0) throw new Error('the score sheet has no end');
  const shown = `$ ${command}\n${written.slice(0, end).trimEnd()}`;
  const html = shown.replace(/[&<>]/g, (c) => ({ '&': '&amp;', '<': '&lt;', '>': '&gt;' })[c])
    .replace(/\x1b\[([\d;]*)m/g, (_, codes) => (codes === '' || codes === '0' ? '</b>' : `<b class="${codes.split(';').map((c) => `c${c}`).join(' ')}">`));
  const page = await opened(`<!doctype html><meta charset="utf-8"><style>
    body{margin:0;background:#fff} pre{margin:0;width:max-content;padding:18px 22px;background:#16191c;color:#e8e6e1;font:13px/1.4 "DejaVu Sans Mono",monospace;}
    b{font-weight:400} .c1{font-weight:700} .c2{color:#9aa1a8} .c31{color:#f0a87a} .c33{color:#e6c37a} .c32{color:#9fd39a} .c36{color:#8fc7e8}</style><pre>${html}</pre>`, 900, 1.5);
  return { text: shown.replace(/\x1b\[[\d;]*m/g, ''), shot: async (path) => (await page.$('pre')).screenshot({ path }) };
}

// phone: the booklet's first screen, its answers and its first picture.
async function phone() {
  run('booklet', 'ines', ...LEDGER, '-o', 'booklet.html');
  const page = await opened(readFileSync(join(folder, 'booklet.html'), 'utf8'), PHONE, 1.5);
  const [bottom, text] = await page.evaluate(() => {
    const first = document.querySelector('figure');
    const shown = document.createRange();
    shown.setStart(document.querySelector('main'), 0);
    shown.setEndAfter(first);
    return [first.getBoundingClientRect().bottom + scrollY, shown.toString()];
  });
  const clip = { x: 0, y: 0, width: PHONE, height: Math.ceil(bottom) + 16 };
  return { text: lines(text), shot: (path) => page.screenshot({ path, clip }) };
}

// workbook: its first sheet, printed, without the empty foot of the paper.
async function workbook() {
  run('workbook', 'ines', ...LEDGER, '-o', 'book.xlsx');
  const soffice = ['-env:UserInstallation=' + pathToFileURL(join(folder, 'profile')).href, '--headless', '--norestore', '--convert-to', 'pdf', '--outdir', folder, join(folder, 'book.xlsx')];
  execFileSync('soffice', soffice, { stdio: 'ignore' });
  const pdf = join(folder, 'book.pdf');
  const cells = `import openpyxl, sys
for row in openpyxl.load_workbook(sys.argv[1], data_only=True).worksheets[0].iter_rows(values_only=True):
    print(*(cell for cell in row if cell is not None))`;
  const text = execFileSync('/usr/bin/python3', ['-W', 'ignore', '-c', cells, join(folder, 'book.xlsx')], { encoding: 'utf8' });
  return {
    text: lines(text),
    shot: async (path) => {
      execFileSync('pdftoppm', ['-l', '1', '-r', '220', '-png', '-singlefile', pdf, join(folder, 'sheet')]);
      const page = await opened('<!doctype html><body style="margin:0"><canvas></canvas>', 960, 1);
      await page.evaluate(onlyInk, 'data:image/png;base64,' + readFileSync(join(folder, 'sheet.png'), 'base64'), 960);
      await (await page.$('canvas')).screenshot({ path });
    },
  };
}

// onlyInk draws a printed page so many pixels wide, without its margins, head and foot.
async function onlyInk(source, width) {
  const image = new Image();
  image.src = source;
  await image.decode();
  const canvas = document.querySelector('canvas');
  Object.assign(canvas, { width: image.width, height: image.height });
  const pen = canvas.getContext('2d', { willReadFrequently: true });
  pen.drawImage(image, 0, 0);
  const [top, height] = [Math.round(image.height * 0.055), Math.round(image.height * 0.885)];
  const { data } = pen.getImageData(0, top, image.width, height);
  let [left, right, first, last] = [image.width, 0, height, 0];
  for (let i = 0; i < data.length; i += 4) {
    if (data[i] > 240) continue;
    const [x, y] = [(i / 4) % image.width, Math.floor(i / 4 / image.width)];
    [left, right, first, last] = [Math.min(left, x), Math.max(right, x), Math.min(first, y), Math.max(last, y)];
  }
  const edge = 24;
  const [from, across, down] = [left - edge, right - left + 2 * edge, last - first + 2 * edge];
  Object.assign(canvas, { width, height: Math.round((down * width) / across) });
  pen.imageSmoothingQuality = 'high';
  pen.fillStyle = '#fff';
  pen.fillRect(0, 0, width, canvas.height);
  pen.drawImage(image, from, top + first - edge, across, down, 0, 0, width, canvas.height);
}

// lines are those of a text, each without its spacing.
function lines(text) {
  return text.split('\n').map((line) => line.trim().replace(/\s+/g, ' ')).filter(Boolean).join('\n');
}

const failed = [];
mkdirSync(pictures, { recursive: true });
for (const [name, make] of Object.entries({ terminal, phone, workbook })) {
  const { text, shot } = await make();
  const [picture, words] = [join(pictures, `${name}.png`), join(pictures, `${name}.txt`)];
  if (checking) {
    if (!existsSync(picture)) failed.push(`${name}.png is not there`);
    else if (readFileSync(picture).length > MOST_BYTES) failed.push(`${name}.png has more than ${MOST_BYTES} bytes`);
    if (!existsSync(words) || readFileSync(words, 'utf8') !== `${text}\n`) {
      writeFileSync(join(folder, `${name}.txt`), `${text}\n`);
      failed.push(`${name}.png shows what the program no longer writes: compare ${words} and ${join(folder, `${name}.txt`)}, then make the pictures again`);
    }
    continue;
  }
  await shot(picture);
  writeFileSync(words, `${text}\n`);
}
await browser.close();
for (const what of failed) console.error(what);
console.log(checking ? `3 pictures: ${failed.length} complaints` : `3 pictures in ${pictures}`);
process.exit(failed.length ? 1 : 0);
