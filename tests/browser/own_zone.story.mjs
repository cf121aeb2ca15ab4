// A part of the sheet that stickers keep out of, drawn with a finger.

import assert from 'node:assert/strict';
import { boxes, layoutFile } from './layouts.mjs';
import { story } from './story.mjs';

const CLEAR = /all rules hold$/;

async function withOne(page) {
  await page.open({ touch: true });
  await page.openFile(layoutFile('boxes.json', boxes([[50, 60]])));
  await page.noticed('boxes.json is open');
  assert.match(await page.tally(), CLEAR);
  return page.wholeSheet();
}

story('a box drawn over a piece is a zone that the piece breaks', async (page) => {
  const sheet = await withOne(page);
  await page.drawZone();
  await page.touchDrag(sheet.at({ x: 45, y: 50 }), sheet.at({ x: 85, y: 80 }));
  await page.until(async () => !CLEAR.test(await page.tally()), 'the tally says that a rule is broken');
  const [finding] = await page.findings();
  assert.match(finding, /zone/i);
  assert.match(finding, /Box/);
  await page.undo();
  assert.match(await page.tally(), CLEAR);
  assert.ok((await page.findings()).every((finding) => !/zone/i.test(finding)), 'the finding is gone');
});

story('a loop drawn beside a piece is a zone that it keeps out of', async (page) => {
  const sheet = await withOne(page);
  await page.drawZone();
  const round = Array.from({ length: 25 }, (_, step) => {
    const angle = (step / 24) * 2 * Math.PI;
    return sheet.at({ x: 50 + 15 * Math.cos(angle), y: 110 + 15 * Math.sin(angle) });
  });
  await page.touchPath(round);
  await page.until(async () => (await page.zones()).length === 1, 'there is one zone');
  assert.match(await page.tally(), CLEAR);
  await page.touchDrag(sheet.at({ x: 50, y: 60 }), sheet.at({ x: 50, y: 110 }));
  await page.until(async () => !CLEAR.test(await page.tally()), 'the piece on the zone breaks a rule');
  await page.undo();
  await page.undo();
  assert.match(await page.tally(), CLEAR);
  assert.deepEqual(await page.zones(), []);
});
