// Two tabs with the same sheet: one keeps it, the other says so, and nothing is ever overwritten by an older state.

import assert from 'node:assert/strict';
import { boxes, layoutFile } from './layouts.mjs';
import { story } from './story.mjs';
import { WORDS } from './words.mjs';

async function begin(page) {
  await page.open({ touch: true });
  await page.openFile(layoutFile('boxes.json', boxes([[30, 40], [70, 100]])));
  await page.noticed('boxes.json is open');
  await page.saved();
}

/** Drags the first piece and gives where it is then. */
async function drag(page, from, to) {
  const sheet = await page.wholeSheet();
  await page.touchDrag(sheet.at(from), sheet.at(to));
  return firstPlace(page);
}

async function firstPlace(page) {
  const [{ x, y }] = await page.pieces();
  return { x, y };
}

/** Waits until the page says that it keeps nothing, and why. */
async function saysNotSaved(page, pattern) {
  await page.notSavedBar().getByText(pattern).waitFor();
  assert.match(await page.saveState(), /^Not saved: open in another tab$/);
}

const press = (page, name) => page.notSavedBar().getByRole('button', { name }).click();

story('a second tab shows the sheet, keeps nothing, and overwrites nothing', async (page) => {
  await begin(page);
  const second = await page.secondTab();
  await saysNotSaved(second, 'open in another tab, which keeps it');
  await drag(second, { x: 30, y: 40 }, { x: 60, y: 30 });
  await page.page.bringToFront();
  const kept = await drag(page, { x: 30, y: 40 }, { x: 42, y: 60 });
  await page.saved();
  await second.page.waitForTimeout(1000);
  await second.page.close();

  await page.reload();
  await page.noticed('Your last sheet is back');
  assert.deepEqual(await firstPlace(page), kept);
  assert.deepEqual(second.complaints, []);
});

story('a second tab takes the sheet over as the first one left it, and the first can take it back', async (page) => {
  await begin(page);
  const second = await page.secondTab();
  await saysNotSaved(second, 'open in another tab, which keeps it');
  const own = await drag(second, { x: 70, y: 100 }, { x: 70, y: 120 });
  assert.deepEqual(own, { x: 30, y: 40 });
  await page.page.bringToFront();
  const sheet = await page.wholeSheet();
  await page.touchDrag(sheet.at({ x: 30, y: 40 }), sheet.at({ x: 42, y: 60 }));

  // Right after the change, so that it is not on the device yet.
  await press(second, WORDS.takeOver);
  await second.noticed('This tab keeps the sheet now');
  await second.page.bringToFront();
  const left = await firstPlace(second);
  assert.ok(Math.abs(left.x - 42) < 0.5, `the second tab has the first one's last change: ${left.x}`);
  assert.equal(await second.saveState(), 'Saved on this device');
  // What the second tab had changed before is not lost.
  const lines = await second.earlierStates('Boxes');
  assert.equal(await lines.filter({ hasText: 'changed in another tab' }).count(), 1);
  await second.closeSheets();
  await saysNotSaved(page, 'Another tab keeps this sheet now');

  const later = await drag(second, left, { x: 60, y: 30 });
  await second.saved();
  await page.page.bringToFront();
  await drag(page, { x: 42, y: 60 }, { x: 20, y: 130 });
  await page.page.waitForTimeout(1000);
  await press(page, WORDS.takeOver);
  await page.noticed('This tab keeps the sheet now');
  assert.deepEqual(await firstPlace(page), later);
  await saysNotSaved(second, 'Another tab keeps this sheet now');
  await page.saved();
  await page.reload();
  await page.noticed('Your last sheet is back');
  assert.deepEqual(await firstPlace(page), later);
  assert.deepEqual(second.complaints, []);
});

story('a tab that sleeps has the sheet taken away, and cannot overwrite it when it wakes', async (page) => {
  await begin(page);
  const second = await page.secondTab();
  await saysNotSaved(second, 'open in another tab, which keeps it');
  // A busy tab neither hears nor answers.
  const asleep = page.page.evaluate(() => {
    const end = Date.now() + 4000;
    while (Date.now() < end);
  });
  await press(second, WORDS.takeOver);
  await second.noticed('This tab keeps the sheet now');
  await second.page.bringToFront();
  const kept = await drag(second, { x: 30, y: 40 }, { x: 42, y: 60 });
  await second.saved();
  await asleep;
  await saysNotSaved(page, 'Another tab keeps this sheet now');
  await page.page.bringToFront();
  await drag(page, { x: 30, y: 40 }, { x: 60, y: 30 });
  await page.page.waitForTimeout(1000);
  await second.reload();
  await second.noticed('Your last sheet is back');
  assert.deepEqual(await firstPlace(second), kept);
});

story('a copy kept in the second tab is a sheet of its own', async (page) => {
  await begin(page);
  const second = await page.secondTab();
  await saysNotSaved(second, 'open in another tab, which keeps it');
  await press(second, WORDS.keepACopy);
  await second.noticed('is a sheet of its own now');
  await second.saved();
  assert.equal(await second.nameOfLayout(), 'Boxes copy');
  const copied = await drag(second, { x: 30, y: 40 }, { x: 42, y: 60 });
  await second.saved();
  await page.page.bringToFront();
  assert.equal(await page.saveState(), 'Saved on this device');
  assert.deepEqual(await firstPlace(page), { x: 30, y: 40 });
  assert.deepEqual((await page.sheets(2)).sort(), ['Boxes', 'Boxes copy']);
  await second.reload();
  await second.noticed('Your last sheet is back');
  assert.deepEqual(await firstPlace(second), copied);
});

story('where tabs have no locks, an older state still overwrites nothing', async (page) => {
  const noLocks = "Object.defineProperty(Navigator.prototype, 'locks', { get: () => undefined })";
  await page.open({ touch: true, beforeStart: noLocks });
  await page.openFile(layoutFile('boxes.json', boxes([[30, 40], [70, 100]])));
  await page.noticed('boxes.json is open');
  await page.saved();
  const second = await page.secondTab();
  await second.page.addInitScript(noLocks);
  await second.reload();
  await second.noticed('Your last sheet is back');
  const kept = await drag(second, { x: 30, y: 40 }, { x: 42, y: 60 });
  await second.saved();
  await page.page.bringToFront();
  await drag(page, { x: 30, y: 40 }, { x: 60, y: 30 });
  await saysNotSaved(page, 'Another tab keeps this sheet now');
  await second.page.bringToFront();
  await second.reload();
  await second.noticed('Your last sheet is back');
  assert.deepEqual(await firstPlace(second), kept);
});
