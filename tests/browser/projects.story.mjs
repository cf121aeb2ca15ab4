// Work is safe on the device: sheets and pictures are back, whatever happens to the page, and earlier states too.

import assert from 'node:assert/strict';
import { boxes, file, layoutFile } from './layouts.mjs';
import { starsAndDiscs } from './pictures.mjs';
import { story } from './story.mjs';

/** Opens boxes under a name, and waits until they are a project of their own. */
async function begin(page, name, places) {
  await page.openFile(layoutFile(`${name}.json`, boxes(places, { name })));
  await page.noticed(`${name}.json is open`);
  await page.saved();
}

/** Drags the first piece of the sheet, and gives where it is then. */
async function drag(page, from, to) {
  const sheet = await page.wholeSheet();
  await page.touchDrag(sheet.at(from), sheet.at(to));
  const [{ x, y }] = await page.pieces();
  assert.ok(Math.abs(x - to.x) < 0.5 && Math.abs(y - to.y) < 0.5, `the piece was moved to ${x}, ${y}`);
  return { x, y };
}

/** Types a new name into the field that has opened and taken the focus. */
async function typeName(page, name) {
  await page.until(async () => (await page.focused()) === 'New name', 'the field has the focus');
  await page.press('Control+A');
  await page.page.keyboard.type(name);
  await page.press('Enter');
}

const firstPlace = async (page) => {
  const [{ x, y }] = await page.pieces();
  return { x, y };
};


story('a picture that came in is back after a reload', async (page) => {
  await page.open();
  const buffer = await starsAndDiscs({ width: 600, height: 400, across: 3, down: 2 });
  await page.importPicture({ name: 'discs.png', mimeType: 'image/png', buffer });
  await page.drawingsFound();
  const bare = '<svg xmlns="http://www.w3.org/2000/svg" width="30mm" height="20mm"><path fill="#c33" d="M5 5H90V60H5Z"/></svg>';
  await page.addDrawings();
  await page.importPicture(file('box.svg', bare, 'image/svg+xml'));
  await page.drawingsFound();
  await page.addDrawings();
  await page.saved();
  assert.equal(await page.stickers().count(), 7);
  const before = await page.smallPictures();
  assert.equal(new Set(before).size, 7, 'every sticker looks different');

  await page.reload();
  await page.noticed('Your last sheet is back');
  await page.until(async () => JSON.stringify(await page.smallPictures()) === JSON.stringify(before), 'the stickers look as before');
});

story('a page that dies a second after a change has lost nothing', async (page) => {
  await page.open({ touch: true });
  await begin(page, 'Boxes', [[30, 40], [70, 100]]);
  const place = await drag(page, { x: 30, y: 40 }, { x: 42, y: 60 });
  await page.page.waitForTimeout(1000);
  await page.dieAndComeBack();
  await page.noticed('Your last sheet is back');
  assert.deepEqual(await firstPlace(page), place);
  assert.equal(await page.saveState(), 'Saved on this device');
});

story('a page that is closed right after a change has lost nothing', async (page) => {
  await page.open({ touch: true });
  await begin(page, 'Boxes', [[30, 40], [70, 100]]);
  const sheet = await page.wholeSheet();
  await page.touchDrag(sheet.at({ x: 30, y: 40 }), sheet.at({ x: 42, y: 60 }));
  await page.reload();
  await page.noticed('Your last sheet is back');
  const { x, y } = await firstPlace(page);
  assert.ok(Math.abs(x - 42) < 0.5 && Math.abs(y - 60) < 0.5, `the piece lies at ${x}, ${y}`);
});

story('two sheets are kept apart, and each is opened as it was left', async (page) => {
  await page.open({ touch: true });
  await begin(page, 'Low tide', [[30, 40], [70, 100]]);
  const low = await drag(page, { x: 30, y: 40 }, { x: 42, y: 60 });
  await begin(page, 'High tide', [[60, 30], [30, 90], [70, 120]]);
  assert.deepEqual(await page.sheets(2), ['High tide', 'Low tide']);
  await page.openSheet('Low tide');
  assert.equal(await page.placed(), 2);
  assert.deepEqual(await firstPlace(page), low);
  assert.equal(await page.saveState(), 'Saved on this device');
  await page.openSheet('High tide');
  assert.equal(await page.placed(), 3);
  await page.reload();
  await page.until(async () => (await page.nameOfLayout()) === 'High tide', 'the tab comes back to its own sheet');
});

story('sheets are renamed and copied in the list', async (page) => {
  await page.open();
  await begin(page, 'Low tide', [[30, 40]]);
  await begin(page, 'High tide', [[60, 30]]);
  await page.sheets(2);
  await page.withSheet('Rename', 'Low tide');
  await typeName(page, 'Ebb');
  await page.until(async () => (await page.sheets(2)).includes('Ebb'), 'the sheet has its new name');
  await page.withSheet('Duplicate', 'Ebb');
  assert.deepEqual((await page.sheets(3)).sort(), ['Ebb', 'Ebb copy', 'High tide']);
  await page.withSheet('Rename', 'High tide');
  await typeName(page, 'Flood');
  await page.until(async () => (await page.sheets(3)).includes('Flood'), 'the sheet on the desk has its new name');
  await page.closeSheets();
  assert.equal(await page.nameOfLayout(), 'Flood');
  await page.openSheet('Ebb copy');
  assert.equal(await page.nameOfLayout(), 'Ebb copy');
  assert.equal(await page.placed(), 1);
});

