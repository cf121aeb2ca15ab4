// The device has no room, or the browser keeps nothing: the page says so, loses nothing, and offers a file.

import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { boxes, layoutFile } from './layouts.mjs';
import { starsAndDiscs } from './pictures.mjs';
import { story } from './story.mjs';
import { WORDS } from './words.mjs';

/** How long the browser may go by what it found last about the room that is left. */
const ROOM_KNOWN_MS = 31_000;

async function savedFile(page) {
  const button = page.notSavedBar().getByRole('button', { name: WORDS.saveLayoutFile });
  const [download] = await Promise.all([page.page.waitForEvent('download'), button.click()]);
  return JSON.parse(readFileSync(await download.path(), 'utf8'));
}

story('a full device is told, nothing is lost, and it heals by itself', async (page) => {
  await page.open({ touch: true });
  await page.openFile(layoutFile('old.json', boxes([[60, 30]], { name: 'Old' })));
  await page.noticed('old.json is open');
  await page.saved();
  await page.openFile(layoutFile('boxes.json', boxes([[30, 40], [70, 100]])));
  await page.noticed('boxes.json is open');
  await page.saved();
  await page.leaveRoom(1);
  await page.page.waitForTimeout(ROOM_KNOWN_MS);
  const sheet = await page.wholeSheet();
  await page.touchDrag(sheet.at({ x: 30, y: 40 }), sheet.at({ x: 42, y: 60 }));
  await page.notSavedBar().getByText('There is no room left on this device').waitFor();
  assert.equal(await page.saveState(), 'Not saved: no room left');
  const [{ x }] = await page.pieces();
  assert.ok(Math.abs(x - 42) < 0.5, `the piece lies at ${x}`);
  const file = await savedFile(page);
  assert.ok(Math.abs(file.pieces[0].x_mm - 42) < 0.5, 'the file holds what is on the desk');
  // Deleting works where nothing else does.
  assert.deepEqual(await page.sheets(2), ['Boxes', 'Old']);
  await page.withSheet('Delete', 'Old');
  await page.noticedInSheets('Old is deleted for good');
  assert.deepEqual(await page.sheets(1), ['Boxes']);
  await page.closeSheets();

  await page.leaveRoom();
  await page.saved();
  await page.notSavedBar().waitFor({ state: 'hidden' });
  await page.reload();
  await page.noticed('Your last sheet is back');
  const [piece] = await page.pieces();
  assert.equal(piece.x, x);
}, { seconds: 120 });

story('a picture that found no room is kept once there is some', async (page) => {
  await page.open();
  await page.leaveRoom(1);
  await page.openFile(layoutFile('boxes.json', boxes([[30, 40]])));
  const buffer = await starsAndDiscs({ width: 600, height: 400, across: 3, down: 2 });
  await page.importPicture({ name: 'discs.png', mimeType: 'image/png', buffer });
  await page.drawingsFound();
  await page.addDrawings();
  await page.notSavedBar().getByText('There is no room left on this device').waitFor();
  const look = async () => (await page.smallPictures())[1];
  const before = await look();
  await page.leaveRoom();
  await page.saved();
  await page.reload();
  await page.noticed('Your last sheet is back');
  await page.until(async () => (await look()) === before, 'the sticker looks as before');
});

story('a sheet opened while nothing can be kept is a step that can be taken back', async (page) => {
  await page.open({ touch: true });
  await page.leaveRoom(1);
  await page.openFile(layoutFile('boxes.json', boxes([[30, 40], [70, 100]])));
  await page.notSavedBar().waitFor();
  const places = await page.pieces();
  await page.openFile(layoutFile('other.json', boxes([[60, 30]], { name: 'Other' })));
  await page.noticed('other.json is open');
  assert.equal(await page.placed(), 1);
  await page.undo();
  assert.deepEqual(await page.pieces(), places);
  await page.leaveRoom();
});

story('a browser that keeps nothing is told once something is changed', async (page) => {
  await page.open({
    touch: true, beforeStart: "Object.defineProperty(window, 'indexedDB', { get: () => undefined })",
  });
  await page.until(async () => (await page.placed()) > 0, 'a sample lies on the desk');
  await page.openFile(layoutFile('boxes.json', boxes([[30, 40], [70, 100]])));
  await page.notSavedBar().getByText('This browser keeps nothing for this page').waitFor();
  await page.until(async () => (await page.saveState()) === 'Not saved: this browser keeps nothing', 'it is told on top');
  assert.equal((await savedFile(page)).pieces.length, 2);
  await page.notSavedBar().getByRole('button', { name: WORDS.close, exact: true }).click();
  await page.notSavedBar().waitFor({ state: 'hidden' });
  assert.equal(await page.placed(), 2);
});
