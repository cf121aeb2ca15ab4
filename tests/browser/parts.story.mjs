// Art stays with its stickers: parts of a picture in a bundle, several changed pictures at once, and the colours of the printer.

import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { boxes, file, layoutFile } from './layouts.mjs';
import { SCREENS, looksWell } from './look.mjs';
import { png } from './pictures.mjs';
import { inFolder, stickleaf } from './program.mjs';
import { story } from './story.mjs';

/** A tablet upright, touched by fingers. */
const TABLET = { touch: true, viewport: { width: 1024, height: 1366 } };

/** A PNG of boxes, each `[x, y, width, height]` in pixels and a colour. */
function drawn(name, width, height, ...shapes) {
  const spansOf = (y) => shapes
    .filter(([, top, , high]) => y >= top && y < top + high)
    .map(([x, , wide, , colour]) => ({ from: x, to: x + wide, colour }));
  return png(width, height, spansOf).then((buffer) => ({ name, mimeType: 'image/png', buffer }));
}

const RED = [200, 40, 40];
const BLUE = [40, 60, 190];
const GREEN = [40, 150, 70];

/** A finger taps what it sees in the middle of a control. */
async function tap(page, control) {
  await control.scrollIntoViewIfNeeded();
  const { x, y, width, height } = await control.boundingBox();
  await page.hands.tap({ x: x + width / 2, y: y + height / 2 });
}

/** An empty sheet, then these pictures at 300 pixels to the inch as stickers. */
async function withPictures(page, pictures, how = TABLET) {
  await page.open(how);
  await page.openFile(layoutFile('empty.json', boxes([], { name: 'Sea', stickers: [] })));
  await page.noticed('empty.json is open');
  await bringIn(page, pictures);
  await page.addDrawings();
}

async function bringIn(page, pictures) {
  await page.importPicture(pictures);
  await page.drawingsFound();
  const ppi = page.importDialog().getByRole('textbox', { name: 'Pixels to the inch' });
  await ppi.fill('300');
  await page.press('Enter');
  await page.drawingsFound();
}

async function saved(page) {
  const layout = JSON.parse(readFileSync(await page.exportLayout(), 'utf8'));
  await page.goTo('Desk');
  return layout;
}

story('a bundle has each sticker\'s part of a picture, and prints the same', async (page) => {
  const sea = await drawn('sea.png', 1200, 1600,
    [100, 100, 240, 180, RED], [700, 200, 200, 200, BLUE], [300, 1100, 300, 160, GREEN]);
  await withPictures(page, sea);
  await page.packRepeatably({ rounds: 5, seed: 1 });
  await page.fillSheet();
  await page.packed();
  await page.until(async () => (await page.placed()) >= 3, 'all lie on the sheet');
  const sheet = readFileSync(await page.makeSheet({ bleed: 'Card only', seconds: 120 }));
  const bundle = await page.saveBundle();
  await page.noticed(/Of sea\.png it holds what its stickers need, pixel for pixel/);
  inFolder((at) => {
    stickleaf('export', bundle, '--placement', at('in-bundle.json'));
    const files = JSON.parse(readFileSync(at('in-bundle.json'), 'utf8')).stickers.map(({ art }) => art);
    assert.equal(new Set(files.map(({ file: name }) => name)).size, 3);
    assert.ok(files.every(({ part_of: part }) => part.picture === 'sea.png' && part.width_px === 1200), JSON.stringify(files));
    stickleaf('export', bundle, '--sheet', at('sheet.png'), '--bleed-mm', 0);
    assert.ok(readFileSync(at('sheet.png')).equals(sheet), 'the bundle prints as the sheet did');
  });

  // With the switch the picture goes along whole.
  await page.goTo('Press');
  await tap(page, page.page.getByRole('checkbox', { name: /^Pictures whole/ }));
  const whole = readFileSync(await page.saveBundle());
  assert.ok(whole.includes(sea.buffer), 'the very picture is in it');

  // Opened elsewhere, the sheet looks and prints as it did, and a changed picture finds its stickers.
  await page.open(TABLET);
  await page.openFile(bundle);
  await page.noticed(/is open/);
  const again = readFileSync(await page.makeSheet({ bleed: 'Card only', seconds: 120 }));
  assert.ok(again.equals(sheet), 'the same bytes again');
  await page.goTo('Desk');
  const before = await saved(page);
  const changed = await drawn('sea.png', 1200, 1600,
    [100, 100, 300, 180, RED], [700, 200, 200, 200, BLUE], [300, 1100, 300, 160, GREEN]);
  await bringIn(page, changed);
  const dialog = page.importDialog();
  await dialog.getByText('1 with a new outline, 2 with the same, 0 new, 0 gone').first().waitFor();
  await tap(page, dialog.getByRole('button', { name: 'Update 3 stickers' }));
  await page.noticed(/^sea\.png: 1 with a new outline/);
  const after = await saved(page);
  assert.deepEqual(after.pieces, before.pieces);
  assert.ok(after.stickers.every(({ art }) => art.part_of === undefined), 'the picture is whole again');
  await page.undo();
  assert.deepEqual(await saved(page), before);
}, { seconds: 900 });

