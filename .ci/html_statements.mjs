// What html.mjs asks of statements on paper.
import { execFileSync } from 'node:child_process';
import { join } from 'node:path';

// statementsPrinted gives complaints as texts: each party's statement is one A4
// page, by itself and among those of all, where it begins a page and shares it with
// nobody; so is the club's cash book. print gives the texts of a file's printed pages
// as sheets, and whether they are A4 as a4.
export async function statementsPrinted(boxbook, folder, print) {
  const said = [];
  const ask = (who, ...more) => execFileSync(boxbook, ['statement', who, '2026', '-f', 'demo/longmere.boxbook', '--asof', '2026-11-25', ...more], { cwd: folder, encoding: 'utf8' });
  const printed = async (who) => {
    const file = join(folder, `statement-${who}.html`);
    ask(who, '-o', file);
    const { sheets, a4 } = await print(file);
    if (!a4) said.push(`statement ${who}: it is not printed on A4`);
    return sheets;
  };
  const { statements } = JSON.parse(ask('all', '--format', 'json'));
  if (statements.length < 4) said.push(`statement all: of ${statements.length} parties`);
  const all = await printed('all');
  if (all.length !== statements.length) said.push(`statement all: ${statements.length} statements on ${all.length} pages`);
  for (const [i, { party, name }] of statements.entries()) {
    const here = (all[i] ?? '').match(/Statement for .*/g) ?? [];
    if (here.length !== 1 || here[0].trim() !== `Statement for ${name}`) said.push(`statement all: page ${i + 1} has "${here.join('", "')}", and not that of ${name} alone`);
    const own = await printed(party);
    if (own.length !== 1) said.push(`statement ${party}: it prints on ${own.length} pages`);
  }
  const cash = await printed('club');
  if (cash.length !== 1) said.push(`statement club: it prints on ${cash.length} pages`);
  return said;
}
