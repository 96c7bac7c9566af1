// What html.mjs asks of a page: each function gives its complaints as texts.
import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';

const CHROMIUM = process.env.CHROMIUM ?? '/usr/bin/chromium';
const SMALLEST_TEXT = 12; // of a picture, in pixels

// Checks are those of pages, with the modules of a folder.
export class Checks {
  static async open(modules) {
    const need = createRequire(join(modules, 'none.js'));
    const load = (name) => import(pathToFileURL(need.resolve(name)));
    const [{ default: puppeteer }, { HtmlValidate, StaticConfigLoader }] = [await load('puppeteer-core'), await load('html-validate')];
    const checks = new Checks();
    checks.axe = readFileSync(need.resolve('axe-core/axe.min.js'), 'utf8');
    checks.validator = new HtmlValidate(new StaticConfigLoader({ extends: ['html-validate:standard', 'html-validate:document'], root: true }));
    checks.browser = await puppeteer.launch({ executablePath: CHROMIUM, args: ['--no-sandbox', '--disable-gpu'] });
    return checks;
  }

  async close() { await this.browser.close(); }

  // valid: the page is HTML as the standard has it.
  async valid(file) {
    const { results } = await this.validator.validateFile(file);
    return results.flatMap(({ messages }) => messages.map((m) => `invalid: ${m.ruleId}: ${m.message} (line ${m.line})`));
  }

  // look: no request, no console message, no sideways scrolling of the page, no small
  // text in a picture, nothing that runs, no link but to an address or a relative
  // path, and what axe-core finds.
  async look(file, width, scheme, withAxe = true) {
    const said = [];
    const page = await this.browser.newPage();
    await page.emulateMediaFeatures([{ name: 'prefers-color-scheme', value: scheme }]);
    await page.setViewport({ width, height: 800 });
    const address = pathToFileURL(file).href;
    page.on('request', (request) => { if (request.url() !== address) said.push(`request: ${request.url()}`); });
    page.on('console', (message) => said.push(`console: ${message.text()}`));
    page.on('pageerror', (error) => said.push(`console: ${error}`));
    await page.goto(address);
    await page.evaluate(() => document.querySelectorAll('details').forEach((d, i) => { d.open = i < 2; }));
    const seen = await page.evaluate(() => ({
      wide: document.documentElement.scrollWidth,
      small: Math.min(...[...document.querySelectorAll('svg text')].map((t) => parseFloat(getComputedStyle(t).fontSize)), 99),
      active: [...document.querySelectorAll('script,iframe,object,embed,img,link,base,form')].map((e) => e.outerHTML.slice(0, 120))
        .concat([...document.querySelectorAll('*')].flatMap((e) => [...e.attributes].filter((a) => /^on|^style$/.test(a.name)).map((a) => `${e.tagName} ${a.name}`))),
      links: [...document.querySelectorAll('[href],[src]')].map((a) => a.getAttribute('href') ?? a.getAttribute('src')),
      unnamed: [...document.querySelectorAll('svg.picture')].filter((s) => !s.querySelector(':scope > title')?.textContent || !/^.{20,}\.$/s.test(s.querySelector(':scope > desc')?.textContent ?? '')).length,
      cut: [...document.querySelectorAll('svg.picture')].flatMap((s) => {
        const frame = s.getBoundingClientRect();
        const outside = (r) => r.left < frame.left - 2 || r.right > frame.right + 2 || r.top < frame.top - 3 || r.bottom > frame.bottom + 2;
        return frame.width && s.checkVisibility() ? [...s.querySelectorAll('text')].filter((t) => outside(t.getBoundingClientRect())).map((t) => t.textContent) : [];
      }),
    }));
    if (seen.wide > width) said.push(`sideways: the page is ${seen.wide} pixels wide`);
    if (seen.small < SMALLEST_TEXT) said.push(`small: a picture has text of ${seen.small} pixels`);
    for (const what of seen.active) said.push(`active: ${what}`);
    for (const to of seen.links) if (!harmless(to)) said.push(`link: ${to}`);
    if (seen.unnamed) said.push(`picture: ${seen.unnamed} without a title and a sentence`);
    for (const text of seen.cut) said.push(`picture: "${text}" stands outside it`);
    const violations = withAxe ? await page.evaluate(this.axe).then(() => page.evaluate(() => window.axe.run())).then((found) => found.violations) : [];
    for (const v of violations) said.push(`axe: ${v.id}: ${v.help}: ${v.nodes[0].html.slice(0, 160)}`);
    await page.close();
    return said;
  }

  // within: no table of the page is wider than the page shows of it.
  async within(file, width) {
    const page = await this.browser.newPage();
    await page.setViewport({ width, height: 800 });
    await page.goto(pathToFileURL(file).href);
    const wide = await page.evaluate(() => [...document.querySelectorAll('.wide')].filter((e) => e.scrollWidth > e.clientWidth).map((e) => `${e.scrollWidth} pixels in ${e.clientWidth}`));
    await page.close();
    return wide.map((what) => `within: a table of ${what}`);
  }

  // print: the text of each printed page.
  async print(file) {
    const page = await this.browser.newPage();
    await page.goto(pathToFileURL(file).href);
    const pdf = file.replace(/\.html$/, '.pdf');
    await page.pdf({ path: pdf, preferCSSPageSize: true });
    await page.close();
    const sizes = execFileSync('pdfinfo', [pdf], { encoding: 'utf8' });
    const sheets = execFileSync('pdftotext', ['-layout', pdf, '-'], { encoding: 'utf8' }).split('\f').slice(0, -1);
    return { sheets, a4: /Page size:\s+59[45][.\d]* x 84[12]/.test(sizes) };
  }

