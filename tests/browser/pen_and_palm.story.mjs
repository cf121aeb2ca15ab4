// The hand that holds the pen rests on the glass, and two fingers look closer.

import assert from 'node:assert/strict';
import { boxes, layoutFile } from './layouts.mjs';
import { story } from './story.mjs';

const TWO = boxes([[30, 40], [70, 100]]);

async function withTwo(page) {
  await page.open({ touch: true });
  await page.openFile(layoutFile('boxes.json', TWO));
  await page.noticed('boxes.json is open');
  return page.wholeSheet();
}

story('a pen moves a piece while the palm rests on another', async (page) => {
  const sheet = await withTwo(page);
  const [first, second] = await page.pieces();
  const palm = sheet.at(second);
  await page.penDrag(sheet.at(first), sheet.at({ x: 40, y: 55 }), {
    meanwhile: () => page.touchDrag(palm, { x: palm.x + 60, y: palm.y + 60 }),
  });
  const [moved, rested] = await page.pieces();
  assert.ok(Math.abs(moved.x - 40) < 0.5 && Math.abs(moved.y - 55) < 0.5, `the pen put it at ${moved.x}, ${moved.y}`);
  assert.deepEqual(rested, second);
  await page.undo();
  assert.deepEqual(await page.pieces(), [first, second]);
});

story('the palm that lay there first lets the pen do its work', async (page) => {
  const sheet = await withTwo(page);
  const [first, second] = await page.pieces();
  const palm = sheet.at(second);
  await page.touchAndHold(palm, { x: palm.x + 2, y: palm.y + 2 });
  await page.penDrag(sheet.at(first), sheet.at({ x: 40, y: 55 }));
  await page.lift();
  const [moved, rested] = await page.pieces();
  assert.ok(Math.abs(moved.x - 40) < 0.5 && Math.abs(moved.y - 55) < 0.5, `the pen put it at ${moved.x}, ${moved.y}`);
  assert.deepEqual(rested, second);
});

story('without a pen the same finger does move the piece', async (page) => {
  const sheet = await withTwo(page);
  const [, second] = await page.pieces();
  const at = sheet.at(second);
  await page.touchDrag(at, { x: at.x - 60, y: at.y - 60 });
  assert.notDeepEqual((await page.pieces())[1], second);
});

story('two fingers look closer at the sheet, not at the page', async (page) => {
  const sheet = await withTwo(page);
  const before = await page.pieces();
  const looked = await page.picture();
  await page.pinch(sheet.at({ x: 52, y: 74 }), 80, 240);
  await page.until(async () => (await page.picture()) !== looked, 'the sheet looks different');
  assert.equal(await page.page.evaluate(() => window.visualViewport.scale), 1);
  assert.deepEqual(await page.pieces(), before);
  // What lay 20 mm beside the fingers lies three times as far from them now, so a finger there finds nothing.
  const beside = sheet.at({ x: 70, y: 100 });
  await page.tap(beside);
  assert.equal(await page.chosen(), '');
  const closer = (point, middle) => ({ x: middle.x + 3 * (point.x - middle.x), y: middle.y + 3 * (point.y - middle.y) });
  await page.tap(closer(sheet.at({ x: 62, y: 97 }), sheet.at({ x: 52, y: 74 })));
  assert.equal(await page.chosen(), 'Box 2');
});
