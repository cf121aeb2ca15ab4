// Broken rules: what is drawn while a piece is carried, where a tap on a finding leads, and what mends them.

import assert from 'node:assert/strict';
import { boxes, layoutFile } from './layouts.mjs';
import { story } from './story.mjs';

/** Writes down every text that is put on a canvas, with the time. */
const noteTexts = () => {
  const { fillText } = CanvasRenderingContext2D.prototype;
  globalThis.texts = [];
  CanvasRenderingContext2D.prototype.fillText = function write(text, ...where) {
    globalThis.texts.push(text);
    return fillText.call(this, text, ...where);
  };
};

async function begin(page, places, { locked = [], ...how } = {}) {
  // Without a border the cut lines are the boxes themselves, to the micrometre.
  const layout = boxes(places, { rules: { spacing_mm: 2, margin_mm: 4, border_mm: 0 } });
  for (const index of locked) {
    layout.pieces[index].locked = true;
  }
  await page.open({ touch: true, ...how });
  await page.openFile(layoutFile('boxes.json', layout));
  await page.noticed('boxes.json is open');
  await page.closeNotice();
  return page.wholeSheet();
}

/** The texts that were written since the last call. */
function written(page) {
  return page.page.evaluate(() => globalThis.texts.splice(0));
}

story('while a piece is carried every rule that it breaks is drawn with its gap', async (page) => {
  // The carried box comes 1 mm beside one box, 1.5 mm below another, and 3 mm from the edge.
  const sheet = await begin(page, [[60, 60], [34, 105], [13, 93.5]], { beforeStart: noteTexts });
  await page.tap(sheet.at({ x: 60, y: 60 }));
  await page.switchHabit('Slide along neighbours');
  const now = await page.wholeSheet();
  await written(page);
  await page.touchAndHold(now.at({ x: 60, y: 60 }), now.at({ x: 13, y: 105 }));
  await page.still();
  const texts = await written(page);
  const asked = texts.map((text) => /^(\S+) mm, (\S+) mm asked$/.exec(text)).filter(Boolean);
  await page.screenshot('findings while carried');
  await page.lift();
  const [carried] = await page.pieces();
  const gaps = [[34 - 10 - (carried.x + 10), 2], [carried.y - 5 - (93.5 + 5), 2], [carried.x - 10, 4]];
  for (const [gap, limit] of gaps) {
    const isDrawn = asked.some(([, drawn, due]) => Math.abs(Number(drawn) - gap) < 0.02 && Number(due) === limit);
    assert.ok(isDrawn, `${gap} of ${limit} mm is among ${asked.map(([text]) => text)}`);
  }
});

story('a tap on a finding chooses its pieces, brings them into view and lets them light up', async (page) => {
  const sheet = await begin(page, [[20, 20], [80, 120], [80, 131]]);
  await page.showPanel('Findings');
  const far = await page.picture();
  await page.page.getByRole('list', { name: 'Findings' }).getByRole('button', { name: /^Box 2/ }).first().tap();
  assert.equal(await page.chosen(), '2 pieces');
  await page.page.waitForTimeout(300);
  const lit = await page.picture();
  await page.screenshot('finding lit');
  await page.page.waitForTimeout(1500);
  const quiet = await page.picture();
  assert.notEqual(lit, far);
  assert.notEqual(lit, quiet, 'the light goes out');
  await page.page.waitForTimeout(300);
  assert.equal(await page.picture(), quiet, 'and stays out');
  // The spot between the two is in the middle now.
  const middle = await page.onSheet(0.5, 0.5);
  assert.notDeepEqual(middle, sheet.at({ x: 80, y: 125.5 }));
  await page.tap({ x: middle.x, y: middle.y - 60 });
  assert.equal(await page.chosen(), 'Box 2');
});

story('where the panels are a drawer it makes way, and the sheet has the keys', async (page) => {
  await begin(page, [[20, 20], [80, 120], [80, 131]], { viewport: { width: 390, height: 844 } });
  await page.showPanel('Findings');
  await page.page.getByRole('list', { name: 'Findings' }).getByRole('button', { name: /^Box 2/ }).first().tap();
  await page.page.getByRole('complementary', { name: 'Panels' }).waitFor({ state: 'hidden' });
  assert.equal(await page.focused(), 'Sheet');
  assert.equal(await page.chosen(), '2 pieces');
});

story('a finding is mended by the least move, and one step takes it back', async (page) => {
  // The second box lies 0.5 mm below the first; 2 mm are asked.
  await begin(page, [[40, 40], [45, 50.5]]);
  const before = await page.pieces();
  await page.showPanel('Findings');
  await page.page.getByRole('button', { name: /^Move Box \d by 1\.5 mm$/ }).tap();
  assert.match(await page.tally(), /all rules hold$/);
  const after = await page.pieces();
  const away = after.map(({ x, y }, index) => Math.hypot(x - before[index].x, y - before[index].y));
  assert.ok(Math.abs(Math.max(...away) - 1.5) < 0.02 && Math.min(...away) === 0, `they moved by ${away}`);
  await page.undo();
  assert.deepEqual(await page.pieces(), before);
});

story('where nothing near is free, it says so, and all are mended or packed anew', async (page) => {
  // Locked boxes fill the sheet but for two places in its far corner, and three more lie on each other.
  const full = [14, 36, 58, 80].flatMap((x) => Array.from({ length: 11 }, (_, row) => [x, 9 + 12 * row])).slice(0, -2);
  await begin(page, [...full, [25, 51], [25, 51], [25, 51]], { locked: full.map((_, index) => index) });
  await page.showPanel('Findings');
  await page.page.getByText('No free place within 30 mm').first().waitFor();
  await page.screenshot('findings no room');
  const before = await page.pieces();
  await page.page.getByRole('button', { name: 'Fix all', exact: true }).tap();
  const told = await page.noticed('still broken');
  assert.match(told, /^Moved 2 pieces; \d+ rules are still broken\./);
  await page.page.locator('.notice').getByRole('button', { name: 'Place these' }).waitFor();
  const after = await page.pieces();
  assert.equal(after.filter(({ x, y }, index) => x !== before[index].x || y !== before[index].y).length, 2);
  await page.undo();
  assert.deepEqual(await page.pieces(), before);
});
