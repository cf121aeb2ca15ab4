// Before anything is drawn the sheet is roughed in: with blobs by pen and finger, and with plain shapes; later finished
// art takes their place.

import assert from 'node:assert/strict';
import { boxes, file, layoutFile } from './layouts.mjs';
import { SCREENS, looksWell } from './look.mjs';
import { story } from './story.mjs';

const EMPTY = boxes([], { name: 'Plan', stickers: [] });

const CLEAR = /all rules hold$/;

/** A crab of 19.2 x 18 mm, and a whale that is too large for a crab's place. */
const ART = file('art.svg', `<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="60mm" viewBox="0 0 100 60">
  <rect id="Crab" x="4" y="4" width="19.2" height="18" fill="#c33"/>
  <rect id="Whale" x="30" y="5" width="60" height="50" fill="#338"/></svg>`, 'image/svg+xml');

async function withEmptySheet(page, how = {}) {
  await page.open({ touch: true, ...how });
  await page.openFile(layoutFile('plan.json', EMPTY));
  await page.noticed('plan.json is open');
  await page.closeNotice();
  return page.wholeSheet();
}

/** Once round about a point of the sheet, in mm. */
function round(sheet, { x, y, radius }, part = 1) {
  return Array.from({ length: 41 }, (_, step) => {
    const angle = (step / 40) * part * 2 * Math.PI;
    return sheet.at({ x: x + radius * Math.cos(angle), y: y + radius * Math.sin(angle) });
  });
}

/** What the list says of each sticker, in one line. */
async function tray(page) {
  return (await page.stickers().allInnerTexts()).map((text) => text.replace(/\s+/g, ' ').trim());
}

story('a closed line by pen becomes a rough sticker where it was drawn, and undo takes it away', async (page) => {
  const sheet = await withEmptySheet(page);
  // The empty desk invites to it.
  await page.page.locator('.empty').getByRole('button', { name: 'Draw a blob' }).click();
  await page.penPath(round(sheet, { x: 40, y: 60, radius: 11 }));
  await page.until(async () => (await page.placed()) === 1, 'the blob lies on the sheet');
  assert.match((await tray(page))[0], /^rough Blob 1 1 placed/);
  await page.goTo('Press');
  assert.match(await page.page.locator('.press-side').innerText(), /1 piece is rough/);
  await page.goTo('Desk');
  const [piece] = await page.pieces();
  assert.ok(Math.abs(piece.x - 40) < 0.3 && Math.abs(piece.y - 60) < 0.3, `it lies at ${piece.x}, ${piece.y}`);
  await page.openSticker('Blob 1');
  const width = Number.parseFloat(await page.page.getByRole('textbox', { name: 'Width' }).inputValue());
  assert.ok(Math.abs(width - 22) < 0.6, `it is ${width} mm wide`);
  await page.undo();
  assert.equal(await page.placed(), 0);
  assert.deepEqual(await tray(page), []);
  await page.redo();
  assert.equal(await page.placed(), 1);
});

story('a finger draws one after the other, while the pen is away', async (page) => {
  const sheet = await withEmptySheet(page);
  await page.drawBlob();
  await page.touchPath(round(sheet, { x: 30, y: 40, radius: 9 }));
  await page.touchPath(round(sheet, { x: 70, y: 90, radius: 14 }));
  await page.until(async () => (await page.placed()) === 2, 'both lie on the sheet');
  await page.stopDrawing();
  // Now the same finger moves it.
  await page.touchDrag(sheet.at({ x: 70, y: 90 }), sheet.at({ x: 60, y: 100 }));
  const pieces = await page.pieces();
  assert.deepEqual(pieces.map(({ name }) => name), ['Blob 1', 'Blob 2']);
  assert.ok(Math.abs(pieces[1].x - 60) < 0.6 && Math.abs(pieces[1].y - 100) < 0.6, JSON.stringify(pieces));
});

