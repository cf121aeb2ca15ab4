// A long press, a right click or a key asks what can be done; two quick taps look closer or from further away.

import assert from 'node:assert/strict';
import { boxes, layoutFile } from './layouts.mjs';
import { story } from './story.mjs';

async function begin(page, places, { turns = 'any', ...how } = {}) {
  const layout = boxes(places, { rules: { spacing_mm: 2, margin_mm: 4, border_mm: 0 } });
  layout.stickers[0].turns = turns;
  await page.open({ touch: true, ...how });
  await page.openFile(layoutFile('boxes.json', layout));
  await page.noticed('boxes.json is open');
  await page.closeNotice();
  return page.wholeSheet();
}

const places = async (page) => (await page.pieces()).map(({ x, y, turn }) => [x, y, turn]);

const isOpen = (page) => page.page.getByRole('menu').isVisible();

story('a long press on a piece opens what can be done with it', async (page) => {
  const sheet = await begin(page, [[40, 40], [70, 100]]);
  await page.longPress(sheet.at({ x: 40, y: 40 }));
  const menu = await page.choices();
  assert.equal(await menu.getAttribute('aria-label'), 'Box 1: what to do');
  assert.equal(await page.chosen(), 'Box 1');
  await page.screenshot('choices piece');
  assert.deepEqual(await page.accessibilityFindings(), []);
  for (const item of await menu.getByRole('menuitem').all()) {
    const { width, height } = await item.boundingBox();
    assert.ok(width >= 44 && height >= 44, `${await item.innerText()} is ${width} x ${height} px`);
  }
  await page.choose('Turn right');
  assert.deepEqual(await places(page), [[40, 40, 5], [70, 100, 0]]);
  await page.undo();

  await page.longPress(sheet.at({ x: 70, y: 100 }));
  await page.choose('Copy');
  assert.equal(await page.placed(), 3);
  await page.undo();
  await page.longPress(sheet.at({ x: 70, y: 100 }));
  await page.choose('Lock');
  await page.longPress(sheet.at({ x: 70, y: 100 }));
  const locked = await page.choices();
  assert.ok(await locked.getByRole('menuitem', { name: 'Remove' }).isDisabled(), 'a locked piece stays');
  await page.choose('Unlock');
  await page.longPress(sheet.at({ x: 70, y: 100 }));
  await page.choose('Remove');
  assert.equal(await page.placed(), 1);
  await page.longPress(sheet.at({ x: 40, y: 40 }));
  await page.choose('Edit the sticker');
  await page.page.getByRole('complementary', { name: 'Panels' }).getByRole('textbox', { name: 'Name' }).waitFor();
});

story('a finger that moves, or is joined by another, opens nothing', async (page) => {
  const sheet = await begin(page, [[40, 40], [70, 100]]);
  const at = sheet.at({ x: 40, y: 40 });
  await page.touchAndHold(at, { x: at.x + 40, y: at.y });
  await page.page.waitForTimeout(700);
  assert.equal(await isOpen(page), false);
  await page.lift();
  const [[x]] = await places(page);
  assert.ok(x > 45, 'it was carried');
  await page.pinch(sheet.at({ x: 60, y: 70 }), 80, 80, { holdMs: 700 });
  assert.equal(await isOpen(page), false);
});

story('beside the pieces the menu is about the sheet', async (page) => {
  const sheet = await begin(page, [[40, 40], [70, 100]]);
  const before = await page.picture();
  await page.pinch(sheet.at({ x: 52, y: 74 }), 80, 240);
  await page.until(async () => (await page.picture()) !== before, 'the sheet looks different');
  const corner = await page.onSheet(0.5, 0.5);
  await page.longPress(corner);
  assert.equal(await (await page.choices()).getAttribute('aria-label'), 'Sheet: what to do');
  await page.screenshot('choices sheet');
  await page.choose('Whole sheet');
  await page.still();
  assert.equal(await page.picture(), before);
  await page.longPress(sheet.at({ x: 90, y: 20 }));
  await page.choose('Choose all');
  assert.equal(await page.chosen(), '2 pieces');
  await page.tap(sheet.at({ x: 90, y: 20 }));
  await page.longPress(sheet.at({ x: 90, y: 20 }));
  await page.choose('Choose several');
  const several = page.page.getByRole('button', { name: 'Several' });
  assert.equal(await several.getAttribute('aria-pressed'), 'true');
});

