// A run of the sheet on the desk: what it takes, what it costs, and what is done of it.

import assert from 'node:assert/strict';
import { story } from './story.mjs';

story('a run is worked out from the artist’s figures, and what is done is ticked off', async (page) => {
  await page.open();
  await page.openSample('Rooftop night');
  await page.goTo('Month');
  await page.type('Sheets wanted', '300');
  // Two A6 sheets on A4: 150 pages, and 5 of 100 are spoilt: 150 / 0.95 is 157.9.
  assert.match(await page.sum('Pages'), /^158, spoilt ones with them; 7 packs to buy$/);
  // 158 pages of two minutes.
  assert.match(await page.sum('Printing'), /^5 h 16 min$/);
  assert.match(await page.sum('Ink'), /^not measured yet/);
  await page.measureInk({ seconds: 60 });
  assert.match(await page.sum('Ink'), /^cyan \d+ %, magenta \d+ %, yellow \d+ %, black \d+ % of a sheet$/);

  await page.type('Currency sign', '€');
  await page.type('Price of a pack', '12,50');
  // 158 x 12.50 / 25 is 79.00, and 26.333 cents a sheet.
  assert.deepEqual(await page.costs(), [['Label stock', '€ 79.00', '€ 0.263'], ['All', '€ 79.00', '€ 0.263']]);
  await page.type('Seconds to print a page', '-5');
  assert.match(await page.troubleAt('Seconds to print a page'), /0 or more/);
  assert.match(await page.sum('Printing'), /^5 h 16 min$/, 'what makes no sense changes nothing');
  await page.press('Escape');

  // A sheet becomes a project with its first change, and ticks are kept with the project.
  await page.goTo('Desk');
  await page.type('Name of this layout', 'Night run');
  await page.saved();
  await page.goTo('Month');
  await page.tick('Buy 7 packs of label stock');
  await page.reload();
  await page.until(async () => (await page.nameOfLayout()) === 'Night run', 'it is open again');
  await page.goTo('Month');
  await page.type('Sheets wanted', '300');
  assert.deepEqual(await page.ticked(), ['Buy 7 packs of label stock']);
  assert.deepEqual(await page.costs(), [['Label stock', '€ 79.00', '€ 0.263'], ['All', '€ 79.00', '€ 0.263']]);
}, { seconds: 180 });

story('a sheet is run again, and another theme begins on the same card', async (page) => {
  await page.open();
  await page.openSample('Look up tonight');
  await page.goTo('Month');
  // What is noted of a sample goes along when it becomes a project.
  await page.type('Sheets wanted', '300');
  await page.tick('Pack 300 sheets');
  await page.goTo('Desk');
  await page.type('Name of this layout', 'Night run');
  await page.saved();
  const [zones, size] = [await page.zones(), await page.sheetSize()];
  await page.reload();
  await page.until(async () => (await page.nameOfLayout()) === 'Night run', 'it is open again');
  await page.goTo('Month');
  assert.equal(await page.typed('Sheets wanted'), '300');
  assert.deepEqual(await page.ticked(), ['Pack 300 sheets']);
  await page.beginListAgain();
  assert.deepEqual(await page.ticked(), []);
  await page.takeBack();
  assert.deepEqual(await page.ticked(), ['Pack 300 sheets']);

  await page.beginSheetLikeThis();
  await page.noticed(/Another sheet of the same size, rules and zones/);
  assert.equal(await page.placed(), 0);
  assert.equal(await page.nameOfLayout(), 'Untitled');
  assert.deepEqual([await page.zones(), await page.sheetSize()], [zones, size]);
  assert.deepEqual(await page.sheets(1), ['Night run'], 'the first one is where it was');
}, { seconds: 180 });