story('an earlier state is one step back, and can itself be taken back', async (page) => {
  await page.open({ touch: true });
  await begin(page, 'Boxes', [[30, 40], [70, 100]]);
  const moved = await drag(page, { x: 30, y: 40 }, { x: 42, y: 60 });
  await page.saved();
  const lines = await page.earlierStates('Boxes');
  assert.match(await lines.first().innerText(), /2 pieces/);
  await lines.last().getByRole('button').click();
  await page.noticed('This is the sheet as it was');
  assert.deepEqual(await firstPlace(page), { x: 30, y: 40 });
  await page.undo();
  assert.deepEqual(await firstPlace(page), moved);
  await page.redo();
  await page.saved();
  await page.reload();
  await page.noticed('Your last sheet is back');
  assert.deepEqual(await firstPlace(page), { x: 30, y: 40 });
  // What was there before going back is an earlier state now.
  const kept = await page.earlierStates('Boxes');
  await kept.filter({ hasText: 'before going back' }).getByRole('button').click();
  await page.until(async () => JSON.stringify(await firstPlace(page)) === JSON.stringify(moved), 'it is as it was moved');
});

story('packing leaves an earlier state behind', async (page) => {
  await page.open();
  await begin(page, 'Boxes', [[30, 40], [70, 100]]);
  await page.packRepeatably({ rounds: 5, seed: 1 });
  await page.fillSheet();
  await page.until(async () => (await page.placed()) > 2, 'packing has found something');
  await page.packed();
  await page.saved();
  const lines = await page.earlierStates('Boxes');
  // The state before packing is the one that was kept when the sheet began.
  assert.match(await lines.last().innerText(), /2 pieces/);
  await lines.last().getByRole('button').click();
  await page.until(async () => (await page.placed()) === 2, 'the two boxes lie as before');
});

story('a deleted sheet is had back', async (page) => {
  await page.open({ touch: true });
  await begin(page, 'Low tide', [[30, 40], [70, 100]]);
  await begin(page, 'High tide', [[60, 30]]);
  await page.sheets(2);
  await page.withSheet('Delete', 'High tide');
  assert.deepEqual(await page.sheets(1), ['Low tide']);
  await page.until(async () => (await page.focused()) === 'Have it back', 'the way back has the focus');
  await page.press('Enter');
  assert.deepEqual((await page.sheets(2)).sort(), ['High tide', 'Low tide']);
  await page.closeSheets();
  await page.until(async () => (await page.nameOfLayout()) === 'High tide', 'it is on the desk again');
  await page.withSheet('Delete', 'Low tide');
  assert.deepEqual(await page.sheets(1), ['High tide']);
  await page.reload();
  assert.deepEqual(await page.sheets(1), ['High tide']);
});

story('the last sheet deleted makes room for a sample, which is no sheet of its own yet', async (page) => {
  await page.open();
  await begin(page, 'Boxes', [[30, 40], [70, 100]]);
  await page.sheets(1);
  await page.withSheet('Delete', 'Boxes');
  await page.sheets(0);
  await page.closeSheets();
  await page.until(async () => (await page.placed()) > 2, 'a sample lies on the desk');
  assert.equal(await page.saveState(), '');
  await page.reload();
  await page.until(async () => (await page.placed()) > 2, 'a sample lies on the desk');
});

story('what an earlier version of the page kept becomes a sheet', async (page) => {
  const layout = JSON.stringify(boxes([[30, 40], [70, 100]], { name: 'From before' }));
  const keepOnce = `if (!sessionStorage.wasKept) {
    sessionStorage.wasKept = 'yes';
    localStorage['stickleaf-last-sheet'] = ${JSON.stringify(JSON.stringify({ layout, lent: [] }))};
  }`;
  await page.open({ beforeStart: keepOnce });
  await page.noticed('Your last sheet is back');
  assert.equal(await page.nameOfLayout(), 'From before');
  assert.equal(await page.placed(), 2);
  assert.deepEqual(await page.sheets(1), ['From before']);
  assert.equal(await page.page.evaluate(() => localStorage.getItem('stickleaf-last-sheet')), null);
});

story('a sample beside a sheet is not kept until it is touched, and leaves the sheet alone', async (page) => {
  await page.open({ touch: true });
  await begin(page, 'Boxes', [[30, 40], [70, 100]]);
  await page.openSample('Look up tonight');
  await page.until(async () => (await page.saveState()) === '', 'there is nothing to keep');
  assert.deepEqual(await page.sheets(1), ['Boxes']);
  await page.closeSheets();
  const [{ x, y }] = await page.pieces();
  const sheet = await page.wholeSheet();
  await page.touchDrag(sheet.at({ x, y }), sheet.at({ x: x + 5, y }));
  await page.saved();
  assert.deepEqual(await page.sheets(2), ['Look up tonight', 'Boxes']);
  await page.closeSheets();
  const before = await page.smallPictures();
  assert.ok(new Set(before).size > 5, 'the stickers look different');
  await page.reload();
  await page.noticed('Your last sheet is back');
  await page.until(async () => JSON.stringify(await page.smallPictures()) === JSON.stringify(before), 'its lent pictures are back');
  await page.openSheet('Boxes');
  assert.equal(await page.placed(), 2);
});
