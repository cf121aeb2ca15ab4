// Several pieces at once: chosen by finger and by mouse, moved, turned, brought in line and spaced out.

import assert from 'node:assert/strict';
import { boxes, layoutFile } from './layouts.mjs';
import { story } from './story.mjs';

async function begin(page, places, { turns = 'none', ...how } = {}) {
  const layout = boxes(places, { rules: { spacing_mm: 2, margin_mm: 4, border_mm: 0 } });
  layout.stickers[0].turns = turns;
  await page.open({ touch: true, ...how });
  await page.openFile(layoutFile('boxes.json', layout));
  await page.noticed('boxes.json is open');
  await page.closeNotice();
  return page.wholeSheet();
}

const near = (actual, expected, what) => assert.ok(Math.abs(actual - expected) < 0.3, `${what}: ${actual}, not ${expected}`);

story('a finger draws a box round pieces while several are chosen, and taps add and leave out', async (page) => {
  const sheet = await begin(page, [[20, 20], [50, 20], [80, 20], [20, 100]]);
  await page.page.getByRole('button', { name: 'Several' }).tap();
  await page.touchDrag(sheet.at({ x: 7, y: 10 }), sheet.at({ x: 55, y: 40 }));
  assert.equal(await page.chosen(), '2 pieces');
  await page.screenshot('several chosen');
  await page.tap(sheet.at({ x: 20, y: 100 }));
  assert.equal(await page.chosen(), '3 pieces');
  await page.tap(sheet.at({ x: 50, y: 20 }));
  assert.equal(await page.chosen(), '2 pieces');
  // Nothing moved by all that, and a drag of one moves both.
  const before = await page.pieces();
  assert.deepEqual(before.map(({ x, y }) => [x, y]), [[20, 20], [50, 20], [80, 20], [20, 100]]);
  await page.touchDrag(sheet.at({ x: 20, y: 100 }), sheet.at({ x: 35, y: 110 }));
  const after = await page.pieces();
  const away = after.map(({ x, y }, index) => [x - before[index].x, y - before[index].y]);
  near(away[0][0], 15, 'the first goes right');
  assert.deepEqual(away[3].map((mm) => mm.toFixed(2)), away[0].map((mm) => mm.toFixed(2)), 'both go the same way');
  assert.deepEqual([away[1], away[2]], [[0, 0], [0, 0]]);
  await page.undo();
  assert.deepEqual(await page.pieces(), before);
  await page.tapInHand('Several');
  await page.tap(sheet.at({ x: 80, y: 20 }));
  assert.equal(await page.chosen(), 'Box 3', 'a tap chooses one alone again');
});

story('on a phone several are chosen from the menu, and the words make way for the hand bar', async (page) => {
  const sheet = await begin(page, [[20, 20], [50, 20], [80, 120]], { viewport: { width: 390, height: 844 } });
  await page.longPress(sheet.at({ x: 80, y: 60 }));
  await page.choose('Choose several');
  // The words above the sheet are not in the way of the finger.
  await page.touchDrag(sheet.at({ x: 7, y: 8 }), sheet.at({ x: 60, y: 40 }));
  assert.equal(await page.chosen(), '2 pieces');
  await page.screenshot('several on a phone');
  const done = page.page.getByRole('button', { name: 'Done', exact: true });
  assert.equal(await done.isVisible(), false);
  await page.tap(sheet.at({ x: 20, y: 20 }));
  await page.tap(sheet.at({ x: 50, y: 20 }));
  await done.tap();
  await page.tap(sheet.at({ x: 80, y: 120 }));
  await page.tap(sheet.at({ x: 20, y: 20 }));
  assert.equal(await page.chosen(), 'Box 1', 'one alone is chosen again');
});

story('a mouse draws the box at once, and Shift adds to it', async (page) => {
  const sheet = await begin(page, [[20, 20], [50, 20], [80, 20], [20, 100]]);
  const drag = async (from, to) => {
    const [start, end] = [sheet.at(from), sheet.at(to)];
    await page.page.mouse.move(start.x, start.y);
    await page.page.mouse.down();
    await page.page.mouse.move(end.x, end.y, { steps: 8 });
    await page.page.mouse.up();
  };
  await drag({ x: 7, y: 10 }, { x: 55, y: 40 });
  assert.equal(await page.chosen(), '2 pieces');
  await page.page.keyboard.down('Shift');
  await drag({ x: 7, y: 80 }, { x: 30, y: 110 });
  await page.page.keyboard.up('Shift');
  assert.equal(await page.chosen(), '3 pieces');
});