/** Three pictures and changed versions of them: a wider box, a box less, a box more. */
async function three() {
  const before = await Promise.all([
    drawn('sea.png', 700, 700, [100, 100, 240, 180, RED]),
    drawn('land.png', 700, 700, [100, 100, 200, 200, BLUE], [400, 400, 160, 160, RED]),
    drawn('sky.png', 700, 700, [60, 300, 300, 160, GREEN]),
  ]);
  const after = await Promise.all([
    drawn('sea.png', 700, 700, [100, 100, 300, 180, RED]),
    drawn('land.png', 700, 700, [100, 100, 200, 200, BLUE]),
    drawn('sky.png', 700, 700, [60, 300, 300, 160, GREEN], [450, 60, 150, 150, BLUE]),
  ]);
  return { before, after };
}

story('three changed pictures update their stickers in one step', async (page) => {
  const { before: pictures, after: changed } = await three();
  await withPictures(page, pictures);
  const before = await saved(page);
  assert.equal(before.stickers.length, 4);
  await bringIn(page, changed);
  const dialog = page.importDialog();
  await dialog.getByText('1 with a new outline, 2 with the same, 1 new, 1 gone').waitFor();
  const lines = await dialog.getByRole('list', { name: 'What becomes of the stickers' }).getByRole('listitem').allInnerTexts();
  assert.match(lines[0], /sea\.png\s+1 with a new outline, 0 with the same, 0 new, 0 gone/);
  assert.match(lines[2], /land\.png\s+0 with a new outline, 1 with the same, 0 new, 1 gone/);
  assert.match(lines[5], /sky\.png\s+0 with a new outline, 1 with the same, 1 new, 0 gone/);
  // One of them is something new after all, and then is not.
  const sky = dialog.getByRole('combobox', { name: /^sky\.png/ });
  await sky.selectOption({ label: 'none; its drawings are new' });
  await dialog.getByText('1 with a new outline, 1 with the same, 2 new, 1 gone').waitFor();
  await sky.selectOption('sky.png');
  await tap(page, dialog.getByRole('button', { name: 'Update 3 stickers' }));
  await page.noticed(/^sea\.png, land\.png, sky\.png: 1 with a new outline, 2 with the same, 1 new, 1 gone\./);
  const after = await saved(page);
  assert.deepEqual(after.stickers.map(({ gone }) => gone ?? false), [false, false, true, false, false]);
  assert.notEqual(after.stickers[0].outline, before.stickers[0].outline);
  await page.undo();
  assert.deepEqual(await saved(page), before, 'one step back');
}, { seconds: 600 });

for (const [width, height] of SCREENS) {
  story(`three changed pictures look well at ${width} ${height}`, async (page, say) => {
    const { before, after } = await three();
    await withPictures(page, before, { viewport: { width, height } });
    await page.closeNotice();
    await bringIn(page, after);
    await page.importDialog().getByText(/^1 with a new outline/).first().waitFor();
    await looksWell(page, `three pictures ${width} ${height}`, say);
  }, { seconds: 300 });
}

