// A picture that has changed since, and cut lines that a blade can follow.

import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { boxes, file, layoutFile } from './layouts.mjs';
import { SCREENS, looksWell } from './look.mjs';
import { story } from './story.mjs';

const svg = (shapes) => file('sea.svg', `<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="60mm" viewBox="0 0 100 60">
  ${shapes}</svg>`, 'image/svg+xml');

const CRAB = '<rect id="Crab" x="5" y="5" width="20" height="12" fill="#c33"/>';
const CLAWED = '<path id="Crab" d="M5 5H25V9H29V13H25V17H5Z" fill="#c33"/>';
const FISH = '<rect id="Fish" x="45" y="10" width="16" height="16" fill="#338"/>';
const STAR = '<path id="Star" d="M70 10H90L80 30Z" fill="#cc3"/>';
const SHELL = '<rect id="Shell" x="10" y="40" width="14" height="10" fill="#3a3"/>';

/** A sheet with the three drawings of the first picture on the tray, and one crab and one star placed. */
async function withSea(page, how = {}) {
  await page.open(how);
  await page.openFile(layoutFile('empty.json', boxes([], { name: 'Sea', stickers: [] })));
  await page.noticed('empty.json is open');
  await page.importPicture(svg(CRAB + FISH + STAR));
  assert.equal(await page.drawingsFound(), '3 drawings found');
  await page.addDrawings();
  for (const name of ['Crab', 'Star']) {
    await page.openSticker(name);
    await page.page.getByRole('button', { name: 'Put one on the sheet' }).click();
    await page.closePanel();
  }
  await page.until(async () => (await page.placed()) === 2, 'crab and star lie on the sheet');
}

async function saved(page) {
  const layout = JSON.parse(readFileSync(await page.exportLayout(), 'utf8'));
  await page.goTo('Desk');
  return layout;
}

story('a changed picture is known by its name, says what it changes, and changes no place', async (page) => {
  await withSea(page);
  const before = await saved(page);
  await page.importPicture(svg(CLAWED + FISH + SHELL));
  const dialog = page.importDialog();
  await dialog.getByText('1 with a new outline, 1 with the same, 1 new, 1 gone').waitFor();
  const lines = await dialog.getByRole('list', { name: 'What becomes of the stickers' }).getByRole('listitem').allInnerTexts();
  assert.match(lines[0], /Crab\s+new outline: 256\.0 mm², was 240\.0 mm²; 16\.0 mm² differ/);
  assert.match(lines[1], /Star\s+no longer in the picture/);
  assert.match(lines[2], /Shell\s+new drawing of 140\.0 mm²/);
  assert.match(lines[3], /Fish\s+same outline/);
  // It could still become new stickers.
  await dialog.getByRole('button', { name: 'Add as new' }).click();
  await dialog.getByRole('button', { name: 'Add 3 stickers' }).waitFor();
  await dialog.getByRole('button', { name: 'Update stickers' }).click();
  await dialog.getByRole('button', { name: 'Update 2 stickers' }).click();
  await page.noticed(/^sea\.svg: 1 with a new outline, 1 with the same, 1 new, 1 gone\./);
  const after = await saved(page);
  assert.deepEqual(after.pieces, before.pieces);
  assert.deepEqual(after.stickers.map(({ name }) => name), ['Crab', 'Fish', 'Star', 'Shell']);
  assert.deepEqual(after.stickers.map(({ gone }) => gone ?? false), [false, false, true, false]);
  assert.notEqual(after.stickers[0].art.file, after.stickers[2].art.file, 'what is gone keeps the old picture');
  await page.showPanel('Findings');
  await page.page.getByText(/drawing of Star is not in its picture any more/).waitFor();
  await page.openSticker('Star');
  await page.page.getByRole('button', { name: 'Keep it anyway' }).click();
  assert.equal((await saved(page)).stickers[2].gone, undefined);
  // One step back each.
  await page.undo();
  await page.undo();
  assert.deepEqual(await saved(page), before);
});

