// A run of several designs: pages, order, tasks that are ticked off, one printed page, and the history of runs.

import assert from 'node:assert/strict';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { boxes, layoutFile } from './layouts.mjs';
import { SCREENS, looksWell } from './look.mjs';
import { inFolder, stickleaf } from './program.mjs';
import { story } from './story.mjs';

/** Opens a layout file as a project of its own, under this name. */
async function keepLayout(page, name, places) {
  await page.openFile(layoutFile(`${name}.json`, { ...boxes(places), name }));
  await page.noticed(`${name}.json is open`);
  await page.closeNotice();
  await page.saved();
}

const button = (page, name) => page.page.getByRole('button', { name, exact: true });

/** Two kept layouts, and a run of 300 sheets of the one and 120 of the other. */
async function runOfTwo(page) {
  await keepLayout(page, 'Tide pool', [[30, 40], [60, 40]]);
  await keepLayout(page, 'Rooftop', [[30, 40], [60, 40], [30, 80]]);
  await page.goTo('Month');
  await page.type('Sheets wanted', '300');
  await page.page.getByText('Make other sheets in the same run').click();
  await button(page, 'Tide pool').click();
  await page.type('Sheets of Tide pool', '120');
}

/** The rows of the table of designs. */
async function designs(page) {
  const rows = await page.page.locator('.designs tbody tr').all();
  return Promise.all(rows.map(async (row) => (await row.locator('th, td').allInnerTexts()).slice(0, 3)));
}

story('several designs are made in one run, and what is done stays ticked off', async (page) => {
  await page.open();
  await runOfTwo(page);
  // Two sheets on a page: 150 good pages of 95 in a hundred are 157.9, so 158; 60 are 63.2, so 64.
  assert.deepEqual((await designs(page)).sort(), [['Rooftop', '300', '158'], ['Tide pool', '120', '64']]);
  assert.match(await page.sum('Pages'), /^222, spoilt ones with them/);
  // 222 pages of two minutes.
  assert.match(await page.sum('Printing'), /^7 h 24 min$/);
  await page.tick('Tide pool: Print 64 pages');
  await page.reload();
  await page.until(async () => (await page.nameOfLayout()) === 'Rooftop', 'it is open again');
  await page.goTo('Month');
  await page.page.getByRole('textbox', { name: 'Sheets of Tide pool' }).waitFor();
  assert.deepEqual(await page.ticked(), ['Tide pool: Print 64 pages, at 100 %']);
  // The ink of both is measured: white boxes on a white card take none.
  assert.match(await page.sum('Ink'), /Rooftop: not measured yet.*\s.*Tide pool: not measured yet/);
  await page.measureInk({ seconds: 60 });
  await page.until(async () => !/not measured/.test(await page.sum('Ink')), 'the ink of both is known', { seconds: 60 });
  assert.match(await page.sum('Ink'), /Rooftop: .*0.*\s.*Tide pool: .*0/);
  await button(page, 'Take Tide pool out of the run').click();
  assert.deepEqual(await designs(page), []);
});

story('sheets of a run share pages, which are printed and cut as at the command line', async (page) => {
  await page.open();
  await runOfTwo(page);
  await page.type('Sheets wanted', '3');
  await page.type('Sheets of Tide pool', '3');
  await page.page.getByText('Let the sheets share pages').click();
  const line = page.page.locator('.shared-line');
  // Two sheets on a page: two pages for three of each, three pages for all six.
  assert.equal(await line.innerText(), '3 pages in all; no plan needs fewer: proven. On pages of their own they take 4.');
  const pages = await page.page.locator('.shared-page').count();
  const print = await readFile(await page.makePages({ seconds: 120 }));
  const cut = await readFile(await page.makeCutOfPage(pages, { seconds: 120 }));
  inFolder((at) => {
    for (const [name, places] of [['Rooftop', [[30, 40], [60, 40], [30, 80]]], ['Tide pool', [[30, 40], [60, 40]]]]) {
      writeFileSync(at(`${name}.json`), JSON.stringify({ ...boxes(places), name }));
    }
    stickleaf('page', at('Rooftop.json'), at('Tide pool.json'), '--wanted', '3,3', '--passes', 4, '--cut', at('cut.svg'), '--profile', 'home', '--print', at('print.pdf'));
    assert.ok(print.equals(readFileSync(at('print.pdf'))), 'the print has the same bytes');
    assert.ok(cut.equals(readFileSync(at(pages > 1 ? `cut-page-${pages}.svg` : 'cut.svg'))), 'the cut has the same bytes');
  });
  await page.type('Sheets of Tide pool', '5');
  assert.equal(await line.innerText(), '4 pages in all; no plan needs fewer: proven. On pages of their own they take 5.');
}, { seconds: 900 });

story('the list of a run is printed on one page', async (page) => {
  await page.open({ colorScheme: 'dark' });
  await runOfTwo(page);
  await page.type('Price of a pack', '12.50');
  const pdf = await page.page.pdf({ format: 'A4', preferCSSPageSize: false, printBackground: true });
  const folder = fileURLToPath(new URL('../output/', import.meta.url));
  mkdirSync(folder, { recursive: true });
  writeFileSync(`${folder}run sheet.pdf`, pdf);
  const pages = pdf.toString('latin1').match(/\/Type\s*\/Page\b/g) ?? [];
  assert.equal(pages.length, 1);
  await page.page.emulateMedia({ media: 'print' });
  assert.equal(await page.page.getByText('300 sheets of Rooftop, 120 sheets of Tide pool').isVisible(), true);
  assert.equal(await page.page.getByText('Your figures', { exact: true }).isVisible(), false);
  await page.page.emulateMedia({ media: null });
});

