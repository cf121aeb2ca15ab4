// From the desk to the printer: the composed sheet is made beside the page, can be stopped, and is what the command line
// makes, byte by byte.

import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { layoutFile, sample } from './layouts.mjs';
import { inFolder, stickleaf } from './program.mjs';
import { story } from './story.mjs';

const SAMPLE = fileURLToPath(new URL('../../sample-layouts/rooftop-night/scene-with-windows.json', import.meta.url));

/** What a PNG says of itself: PNG specification, third edition, 11.2.1 IHDR and 11.3.4.3 pHYs. */
function facts(png) {
  const dimensions = png.indexOf('pHYs') + 4;
  return { width: png.readUInt32BE(16), height: png.readUInt32BE(20), perMetre: png.readUInt32BE(dimensions) };
}

story('the sheet is composed at true size, as at the command line', async (page) => {
  await page.open();
  await page.openSample('Rooftop night');
  const name = await page.makeSheet({ bleed: 'Card only', seconds: 120 });
  const onPage = readFileSync(name);
  // 105 x 148 mm at 600 pixels to the inch; 600 / 0.0254 = 23622.05 to the metre.
  assert.deepEqual(facts(onPage), { width: 2480, height: 3496, perMetre: 23622 });
  const onCommandLine = inFolder((at) => {
    stickleaf('export', SAMPLE, '--sheet', at('sheet.png'), '--bleed-mm', 0);
    return readFileSync(at('sheet.png'));
  });
  assert.ok(onPage.equals(onCommandLine), 'the same bytes');
}, { seconds: 900 });

story('a sheet on its way can be stopped, and made again', async (page) => {
  await page.open();
  await page.until(async () => (await page.placed()) > 0, 'a sample lies on the desk');
  await page.goTo('Press');
  await page.beginSheet();
  await page.stop();
  await page.sheetCanBeMade();
  const made = readFileSync(await page.makeSheet({ bleed: '2 mm bleed', seconds: 120 }));
  // 2 mm are 47 pixels on each side.
  assert.equal(facts(made).width, 2480 + 2 * 47);
}, { seconds: 300 });

story('a picture that is missing is named, with what to do', async (page) => {
  // A layout's file comes without its pictures.
  await page.open();
  await page.openFile(layoutFile('alone.json', sample('plain')));
  await page.until(async () => (await page.nameOfLayout()) === 'Clear sky', 'it lies on the desk');
  await page.goTo('Press');
  await page.beginSheet();
  await page.noticed(/picture \S+\.\w+ is not on this device; put it there/);
  await page.sheetCanBeMade();
  await page.saveBundle();
  await page.noticed(/not on this device and so not in it: \S+\.\w+.*save the bundle again/);
});

story('guide and page are those of the command line', async (page) => {
  await page.open();
  await page.openSample('Rooftop night');
  const guide = readFileSync(await page.makeGuide({ without: ['zones', 'numbers'], seconds: 120 }));
  const print = readFileSync(await page.makePrint({ stock: 'Letter', who: 'I do, no cut lines', seconds: 120 }));
  inFolder((at) => {
    stickleaf('export', SAMPLE, '--guide', at('guide.png'), '--guide-without', 'zones,numbers');
    stickleaf('export', SAMPLE, '--print', at('print.pdf'), '--page', 'letter', '--profile', 'home');
    assert.ok(guide.equals(readFileSync(at('guide.png'))), 'the guide has the same bytes');
    assert.ok(print.equals(readFileSync(at('print.pdf'))), 'the page has the same bytes');
  });
}, { seconds: 900 });

story('placement and table are those of the command line', async (page) => {
  await page.open();
  await page.openSample('Rooftop night');
  const [placement, table] = [readFileSync(await page.exportPlacement()), readFileSync(await page.exportTable())];
  inFolder((at) => {
    stickleaf('export', SAMPLE, '--placement', at('p.json'), '--table', at('t.csv'));
    assert.ok(placement.equals(readFileSync(at('p.json'))), 'the placement has the same bytes');
    assert.ok(table.equals(readFileSync(at('t.csv'))), 'the table has the same bytes');
  });
}, { seconds: 900 });