story('Escape, a second finger and the palm leave no trace of their own', async (page) => {
  const sheet = await withEmptySheet(page);
  await page.drawBlob();
  const line = round(sheet, { x: 40, y: 60, radius: 11 });
  await page.penPath(line, { meanwhile: () => page.press('Escape') });
  await page.touchAndHold(line[0], line[12]);
  await page.secondFinger(line[12], sheet.at({ x: 80, y: 110 }));
  assert.deepEqual(await tray(page), []);
  assert.equal(await page.page.getByRole('button', { name: 'Undo', exact: true }).isDisabled(), true, 'nothing was done');
  const palm = sheet.at({ x: 70, y: 110 });
  await page.penPath(line, { meanwhile: () => page.touchDrag(palm, { x: palm.x + 50, y: palm.y + 40 }) });
  await page.until(async () => (await page.placed()) === 1, 'the pen drew all the same');
  await page.undo();
  assert.deepEqual(await tray(page), []);
});

story('a slip of the pen and a line that does not come back say why they are no blobs', async (page) => {
  const sheet = await withEmptySheet(page);
  await page.drawBlob();
  await page.penPath(round(sheet, { x: 40, y: 60, radius: 0.8 }));
  await page.noticed(/too small for a sticker/);
  await page.penPath(round(sheet, { x: 40, y: 60, radius: 12 }, 0.4));
  await page.noticed(/does not come back/);
  assert.deepEqual(await tray(page), []);
  await page.penPath(round(sheet, { x: 40, y: 60, radius: 12 }));
  await page.until(async () => (await page.placed()) === 1, 'the next one counts');
  assert.equal(await page.notice(), '', 'and what was said before is gone');
});

story('three hearts of the size asked for are planned, placed, and give their places to finished art', async (page) => {
  await withEmptySheet(page);
  await page.roughIn({ shape: 'Heart', width: '24', height: '22', count: 3, isExact: true });
  await page.noticed(/Heart is on the sheet, one of 3 wanted/);
  await page.placeThese();
  await page.until(async () => (await page.placed()) === 3, 'all three are placed', { seconds: 40 });
  await page.packed();
  assert.match(await page.tally(), CLEAR);
  const before = await page.pieces();

  await page.openSticker('Heart');
  await page.replaceByArt(ART);
  const dialog = page.replaceDialog();
  assert.equal(await dialog.getByText(/drawings found/).innerText(), '2 drawings found');
  await dialog.getByRole('button', { name: 'Crab' }).click();
  await dialog.getByText('19.2 × 18 mm, was 24 × 22 mm').waitFor();
  await dialog.getByRole('button', { name: 'Fit the old size' }).click();
  await dialog.getByText(/^23\.4\d+ × 22 mm, was 24 × 22 mm$/).waitFor();
  await dialog.getByRole('button', { name: 'True size' }).click();
  await dialog.getByRole('button', { name: 'Replace', exact: true }).click();
  assert.match(await page.noticed(/Heart: 19\.2/), /^Heart: 19\.2 × 18 mm, was 24 × 22 mm\.$/);
  assert.deepEqual(await page.pieces(), before);
  assert.match((await tray(page))[0], /^Heart 3 placed/);

  // A drawing that is too large says so, and the findings have the rest.
  await page.openSticker('Heart');
  await page.replaceByArt(ART);
  await dialog.getByRole('button', { name: 'Whale' }).click();
  await dialog.getByRole('checkbox').first().check();
  await dialog.getByRole('button', { name: 'Replace', exact: true }).click();
  await page.noticed(/Whale: 60 × 50 mm, was 19\.2 × 18 mm\. \d+ rules? (is|are) broken now/);
  assert.doesNotMatch(await page.tally(), CLEAR);
  const places = (pieces) => pieces.map(({ x, y, turn }) => ({ x, y, turn }));
  assert.deepEqual(places(await page.pieces()), places(before));
  await page.undo();
  await page.undo();
  assert.match((await tray(page))[0], /^rough Heart 3 placed/);
  assert.match(await page.tally(), CLEAR);
});