story('the patch of the colour strip is a part of the layout', async (page, say) => {
  await withPictures(page, await drawn('sea.png', 700, 700, [100, 100, 240, 180, RED]));
  await page.goTo('Press');
  const digit = (group, name) => page.page.getByRole('group', { name: group }).getByRole('button', { name, exact: true });
  await tap(page, digit(/^Column/, '4'));
  await tap(page, digit(/^Row/, '2'));
  assert.deepEqual(await page.chosenPatch(), [4, 2]);
  await looksWell(page, 'colour patch 1024 1366', say);
  const layout = await saved(page);
  assert.deepEqual(layout.correction, { lighter: 0.03, warmer: -0.015 });
  await page.undo();
  assert.deepEqual((await saved(page)).correction, { lighter: 0.03, warmer: 0 }, 'each choice is a step');
  await page.redo();

  // Another sheet has its own, and is offered what was chosen last.
  await page.openFile(layoutFile('other.json', boxes([], { name: 'Other', stickers: [] })));
  await page.noticed('other.json is open');
  await page.goTo('Press');
  assert.deepEqual(await page.chosenPatch(), [3, 3]);
  await tap(page, page.page.getByRole('button', { name: 'Patch 42, as last time' }));
  assert.deepEqual(await page.chosenPatch(), [4, 2]);
  // One that no patch has is told in numbers, and kept.
  const own = boxes([], { name: 'Own', stickers: [], correction: { lighter: 0.01, warmer: 0.02 } });
  await page.goTo('Desk');
  await page.openFile(file('own.json', JSON.stringify(own), 'application/json'));
  await page.noticed('own.json is open');
  await page.goTo('Press');
  await page.page.getByText('lighter by 0.010 and warmer by 0.020').first().waitFor();
  assert.deepEqual((await saved(page)).correction, { lighter: 0.01, warmer: 0.02 });
}, { seconds: 300 });

story('a sheet from before keeps the patch that held for the whole device', async (page) => {
  await withPictures(page, await drawn('sea.png', 700, 700, [100, 100, 240, 180, RED]));
  await page.saved();
  // So it stood on the device before layouts had a correction of their own.
  await page.page.evaluate(() => localStorage.setItem('stickleaf.patch', '24'));
  await page.reload();
  await page.goTo('Press');
  await page.until(async () => String(await page.chosenPatch()) === '2,4', 'the patch is still chosen');
  assert.deepEqual((await saved(page)).correction, { lighter: -0.03, warmer: 0.015 });
  // What comes from elsewhere does not get it.
  await page.openFile(layoutFile('other.json', boxes([], { name: 'Other', stickers: [] })));
  await page.noticed('other.json is open');
  assert.equal((await saved(page)).correction, undefined);
}, { seconds: 300 });

story('the Press says how fine each picture prints, and saves the guide as SVG', async (page, say) => {
  const coarse = await drawn('coarse.png', 700, 700, [100, 100, 240, 180, RED], [400, 400, 200, 200, BLUE]);
  await page.open(TABLET);
  await page.openFile(layoutFile('empty.json', boxes([], { name: 'Sea', stickers: [] })));
  await page.noticed('empty.json is open');
  await bringIn(page, coarse);
  const ppi = page.importDialog().getByRole('textbox', { name: 'Pixels to the inch' });
  await ppi.fill('250');
  await page.press('Enter');
  await page.drawingsFound();
  await page.addDrawings();
  for (const name of ['coarse 1', 'coarse 2']) {
    await page.openSticker(name);
    await page.page.getByRole('button', { name: 'Put one on the sheet' }).click();
    await page.closePanel();
  }
  await page.goTo('Press');
  await page.page.getByText('250 pixels to the inch at the size on the sheet.').waitFor();
  await page.page.getByText('2 pictures have fewer than 300 pixels to the inch and print soft.').waitFor();
  await page.page.getByText('Each picture').click();
  const rows = await page.page.locator('.fineness tr').allInnerTexts();
  assert.deepEqual(rows.map((row) => row.replace(/\s+/g, ' ').trim()), ['coarse 1 250 to the inch', 'coarse 2 250 to the inch']);
  await page.closeNotice();
  await page.page.locator('.fineness').scrollIntoViewIfNeeded();
  await looksWell(page, 'fineness 1024 1366', say);
  const [download] = await Promise.all([
    page.page.waitForEvent('download'),
    tap(page, page.page.getByRole('button', { name: 'Save it as SVG' })),
  ]);
  const guide = readFileSync(await download.path(), 'utf8');
  const layout = await page.exportLayout();
  inFolder((at) => {
    stickleaf('export', layout, '--guide', at('guide.svg'));
    assert.equal(guide, readFileSync(at('guide.svg'), 'utf8'), 'the guide of the command line');
  });
}, { seconds: 300 });
