// Nothing is lost when the page is loaded again.

import assert from 'node:assert/strict';
import { boxes, layoutFile } from './layouts.mjs';
import { story } from './story.mjs';

story('a changed sheet is back after the page was loaded again', async (page) => {
  await page.open({ touch: true });
  await page.openFile(layoutFile('boxes.json', boxes([[30, 40], [70, 100]])));
  await page.noticed('boxes.json is open');
  const sheet = await page.wholeSheet();
  await page.touchDrag(sheet.at({ x: 30, y: 40 }), sheet.at({ x: 42, y: 60 }));
  const [tally, pieces] = [await page.tally(), await page.pieces()];
  assert.ok(Math.abs(pieces[0].x - 42) < 0.5, `the piece was moved to ${pieces[0].x}`);
  // The page keeps a change about a second after it; what comes later than two seconds is too late.
  await page.page.waitForTimeout(2000);

  await page.reload();
  await page.noticed('Your last sheet is back');
  assert.equal(await page.tally(), tally);
  assert.deepEqual(await page.pieces(), pieces);

  await page.startFresh();
  await page.until(async () => (await page.placed()) > 2, 'the sample is there instead');
});

story('an untouched page opens on the sample again', async (page) => {
  await page.open();
  await page.until(async () => (await page.placed()) > 0, 'a sample lies on the desk');
  const tally = await page.tally();
  await page.page.waitForTimeout(1500);
  await page.reload();
  await page.until(async () => (await page.placed()) > 0, 'a sample lies on the desk');
  assert.equal(await page.tally(), tally);
  assert.equal(await page.notice(), '');
});