story('a shape too large for the sheet lies on the tray, a size that cannot be keeps the dialog open', async (page) => {
  await withEmptySheet(page);
  await page.roughIn({ shape: 'Star', width: '0.2' });
  const dialog = page.roughDialog();
  await dialog.getByText(/from 1 mm to 1000 mm/).waitFor();
  assert.match(await page.focused(), /^Width/);
  await dialog.getByRole('textbox', { name: 'Width' }).fill('8 in');
  await dialog.getByRole('button', { name: 'Put it on the sheet' }).click();
  await page.noticed(/Star is on the tray only/);
  await page.goTo('Press');
  assert.doesNotMatch(await page.page.locator('.press-side').innerText(), /(is|are) rough/, 'nothing on the sheet is rough');
  await page.goTo('Desk');
  assert.match((await tray(page))[0], /^rough Star 0 placed/);
  await page.undo();
  assert.deepEqual(await tray(page), []);
});

story('a rough sticker takes another size, by keys alone', async (page) => {
  await withEmptySheet(page);
  await page.page.getByRole('region', { name: 'Stickers', exact: true }).getByRole('button', { name: 'Rough in' }).focus();
  await page.press('Enter');
  await page.roughDialog().getByRole('button', { name: 'Oval', exact: true }).focus();
  await page.press('Enter');
  await page.roughDialog().getByRole('button', { name: 'Put it on the sheet' }).focus();
  await page.press('Enter');
  await page.noticed(/Oval is on the sheet/);
  await page.openSticker('Oval');
  await page.page.getByRole('button', { name: 'Draw a blob' }).focus();
  await page.press('Enter');
  await page.page.getByRole('button', { name: 'Stop drawing' }).waitFor();
  await page.press('Escape');
  await page.page.getByRole('button', { name: 'Stop drawing' }).waitFor({ state: 'hidden' });
  await page.openSticker('Oval');
  const width = page.page.getByRole('textbox', { name: 'Width' });
  await width.fill('30');
  await width.press('Enter');
  await page.page.getByText(/^33\.0\d* × 21\.0\d* mm with its border$|^32\.0\d* × 20\.0\d* mm with its border$/).waitFor();
});

for (const [width, height] of SCREENS) {
  for (const colorScheme of ['light', 'dark']) {
    const screen = `${width}x${height} ${colorScheme}`;
    story(`roughing in looks well at ${screen}`, async (page, say) => {
      const sheet = await withEmptySheet(page, { viewport: { width, height }, colorScheme, reducedMotion: true });
      await looksWell(page, `rough empty ${screen}`, say);
      await page.page.locator('.empty').getByRole('button', { name: 'Draw a blob' }).click();
      await page.penPath(round(sheet, { x: 30, y: 40, radius: 14 }));
      await page.penPath(round(sheet, { x: 75, y: 60, radius: 10 }), {
        meanwhile: () => looksWell(page, `rough half drawn ${screen}`, say),
      });
      await looksWell(page, `rough drawing ${screen}`, say);
      await page.penPath(round(sheet, { x: 40, y: 60, radius: 1.2 }));
      await page.noticed(/too small/);
      await looksWell(page, `rough refused ${screen}`, say);
      await page.stopDrawing();
      await page.closeNotice();
      await page.openShapes();
      await looksWell(page, `rough dialog ${screen}`, say);
      await page.press('Escape');
      await page.roughIn({ shape: 'Heart' });
      await page.noticed(/Heart is on the sheet/);
      await page.closeNotice();
      await looksWell(page, `rough sheet ${screen}`, say);
      await page.openSticker('Heart');
      await looksWell(page, `rough panel ${screen}`, say);
      await page.replaceByArt(ART);
      await page.replaceDialog().getByText('2 drawings found').waitFor();
      await looksWell(page, `rough replace ${screen}`, say);
    });
  }
}