story('what was spoilt in a run tells what to allow for in the next', async (page) => {
  await page.open();
  await keepLayout(page, 'Tide pool', [[30, 40], [60, 40]]);
  await page.goTo('Month');
  await page.type('Sheets wanted', '300');
  await page.type('It has cut already, m', '0');
  await button(page, 'Note this run as made').click();
  await page.noticed('The run is noted under Runs made');
  const used = await page.page.getByRole('textbox', { name: 'It has cut already, m' }).inputValue();
  assert.ok(Number(used) > 0, 'the blade is more worn');
  await button(page, 'Runs made').click();
  await page.type('Pages spoilt of Tide pool, 8 allowed', 'many');
  assert.match(await page.troubleAt('Pages spoilt of Tide pool, 8 allowed'), /whole number, 0 or more/);
  await page.type('Pages spoilt of Tide pool, 8 allowed', '12');
  const said = await page.page.locator('.trial-said').innerText();
  // 12 of 150 + 12 pages are 7.4 %; 8 of 158 were allowed for.
  assert.match(said, /12 of 162 pages were spoilt: 7\.4 %\. 5\.1 % were allowed for\./);
  assert.match(said, /Allow for 11 % next/);
  await button(page, 'Allow for 11 % from now on').click();
  assert.match(await page.page.locator('.trial-said').innerText(), /11 % is allowed for/);
  const [download] = await Promise.all([page.page.waitForEvent('download'), button(page, 'Save the runs as a table').click()]);
  const rows = (await readFile(await download.path(), 'utf8')).trim().split('\n');
  assert.equal(download.suggestedFilename(), 'runs.csv');
  assert.equal(rows.length, 2);
  assert.match(rows[1], /^\d{4}-\d\d-\d\d,Tide pool,300,158,.*,150,12$/);
  await page.reload();
  await page.goTo('Month');
  // 150 good pages of 89 in a hundred: 168.5.
  await page.type('Sheets wanted', '300');
  assert.match(await page.sum('Pages'), /^169,/);
});

story('figures, log and runs go to another device in one file', async (page) => {
  await page.open();
  await keepLayout(page, 'Tide pool', [[30, 40], [60, 40]]);
  await page.goTo('Month');
  await page.type('Price of a pack', '12.50');
  await button(page, 'Note this run as made').click();
  await page.closeNotice();
  const file = await page.saveShop();
  const text = await readFile(file, 'utf8');
  inFolder((at) => {
    writeFileSync(at('sheet.json'), JSON.stringify(boxes([[30, 40]])));
    // The command line takes it as settings: exit status 0.
    stickleaf('run', at('sheet.json'), '--sheets', 10, '--settings', file);
  });

  // Another window, in which nothing is kept.
  await page.open();
  await keepLayout(page, 'Tide pool', [[30, 40], [60, 40]]);
  await page.goTo('Month');
  const packs = () => page.page.getByRole('textbox', { name: 'Price of a pack' }).inputValue();
  assert.equal(await packs(), '0');
  await page.openShop({ name: 'shop.json', mimeType: 'application/json', buffer: Buffer.from(text) });
  await page.noticed('Your figures are those of shop.json; nothing new in the blade log, one new run.');
  assert.equal(await packs(), '12.5');
  await page.openShop({ name: 'again.json', mimeType: 'application/json', buffer: Buffer.from(text) });
  await page.noticed('Your figures are those of again.json; nothing new in the blade log, no new runs.');
  await page.openShop({ name: 'layout.json', mimeType: 'application/json', buffer: Buffer.from(JSON.stringify(boxes([[30, 40]]))) });
  await page.noticed(/layout\.json.*holds no figures of a shop/);
  assert.equal(await packs(), '12.5', 'what is no such file changes nothing');
  await button(page, 'Runs made').click();
  assert.equal(await page.page.getByRole('textbox', { name: /^Pages spoilt/ }).count(), 1);
});

for (const [width, height] of SCREENS) {
  for (const colorScheme of ['light', 'dark']) {
    story(`a run of two and its history look well at ${width}x${height} ${colorScheme}`, async (page, say) => {
      await page.open({ viewport: { width, height }, colorScheme, touch: true, reducedMotion: true });
      await runOfTwo(page);
      await looksWell(page, `run of two ${width}x${height} ${colorScheme}`, say);
      await page.page.getByText('Let the sheets share pages').click();
      await page.page.locator('.shared-page').first().waitFor();
      await page.page.locator('.shared-pages').scrollIntoViewIfNeeded();
      await looksWell(page, `shared pages ${width}x${height} ${colorScheme}`, say);
      await button(page, 'Note this run as made').click();
      await page.closeNotice();
      await button(page, 'Runs made').click();
      await page.page.getByRole('textbox', { name: /^Pages spoilt/ }).fill('9');
      await page.press('Enter');
      await looksWell(page, `runs made ${width}x${height} ${colorScheme}`, say);
    });
  }
}
