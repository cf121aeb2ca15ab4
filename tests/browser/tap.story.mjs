// A tap chooses a piece and does nothing else, wherever the piece lies and whatever appears under the finger.

import assert from 'node:assert/strict';
import { boxes, layoutFile } from './layouts.mjs';
import { story } from './story.mjs';

/** A point beside the sheet: a tap there chooses nothing, and so puts the bar of the hand away. */
const beside = (sheet) => sheet.at({ x: -3, y: 70 });

story('a tap chooses a piece and changes nothing', async (page) => {
  await page.open({ touch: true });
  const places = [15, 45, 75, 105, 120, 135].flatMap((y) => [[20, y], [52, y], [85, y]]);
  await page.openFile(layoutFile('boxes.json', boxes(places)));
  await page.noticed('boxes.json is open');
  const sheet = await page.wholeSheet();
  const pieces = await page.pieces();
  for (const piece of pieces) {
    await page.tap(sheet.at(piece));
    assert.equal(await page.chosen(), piece.name);
    assert.deepEqual(await page.pieces(), pieces, `nothing moves by a tap on ${piece.name}`);
    await page.tap(beside(sheet));
    assert.equal(await page.chosen(), '');
  }
});

story('the bar of the hand lies on no chosen piece', async (page) => {
  await page.open({ touch: true });
  const places = [15, 75, 135].flatMap((y) => [[20, y], [85, y]]);
  await page.openFile(layoutFile('boxes.json', boxes(places)));
  await page.noticed('boxes.json is open');
  const sheet = await page.wholeSheet();
  for (const piece of await page.pieces()) {
    const at = sheet.at(piece);
    await page.tap(at);
    assert.equal(await page.chosen(), piece.name);
    assert.ok(await page.isOnCanvas(at), `${piece.name} can be taken hold of after it was chosen`);
    await page.tap(beside(sheet));
  }
});
