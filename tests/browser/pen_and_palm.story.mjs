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
  // So long that a finger would have asked what can be done there.
  await page.page.waitForTimeout(700);
  await page.penDrag(sheet.at(first), sheet.at({ x: 40, y: 55 }));
  await page.lift();
  assert.equal(await page.page.getByRole('menu').isVisible(), false, 'what the palm opened is closed');
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

const OFFER = /^Let only the pen move stickers\?/;

story('a pen that is seen for the first time is offered to be the only one that moves pieces', async (page) => {
  const sheet = await withTwo(page);
  await page.closeNotice();
  const [first] = await page.pieces();
  await page.touchDrag(sheet.at(first), sheet.at({ x: 32, y: 42 }));
  assert.doesNotMatch(await page.notice(), OFFER, 'a finger is no pen');
  await page.penDrag(sheet.at({ x: 32, y: 42 }), sheet.at({ x: 40, y: 55 }));
  await page.noticed(OFFER);
  await page.screenshot('pen offer');
  await page.page.locator('.notice').getByRole('button', { name: 'Yes, only the pen' }).tap();
  const before = await page.pieces();
  await page.touchDrag(sheet.at({ x: 70, y: 100 }), sheet.at({ x: 60, y: 90 }));
  assert.deepEqual(await page.pieces(), before, 'fingers move the view only');
  const now = await page.wholeSheet();
  await page.penDrag(now.at({ x: 40, y: 55 }), now.at({ x: 45, y: 60 }));
  assert.notDeepEqual(await page.pieces(), before);
  assert.equal(await page.notice(), '', 'it is not asked again');
});

story('whoever says no keeps both, and is not asked again', async (page) => {
  const sheet = await withTwo(page);
  await page.closeNotice();
  await page.penDrag(sheet.at({ x: 30, y: 40 }), sheet.at({ x: 40, y: 55 }));
  await page.noticed(OFFER);
  await page.page.locator('.notice').getByRole('button', { name: 'No, fingers too' }).tap();
  const before = await page.pieces();
  await page.touchDrag(sheet.at({ x: 70, y: 100 }), sheet.at({ x: 60, y: 90 }));
  assert.notDeepEqual(await page.pieces(), before, 'fingers move pieces');
  await page.saved();
  await page.reload();
  await page.until(async () => (await page.placed()) === 2, 'the sheet is back');
  await page.closeNotice();
  const again = await page.wholeSheet();
  await page.penDrag(again.at({ x: 40, y: 55 }), again.at({ x: 30, y: 40 }));
  await page.page.waitForTimeout(300);
  assert.doesNotMatch(await page.notice(), OFFER);
});