story('cut lines of a card and of a page are those of the command line', async (page) => {
  await page.open();
  await page.openSample('Rooftop night');
  const card = readFileSync(await page.makeCut({ seconds: 120 }));
  const wholePage = readFileSync(await page.makeCut({ of: 'The whole page', seconds: 120 }));
  await page.noticed(/page-cut\.svg.*kiss lines with \d+ points.*no order needs less than \d+ mm/);
  const kiss = readFileSync(await page.makeCut({ of: 'One card', lines: 'Kiss lines only', seconds: 120 }));
  await page.type('Passes for the card', '2.5');
  assert.equal(await page.troubleAt('Passes for the card'), 'Type a whole number from 1 to 20.');
  await page.type('Passes for the card', '2');
  const twice = readFileSync(await page.makeCut({ lines: 'Through lines only', seconds: 120 }));
  inFolder((at) => {
    const made = (...words) => {
      stickleaf('export', SAMPLE, '--cut', at('cut.svg'), ...words);
      return readFileSync(at('cut.svg'));
    };
    // Four passes, as is usual where the setting is for a kiss cut: common practice, no source.
    assert.ok(card.equals(made('--passes', 4)), 'the card has the same bytes');
    assert.ok(wholePage.equals(made('--passes', 4, '--whole-page', '--page', 'a4')), 'the page has the same bytes');
    assert.ok(kiss.equals(made('--passes', 4, '--depth', 'kiss')), 'the kiss lines have the same bytes');
    assert.ok(twice.equals(made('--passes', 2, '--depth', 'through')), 'the card gone over twice has the same bytes');
  });
}, { seconds: 900 });

story('what comes out too dark is printed in the colours of a patch', async (page) => {
  await page.open();
  await page.openSample('Rooftop night');
  const strip = readFileSync(await page.makeStrip({ seconds: 300 }));
  const asDrawn = await page.swatches();
  assert.ok(asDrawn.length > 1 && asDrawn.every(([drawn, sent]) => drawn === sent), JSON.stringify(asDrawn));
  assert.deepEqual(await page.chosenPatch(), [3, 3]);
  await page.choosePatch(4, 2);
  const corrected = await page.swatches();
  assert.deepEqual(corrected.map(([drawn]) => drawn), asDrawn.map(([drawn]) => drawn), 'the art stays as it is');
  assert.ok(corrected.some(([drawn, sent]) => drawn !== sent), JSON.stringify(corrected));
  const sheet = readFileSync(await page.makeSheet({ bleed: 'Card only', seconds: 300 }));
  const print = readFileSync(await page.makePrint({ stock: 'Letter', who: 'I do, no cut lines', seconds: 300 }));
  inFolder((at) => {
    stickleaf('export', SAMPLE, '--colours', at('strip.pdf'));
    assert.ok(strip.equals(readFileSync(at('strip.pdf'))), 'the strip has the same bytes as at the command line');
    stickleaf('export', SAMPLE, '--sheet', at('sheet.png'), '--bleed-mm', 0, '--patch', 42);
    assert.ok(sheet.equals(readFileSync(at('sheet.png'))), 'the sheet has the same bytes');
    stickleaf('export', SAMPLE, '--print', at('print.pdf'), '--page', 'letter', '--profile', 'home', '--patch', 42);
    assert.ok(print.equals(readFileSync(at('print.pdf'))), 'the page has the same bytes');
  });

  // The printer stays the same from one visit to the next.
  await page.reload();
  await page.goTo('Press');
  assert.deepEqual(await page.chosenPatch(), [4, 2]);
}, { seconds: 900 });

story('a bundle holds everything: saved, wiped, opened again', async (page) => {
  await page.open();
  await page.openSample('Look up tonight');
  const [before, tally] = [await page.placed(), await page.tally()];
  const bundle = await page.saveBundle();
  const onCommandLine = inFolder((at) => {
    stickleaf('export', SAMPLE.replace('scene-with-windows', 'title-band'), '--bundle', at('all.stickleaf'));
    return readFileSync(at('all.stickleaf'));
  });
  assert.ok(readFileSync(bundle).equals(onCommandLine), 'the same bytes as at the command line');

  // Another window, in which nothing is kept.
  await page.open();
  await page.until(async () => (await page.placed()) > 0, 'a sample lies on the desk');
  await page.openFile(bundle);
  await page.noticed(/look-up-tonight\.stickleaf is open/);
  assert.equal(await page.nameOfLayout(), 'Look up tonight');
  assert.deepEqual([await page.placed(), await page.tally()], [before, tally]);
  await page.saved();
  // Its pictures came along: the sheet can be made without the samples.
  await page.makeSheet({ bleed: 'Card only', seconds: 120 });

  await page.openFile({ name: 'no.stickleaf', mimeType: 'application/zip', buffer: Buffer.from('no zip at all') });
  await page.noticed(/no\.stickleaf.*no bundle, or it is damaged/);
  assert.equal(await page.nameOfLayout(), 'Look up tonight', 'what was open stays open');
}, { seconds: 900 });
