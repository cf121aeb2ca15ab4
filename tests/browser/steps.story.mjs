// How far the hand goes at once, and what it does while it drags, is the artist's choice and stays so.

import assert from 'node:assert/strict';
import { boxes, layoutFile } from './layouts.mjs';
import { story } from './story.mjs';

/** Boxes that turn as they like. */
function freeBoxes(places) {
  const layout = boxes(places);
  layout.stickers[0].turns = 'any';
  return layout;
}

async function begin(page, places) {
  await page.open({ touch: true });
  await page.openFile(layoutFile('boxes.json', freeBoxes(places)));
  await page.noticed('boxes.json is open');
  return page.wholeSheet();
}

/** The places of all pieces; reading them opens a panel, which is closed again. */
async function places(page) {
  const pieces = await page.pieces();
  return pieces.map(({ x, y, turn }) => ({ x, y, turn }));
}

story('buttons go as far as the step says, and the step outlives a reload', async (page) => {
  const sheet = await begin(page, [[40, 40]]);
  await page.tap(sheet.at({ x: 40, y: 40 }));
  await page.tapInHand('Nudge right');
  await page.tapInHand('Turn right');
  assert.deepEqual(await places(page), [{ x: 40.5, y: 40, turn: 5 }]);
  assert.equal(await page.step(), 'Steps of 0.5 mm and 5°; press for the next');
  await page.nextStep();
  await page.tapInHand('Nudge down');
  await page.tapInHand('Turn left');
  assert.deepEqual(await places(page), [{ x: 40.5, y: 41, turn: -10 }]);
  await page.nextStep();
  await page.tapInHand('Nudge left');
  assert.deepEqual(await places(page), [{ x: 40.4, y: 41, turn: -10 }]);
  await page.saved();
  await page.reload();
  await page.until(async () => (await page.placed()) === 1, 'the sheet is back');
  const again = await page.wholeSheet();
  await page.tap(again.at({ x: 40.4, y: 41 }));
  assert.equal(await page.step(), 'Steps of 0.1 mm and 1°; press for the next');
});

story('a carried piece slides along its neighbour until that is switched off', async (page) => {
  // The left box with its border ends at 41; with a spacing of 2 mm the right one may begin at 43.
  const sheet = await begin(page, [[30, 60], [70, 60]]);
  const drag = async (to) => {
    const [, right] = await page.pieces();
    await page.touchDrag(sheet.at(right), sheet.at({ x: to, y: 60 }));
    return (await page.pieces())[1].x;
  };
  const slid = await drag(53.2);
  assert.ok(Math.abs(slid - 54) < 0.05, `it stops at the spacing, not at ${slid}`);
  assert.ok(!(await page.pieces()).some(({ isBroken }) => isBroken), 'and so breaks no rule');
  await page.undo();
  await page.tap(sheet.at({ x: 70, y: 60 }));
  await page.switchHabit('Slide along neighbours');
  const free = await drag(53.2);
  assert.ok(Math.abs(free - 53.2) < 0.3, `it goes where the finger goes, not to ${free}`);
  assert.ok((await page.pieces()).every(({ isBroken }) => isBroken), 'and is too near to it there');
});

story('fingers that only move the view move no piece, and a pen still does', async (page) => {
  const sheet = await begin(page, [[40, 60]]);
  const before = await places(page);
  await page.tap(sheet.at({ x: 40, y: 60 }));
  await page.switchHabit('Fingers only move the view');
  await page.touchDrag(sheet.at({ x: 40, y: 60 }), sheet.at({ x: 60, y: 80 }));
  assert.deepEqual(await places(page), before);
  const now = await page.wholeSheet();
  await page.penDrag(now.at({ x: 40, y: 60 }), now.at({ x: 50, y: 70 }));
  const [moved] = await places(page);
  assert.ok(Math.hypot(moved.x - 50, moved.y - 70) < 0.5, `the pen carried it to ${moved.x}, ${moved.y}`);
});
