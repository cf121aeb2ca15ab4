// A part of the sheet that stickers keep out of, drawn with a finger.

import assert from 'node:assert/strict';
import { boxes, layoutFile } from './layouts.mjs';
import { starsAndDiscs } from './pictures.mjs';
import { story } from './story.mjs';

const CLEAR = /all rules hold$/;

async function withOne(page) {
  await page.open({ touch: true });
  await page.openFile(layoutFile('boxes.json', boxes([[50, 60]])));
  await page.noticed('boxes.json is open');
  assert.match(await page.tally(), CLEAR);
  return page.wholeSheet();
}

story('a box drawn over a piece is a zone that the piece breaks', async (page) => {
  const sheet = await withOne(page);
  await page.drawZone();
  await page.touchDrag(sheet.at({ x: 45, y: 50 }), sheet.at({ x: 85, y: 80 }));
  await page.until(async () => !CLEAR.test(await page.tally()), 'the tally says that a rule is broken');
  const [finding] = await page.findings();
  assert.match(finding, /zone/i);
  assert.match(finding, /Box/);
  await page.undo();
  assert.match(await page.tally(), CLEAR);
  assert.ok((await page.findings()).every((finding) => !/zone/i.test(finding)), 'the finding is gone');
});

story('a loop drawn beside a piece is a zone that it keeps out of', async (page) => {
  const sheet = await withOne(page);
  await page.drawZone();
  const round = Array.from({ length: 25 }, (_, step) => {
    const angle = (step / 24) * 2 * Math.PI;
    return sheet.at({ x: 50 + 15 * Math.cos(angle), y: 110 + 15 * Math.sin(angle) });
  });
  await page.touchPath(round);
  await page.until(async () => (await page.zones()).length === 1, 'there is one zone');
  assert.match(await page.tally(), CLEAR);
  await page.touchDrag(sheet.at({ x: 50, y: 60 }), sheet.at({ x: 50, y: 110 }));
  await page.until(async () => !CLEAR.test(await page.tally()), 'the piece on the zone breaks a rule');
  await page.undo();
  await page.undo();
  assert.match(await page.tally(), CLEAR);
  assert.deepEqual(await page.zones(), []);
});

/** A sheet with one box and a style with a band across its top and a square at its foot. */
async function withZones(page, open = { touch: true }) {
  const style = (name, zones) => ({ name, zones: zones.map(([zone, outline]) => ({ name: zone, outline, clearance_mm: 1.5 })) });
  await page.open(open);
  await page.openFile(layoutFile('zones.json', boxes([[50, 60]], {
    backgrounds: [style('Night', [['band', 'M0 0H105V20H0Z'], ['moon', 'M40 100H60V120H40Z']]), style('Day', [])],
    background: 'Night',
  })));
  await page.noticed('zones.json is open');
  return page.wholeSheet();
}

story('a tapped zone follows the finger, is sized by its corner, and each is one step back', async (page) => {
  const sheet = await withZones(page);
  await page.touchDrag(sheet.at({ x: 50, y: 110 }), sheet.at({ x: 60, y: 90 }));
  assert.equal((await page.zoneBounds('moon')).x, '40', 'a zone that is not chosen stays');
  const again = await page.wholeSheet();
  await page.tap(again.at({ x: 50, y: 110 }));
  await page.touchDrag(again.at({ x: 50, y: 110 }), again.at({ x: 70, y: 110 }));
  await page.tap(again.at({ x: 70, y: 110 }));
  assert.deepEqual(await page.zoneBounds('moon'), { x: '60', y: '100', width: '20', height: '20' });
  await page.closePanel();
  await page.wholeSheet();
  // The corner's handle stands 12 pixels outside the corner.
  const corner = again.at({ x: 80, y: 120 });
  const grip = { x: corner.x + 12, y: corner.y + 12 };
  const by = again.at({ x: 90, y: 125 });
  await page.touchDrag(grip, { x: by.x + 12, y: by.y + 12 });
  const sized = await page.zoneBounds('moon');
  assert.ok(Math.abs(sized.width - 30) < 0.3 && Math.abs(sized.height - 25) < 0.3, JSON.stringify(sized));
  await page.undo();
  assert.deepEqual(await page.zoneBounds('moon'), { x: '60', y: '100', width: '20', height: '20' });
  await page.undo();
  assert.deepEqual(await page.zoneBounds('moon'), { x: '40', y: '100', width: '20', height: '20' });
});

story('a zone carried onto a piece breaks a rule at once, and numbers put it right', async (page) => {
  const sheet = await withZones(page);
  await page.tap(sheet.at({ x: 50, y: 110 }));
  await page.touchDrag(sheet.at({ x: 50, y: 110 }), sheet.at({ x: 50, y: 68 }));
  await page.until(async () => !CLEAR.test(await page.tally()), 'the tally says that a rule is broken');
  await page.typeZone('moon', 'y', '120');
  await page.until(async () => CLEAR.test(await page.tally()), 'all rules hold again');
  await page.tapInZone('moon', 'Copy');
  assert.deepEqual(await page.zones(), ['band', 'moon', 'zone 1']);
  await page.tapInZone('zone 1', 'Remove');
  assert.deepEqual(await page.zones(), ['band', 'moon']);
});

story('the keyboard chooses, moves, sizes and removes a zone', async (page) => {
  await withZones(page, {});
  await page.chooseZone('moon');
  await page.focusSheet();
  for (const key of ['ArrowRight', 'ArrowRight', 'Shift+ArrowUp', ']']) {
    await page.page.keyboard.press(key);
  }
  assert.deepEqual(await page.zoneBounds('moon'), { x: '41', y: '99', width: '20.5', height: '20.5' });
  await page.focusSheet();
  await page.page.keyboard.press('Delete');
  assert.deepEqual(await page.zones(), ['band']);
});

story('styles are named, ordered, doubled and removed', async (page) => {
  await withZones(page);
  assert.deepEqual(await page.styles(), ['No background', 'Night', 'Day']);
  await page.renameStyle('Late night');
  await page.styleTool('Move this style down');
  assert.deepEqual(await page.styles(), ['No background', 'Day', 'Late night']);
  await page.styleTool('Duplicate this style');
  assert.deepEqual(await page.styles(), ['No background', 'Day', 'Late night', 'Late night 2']);
  assert.equal(await page.chosenStyle(), 'Late night 2');
  await page.styleTool('Remove this style');
  assert.deepEqual(await page.styles(), ['No background', 'Day', 'Late night']);
  await page.undo();
  await page.undo();
  await page.undo();
  await page.undo();
  assert.deepEqual(await page.styles(), ['No background', 'Night', 'Day']);
});

story('what is drawn on a picture becomes zones, and the picture lies behind, as faint as asked', async (page) => {
  await page.open({ touch: true });
  await page.openFile(layoutFile('boxes.json', boxes([[50, 60]])));
  await page.noticed('boxes.json is open');
  const picture = await starsAndDiscs({ width: 400, height: 300, across: 3, down: 2 });
  await page.zonesFrom({ name: 'sky.png', mimeType: 'image/png', buffer: picture });
  await page.noticed('6 zones made');
  assert.equal((await page.zones()).length, 6);
  await page.setOpacity(40);
  await page.saved();
  await page.reload();
  await page.until(async () => (await page.placed()) === 1, 'the sheet is back');
  assert.equal(await page.opacity(), '40 %');
  await page.styleTool('Remove the picture');
  assert.equal(await page.opacity(), null);
  await page.undo();
  assert.equal(await page.opacity(), '40 %');
});