  // shown: every number with decimals that people see, and every one of a table's
  // cells, is the rounding of a number of the JSON, its sign apart.
  async shown(file, documents) {
    const page = await this.browser.newPage();
    await page.setJavaScriptEnabled(true);
    await page.goto(pathToFileURL(file).href);
    const { lines, cells } = await page.evaluate(() => {
      document.querySelectorAll('details').forEach((d) => { d.open = true; });
      const of = (selector) => [...document.querySelectorAll(selector)].map((e) => e.textContent);
      return {
        lines: of('p, h1, h2, h3, h4, h5, h6, dd, li, figcaption, caption, td, th, desc, svg text'),
        cells: of('td, dd').map((t) => t.replace(/[\s*†‡a-z]+$/, '')),
      };
    });
    await page.close();
    const known = new Known(documents);
    const amounts = cells.map(ungrouped).filter((t) => /^[+-]?\d+(\.\d+)?$/.test(t));
    const missing = lines.flatMap((line) => decimals(line).filter((n) => !known.has(n, line)).map((n) => `number: ${n} is in no JSON: ${line.trim().slice(0, 90)}`));
    return { count: amounts.length + lines.flatMap(decimals).length, said: missing.concat(amounts.filter((n) => !known.has(n.replace(/^[+-]/, ''), '')).map((n) => `number: the cell ${n} is in no JSON`)) };
  }
}

// harmless is an http(s) address, a place in the page or a relative path.
function harmless(to) {
  return /^https?:\/\/[^/]/.test(to) || (!/^[a-z][a-z0-9+.-]*:/i.test(to) && !to.startsWith('/') && !to.includes('\\'));
}

// decimals are a text's numbers with decimals; dates, catalogue numbers of three
// parts and versions are none.
function decimals(grouped) {
  const line = ungrouped(grouped);
  return [...line.matchAll(/(?<![\p{L}\d.])\d[\d.]*/gu)].map((m) => [m[0].replace(/\.+$/, ''), line[m.index + m[0].length] ?? ''])
    .filter(([n, after]) => n.split('.').length === 2 && !/[\p{L}…]/u.test(after)).map(([n]) => n);
}

// ungrouped is a text whose numbers have no comma between their thousands.
function ungrouped(text) { return text.replace(/(?<![\d,])\d{1,3}(,\d{3})+(?![\d,])/g, (number) => number.replaceAll(',', '')); }

// Known are the numbers that JSON has, and what a page for people makes of them.
class Known {
  constructor(documents) {
    this.values = new Set();
    this.texts = '';
    this.rounded = new Map();
    for (const d of documents) { this.walk('', d); this.sums(d); }
  }

  walk(key, node) {
    if (typeof node === 'number') {
      this.values.add(node);
      if (key === 'share') this.values.add(100 * node); // shown in percent
      if (key === 'tau2' || key === 'tau2Figure') this.values.add(Math.sqrt(node)); // shown as a standard deviation
      if (['confidence', 'low', 'high', 'chance', 'p', 'sure'].includes(key) && Math.abs(node) <= 1) {
        this.values.add(100 * node);
        this.values.add(Math.floor(100 * node)); // nobody is told to be surer than one is
      }
    } else if (typeof node === 'string') this.texts += `${node}\n`;
    else if (Array.isArray(node)) node.forEach((v) => this.walk(key, v));
    else if (node) for (const [k, v] of Object.entries(node)) this.walk(k, v);
  }

  // sums: what the page of a flight adds up: expected less given, and its mean; what
  // is lost beside the greatest, and its share.
  sums(d) {
    if (d.lost?.total) this.rest(d.lost);
    const differences = (d.expected ?? []).filter((e) => e.given !== undefined).map((e) => Math.round(1e9 * (e.expected - e.given)) / 1e9);
    differences.forEach((v) => this.values.add(v));
    if (differences.length) this.values.add(Math.round(1e9 * differences.reduce((a, b) => a + b) / differences.length) / 1e9);
  }

  rest({ total, positioning, harmony, ...lists }) {
    this.values.add(100); // the foot of the table
    for (const list of ['figures', 'elements', 'groups']) {
      const lost = [...lists[list], positioning, harmony].filter(Boolean).map((part) => part.lost).sort((a, b) => b - a);
      for (let shown = 5; shown < lost.length; shown++) { // a page shows five at the least
        const rest = lost.slice(shown).reduce((a, b) => a + b, 0);
        [rest, 100 * rest / total].forEach((v) => this.values.add(Math.round(1e9 * v) / 1e9));
      }
    }
  }

  has(printed, line) {
    const places = (printed.split('.')[1] ?? '').length;
    if (!this.rounded.has(places)) this.rounded.set(places, new Set([...this.values].map((v) => half(Math.abs(v), places))));
    if (this.rounded.get(places).has(printed)) return true;
    if (new RegExp(`(^|[^0-9.])${printed.replace('.', '\\.')}($|[^0-9.]|\\.($|[^0-9]))`).test(this.texts)) return true;
    return ['0.0', '0.1', '0.5', '0.10', '0.20'].includes(printed) && line.length > 40; // a limit, in words that explain
  }
}

// half rounds half away from zero, from the shortest decimal form.
function half(value, places) {
  const [whole, fraction = ''] = value.toString().includes('e') ? value.toFixed(20).split('.') : value.toString().split('.');
  const digits = BigInt(whole + fraction.padEnd(places + 1, '0').slice(0, places + 1));
  const text = ((digits + 5n) / 10n).toString().padStart(places + 1, '0');
  return places ? `${text.slice(0, -places)}.${text.slice(-places)}` : text;
}