story('a right click and two keys open it, Escape and a press beside it close it', async (page) => {
  const sheet = await begin(page, [[40, 40], [70, 100]]);
  const at = sheet.at({ x: 40, y: 40 });
  await page.page.mouse.click(at.x, at.y, { button: 'right' });
  const menu = await page.choices();
  await page.until(async () => (await page.focused()) === 'Turn left', 'the first choice has the focus');
  await page.press('ArrowDown');
  assert.equal(await page.focused(), 'Turn right');
  await page.press('ArrowUp');
  await page.press('ArrowUp');
  assert.equal(await page.focused(), 'Edit the sticker', 'it goes round');
  await page.press('Home');
  assert.equal(await page.focused(), 'Turn left');
  await page.press('Escape');
  await menu.waitFor({ state: 'hidden' });
  assert.equal(await page.focused(), 'Sheet', 'the focus is back where it was');
  assert.equal(await page.chosen(), 'Box 1', 'Escape closed the menu and did nothing else');
  for (const keys of ['ContextMenu', 'Shift+F10']) {
    await page.press(keys);
    assert.equal(await (await page.choices()).getAttribute('aria-label'), 'Box 1: what to do');
    // A press beside it closes it, and does nothing else.
    await page.tap(sheet.at({ x: 10, y: 140 }));
    await menu.waitFor({ state: 'hidden' });
    assert.equal(await page.chosen(), 'Box 1');
    assert.equal(await page.focused(), 'Sheet');
  }
  await page.press('Escape');
  await page.press('ContextMenu');
  assert.equal(await (await page.choices()).getAttribute('aria-label'), 'Sheet: what to do');
  await page.press('Tab');
  await menu.waitFor({ state: 'hidden' });
  await page.tap(at);
  // The keys are the menu's as soon as it is there, before it is drawn.
  const role = await page.page.getByRole('button', { name: 'More for what is chosen' }).evaluate(async (more) => {
    more.click();
    for (let turn = 0; turn < 100; turn += 1) await Promise.resolve();
    return document.activeElement.getAttribute('role');
  });
  assert.equal(role, 'menuitem');
  await page.press('Escape');
  await menu.waitFor({ state: 'hidden' });
  assert.equal(await page.focused(), 'More for what is chosen', 'and to the button that opened it');
});

story('two quick taps look at a piece, twice more at the whole sheet', async (page) => {
  const sheet = await begin(page, [[30, 30], [70, 100]]);
  await page.tap(sheet.at({ x: 30, y: 30 }));
  await page.page.waitForTimeout(500);
  const whole = await page.picture();
  await page.doubleTap(sheet.at({ x: 30, y: 30 }));
  await page.still();
  const near = await page.picture();
  assert.notEqual(near, whole);
  await page.screenshot('double tap near');
  // The piece fills the middle: what was 25 mm to its right is out of sight, and a tap half way to the edge is on it.
  const side = await page.onSheet(0.3, 0.5);
  await page.page.waitForTimeout(500);
  await page.tap(side);
  assert.equal(await page.chosen(), 'Box 1');
  await page.page.waitForTimeout(500);
  await page.doubleTap(side);
  await page.still();
  assert.equal(await page.picture(), whole);
  await page.pinch(sheet.at({ x: 52, y: 74 }), 80, 200);
  await page.still();
  assert.notEqual(await page.picture(), whole);
  await page.doubleTap(sheet.at({ x: 52, y: 74 }));
  await page.tap(sheet.at({ x: 30, y: 30 }));
  await page.still();
  assert.equal(await page.picture(), whole, 'beside the pieces two taps fit the sheet');
  assert.deepEqual(await places(page), [[30, 30, 0], [70, 100, 0]]);
});