story('several turn together about their middle', async (page) => {
  await begin(page, [[40, 60], [70, 60]], { turns: 'any' });
  await page.sheet().focus();
  await page.press('Control+a');
  await page.nextStep();
  for (let quarter = 0; quarter < 6; quarter += 1) {
    await page.tapInHand('Turn right');
  }
  const turned = await page.pieces();
  for (const [index, { x, y, turn }] of turned.entries()) {
    near(x, 55, 'they stand above each other');
    near(y, index === 0 ? 45 : 75, 'as far apart as before');
    assert.equal(turn, 90);
  }
  for (let quarter = 0; quarter < 6; quarter += 1) {
    await page.undo();
  }
  assert.deepEqual((await page.pieces()).map(({ x, y, turn }) => [x, y, turn]), [[40, 60, 0], [70, 60, 0]]);
});

story('two fingers turn and move the chosen piece at once', async (page) => {
  const sheet = await begin(page, [[50, 60]], { turns: 'any' });
  const at = sheet.at({ x: 50, y: 60 });
  await page.tap(at);
  const arm = 8 * sheet.scale;
  const to = sheet.at({ x: 60, y: 80 });
  await page.twoFingers(
    [{ x: at.x - arm, y: at.y }, { x: at.x + arm, y: at.y }],
    [{ x: to.x, y: to.y - arm }, { x: to.x, y: to.y + arm }],
  );
  const [moved] = await page.pieces();
  // Until the fingers have gone 5 px nothing turns, so that a tap of two fingers does not; that is missing of the quarter.
  assert.ok(moved.turn > 75 && moved.turn <= 90, `it turned by ${moved.turn}`);
  assert.ok(Math.hypot(moved.x - 60, moved.y - 80) < 1.5, `it lies at ${moved.x}, ${moved.y}`);
  await page.undo();
  const [back] = await page.pieces();
  assert.deepEqual([back.x, back.y, back.turn], [50, 60, 0], 'turn and move were one step');
});

story('chosen pieces come in line and are spaced out from the menu, each in one step', async (page) => {
  const sheet = await begin(page, [[20, 20], [33, 50], [28, 95], [60, 130]]);
  await page.tap(sheet.at({ x: 60, y: 130 }));
  await page.tapInHand('Lock');
  await page.sheet().focus();
  await page.press('Control+a');
  const before = await page.pieces();
  await page.tapInHand('More for what is chosen');
  await page.screenshot('choices several');
  await page.choose('Left sides');
  assert.deepEqual((await page.pieces()).map(({ x, y }) => [x, y]), [[60, 20], [60, 50], [60, 95], [60, 130]],
    'with the locked one, which stays');
  await page.tapInHand('More for what is chosen');
  await page.choose('One above the other');
  const spaced = (await page.pieces()).map(({ y }) => y);
  // Heights of 10: from 25 to 125 there are 100 mm for two pieces and three gaps.
  for (const [index, y] of [20, 20 + 110 / 3, 20 + 220 / 3, 130].entries()) {
    assert.ok(Math.abs(spaced[index] - y) < 0.011, `${spaced}`);
  }
  await page.undo();
  await page.undo();
  assert.deepEqual(await page.pieces(), before);
});

story('with the keyboard alone pieces come in line', async (page) => {
  await begin(page, [[20, 20], [33, 50], [28, 95]]);
  await page.sheet().focus();
  await page.press('Control+a');
  await page.press('Shift+F10');
  await page.choices();
  for (let presses = 0; (await page.focused()) !== 'Right sides'; presses += 1) {
    assert.ok(presses < 20, 'arrows come to it');
    await page.press('ArrowDown');
  }
  await page.press('Enter');
  assert.deepEqual((await page.pieces()).map(({ x }) => x), [33, 33, 33]);
});
