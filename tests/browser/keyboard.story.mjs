// A sheet is mended by keys alone: once the layout is open no pointer touches the page.

import assert from 'node:assert/strict';
import { boxes, layoutFile } from './layouts.mjs';
import { story } from './story.mjs';

/** Presses Tab until the focus is on what has this label, and fails if it never comes there. */
async function tabTo(page, label) {
  for (let presses = 0; presses < 120; presses += 1) {
    await page.press('Tab');
    if (label.test(await page.focused())) {
      return;
    }
  }
  assert.fail(`the Tab key never comes to ${label}`);
}

story('a piece is chosen, moved, turned back and taken off by keys', async (page) => {
  await page.open();
  await page.openFile(layoutFile('boxes.json', boxes([[30, 40], [70, 100]])));
  await page.noticed('boxes.json is open');
  await tabTo(page, /^2 pieces$/);
  await page.press('Enter');
  const [, second] = await page.pieces();

  await tabTo(page, /^Box 2\s+70, 100 mm/);
  await page.press('Enter');
  assert.equal(await page.chosen(), 'Box 2');
  assert.match(await page.focused(), /^Box 2/, 'the focus stays where it was');
  await tabTo(page, /^Sheet$/);
  await page.press('ArrowRight');
  await page.press('ArrowRight');
  await page.press('ArrowUp');
  assert.deepEqual((await page.pieces())[1], { ...second, x: 71, y: 99.5 });
  await page.press('Shift+ArrowDown');
  assert.deepEqual((await page.pieces())[1], { ...second, x: 71, y: 100.5 });
  // Nudges that follow each other at once are undone at once; on a slow machine they may be several steps.
  for (let presses = 0; presses < 4 && (await page.pieces())[1].x !== 70; presses += 1) {
    await page.press('Control+z');
  }
  assert.deepEqual((await page.pieces())[1], second);

  await page.press('Delete');
  assert.equal(await page.placed(), 1);
  await page.press('Control+z');
  assert.equal(await page.placed(), 2);
  await page.press('Control+Shift+z');
  assert.equal(await page.placed(), 1);
});

story('the list of pieces is walked and edited by keys, and says what became of each', async (page) => {
  await page.open();
  await page.openFile(layoutFile('boxes.json', boxes([[30, 40], [30, 53], [70, 100]])));
  await page.noticed('boxes.json is open');
  await page.pieces();
  const told = page.page.getByRole('status', { name: 'Chosen piece' });
  const line = (name) => page.page.getByRole('list', { name: 'Pieces' }).getByRole('button', { name });
  await line(/^Box 1/).focus();
  await page.press('ArrowDown');
  assert.match(await page.focused(), /^Box 2/);
  await page.press('Enter');
  await page.until(async () => /^Box 2: 30, 53 mm\. Box 1 is [\d.]+ mm from Box 2; 2 mm is asked\./.test(await told.innerText()), 'the gap is told');
  await page.press('End');
  assert.match(await page.focused(), /^Box 3/);
  await page.press('l');
  await page.until(async () => /^Box 3: 70, 100 mm, locked\. All rules hold\./.test(await told.innerText()), 'the lock is told');
  await page.press('l');
  await page.press('ArrowUp');
  await page.press('Enter');
  await page.press('Enter');
  assert.equal(await page.focused(), 'Sheet', 'a second time leads to the sheet');
  await page.press('Shift+ArrowDown');
  await page.press('Shift+ArrowDown');
  await page.until(async () => /^Box 2: 30, 55 mm\. All rules hold\./.test(await told.innerText()), 'the move is told');
  await line(/^Box 3/).focus();
  await page.press('Delete');
  assert.equal(await page.placed(), 2);
  await page.until(async () => /^Box 2/.test(await page.focused()), 'the focus stays in the list');
});