story('corners are rounded for the blade, the line moves outward and says how far', async (page) => {
  await page.open();
  const l = { id: 'l', name: 'Ell', outline: 'M-15 -15H-5V5H15V15H-15Z', wanted: { at_least: 1 }, turns: 'none' };
  await page.openFile(layoutFile('l.json', boxes([], { name: 'L', stickers: [l], pieces: [{ sticker: 'l', x_mm: 50, y_mm: 60 }] })));
  await page.noticed('l.json is open');
  await page.showPanel('Findings');
  await page.page.getByText(/Ell has an inward corner of radius/).waitFor();
  await page.openSticker('Ell');
  await page.page.getByRole('checkbox', { name: 'Round its corners for the blade' }).check();
  const told = page.page.getByText(/^The line moves outward by .* at most/);
  assert.match(await told.innerText(), /by 0\.15\d* mm at most .* The border stays 1 mm or wider/);
  await page.showPanel('Findings');
  await page.until(async () => (await page.page.getByText(/inward corner/).count()) === 0, 'the warning is gone');
  await page.openSticker('Ell');
  const radius = page.page.getByRole('textbox', { name: 'Smallest radius outward' });
  await radius.fill('-1');
  await radius.press('Enter');
  await page.page.getByText('type a radius from 0 to 100 mm').waitFor();
  await radius.fill('3');
  await radius.press('Enter');
  await page.until(async () => /by 0\.5\d+ mm/.test(await told.innerText()), 'the corners of the border got rounder');
  assert.deepEqual((await saved(page)).stickers[0].radii, { inner_mm: 0.5, outer_mm: 3 });
  await page.undo();
  await page.undo();
  assert.equal((await saved(page)).stickers[0].radii, undefined);
});

story('a thin tail is thickened where the warning names it', async (page) => {
  await page.open();
  const outline = 'M-30 -12H-6V-0.5H24V0.5H-6V12H-30Z';
  const fox = { id: 'fox', name: 'Fox', outline, wanted: { at_least: 1 }, turns: 'none', border_mm: 0.5 };
  await page.openFile(layoutFile('fox.json', boxes([], { name: 'Fox', stickers: [fox], pieces: [{ sticker: 'fox', x_mm: 50, y_mm: 60 }] })));
  await page.noticed('fox.json is open');
  await page.showPanel('Findings');
  await page.page.getByText(/Fox has a part only (1\.9|2(\.0)?)\d* mm wide/).waitFor();
  await page.page.getByRole('button', { name: 'Thicken here: Fox' }).click();
  await page.noticed(/^Fox is wider there: the cut line moved outward by .* mm at most\.$/);
  await page.until(async () => (await page.page.getByText(/Fox has a part only/).count()) === 0, 'nothing is thin any more');
  const [{ wide_spots: spots }] = (await saved(page)).stickers;
  assert.equal(spots.length, 1);
  assert.equal(spots[0].width_mm, 3);
  await page.openSticker('Fox');
  await page.page.getByRole('button', { name: 'Take the widening back' }).click();
  await page.page.getByRole('button', { name: 'Thicken here' }).waitFor();
  await page.undo();
  await page.undo();
  assert.equal((await saved(page)).stickers[0].wide_spots, undefined);
});

story('two pieces near each other become one sticker with one picture, and undo parts them', async (page) => {
  await withSea(page);
  const before = await saved(page);
  // Both cut lines keep the spacing of 2 mm, so the drawings lie little further apart.
  await page.sheet().focus();
  await page.press('Control+a');
  await page.page.getByRole('button', { name: 'Make one' }).click();
  await page.noticed(/^Crab \+ Star is one sticker now\.$/);
  const after = await saved(page);
  assert.equal(after.pieces.length, 1);
  assert.deepEqual(after.stickers.map(({ name }) => name), ['Fish', 'Crab + Star']);
  assert.match(after.stickers[1].art.file, /^Crab \+ Star\.png$/);
  assert.match(await page.tally(), /all rules hold$/);
  await page.undo();
  assert.deepEqual(await saved(page), before);
});

for (const [width, height] of SCREENS) {
  for (const scheme of ['light', 'dark']) {
    const screen = `${width} ${height} ${scheme}`;
    story(`changed pictures and finished lines look well at ${screen}`, async (page, say) => {
      await withSea(page, { viewport: { width, height }, colorScheme: scheme });
      await page.closeNotice();
      await page.importPicture(svg(CLAWED + FISH + SHELL));
      await page.importDialog().getByText('1 with a new outline').waitFor();
      await looksWell(page, `update dialog ${screen}`, say);
      await page.importDialog().getByRole('button', { name: 'Update 2 stickers' }).click();
      await page.noticed(/^sea\.svg/);
      await looksWell(page, `updated ${screen}`, say);
      await page.closeNotice();
      await page.openSticker('Star');
      const round = page.page.getByRole('checkbox', { name: 'Round its corners for the blade' });
      await round.check();
      await page.page.getByRole('textbox', { name: 'Smallest radius outward' }).fill('4');
      await page.press('Enter');
      await page.page.getByText(/^The line moves outward/).scrollIntoViewIfNeeded();
      await looksWell(page, `finish panel ${screen}`, say);
      await page.closePanel();
      await page.sheet().focus();
      await page.press('Control+a');
      await looksWell(page, `two chosen ${screen}`, say);
      await page.page.getByRole('button', { name: 'Make one' }).click();
      await page.noticed(/is one sticker now/);
      await looksWell(page, `two made one ${screen}`, say);
    });
  }
}
