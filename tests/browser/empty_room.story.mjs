// What would still fit is shown on the sheet, and put there with a tap.

import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { boxes, layoutFile, sample } from './layouts.mjs';
import { story } from './story.mjs';

const ROOT = fileURLToPath(new URL('../../', import.meta.url));
const CLEAR = /all rules hold$/;

async function withBoxes(page, pieces, more) {
  await page.open();
  await page.openFile(layoutFile('boxes.json', boxes(pieces, more)));
  await page.noticed('boxes.json is open');
}

/** What the program says of the empty room of a layout. It may have to be compiled first. */
function foundByProgram(layout) {
  const folder = mkdtempSync(join(tmpdir(), 'stickleaf-'));
  try {
    const file = join(folder, 'sheet.json');
    writeFileSync(file, JSON.stringify(layout));
    const program = ['run', '--release', '--quiet', '--package', 'stickleaf', '--'];
    const answer = execFileSync('cargo', [...program, 'room', file, '--report', 'json'], { cwd: ROOT, stdio: 'pipe' });
    return JSON.parse(answer);
  } finally {
    rmSync(folder, { recursive: true });
  }
}

story('a dot is put where it fits, and one step takes it back', async (page) => {
  // The box ends at 66 mm; spacing and margin leave 148 - 66 - 2 - 4 mm below it.
  await withBoxes(page, [[52.5, 60]]);
  const bare = await page.picture();
  assert.match(await page.showEmptyRoom(), /^8 dots of 8 mm or more fit; one of your stickers fits\.$/);
  assert.notEqual(await page.picture(), bare, 'circles are drawn');
  const [dot] = await page.roomDots();
  assert.ok(dot.diameter > 75.8 && dot.diameter <= 76, `${dot.diameter} mm`);

  await page.putDot(0);
  await page.until(async () => (await page.placed()) === 2, 'the dot lies on the sheet');
  assert.match(await page.tally(), CLEAR);
  assert.equal(await page.chosen(), 'Dot');
  assert.ok((await page.findings()).every((finding) => !/hard to handle/.test(finding)));
  await page.until(async () => (await page.roomDots())[0]?.diameter < dot.diameter, 'the room is looked for again');
  assert.equal(await page.stickers().count(), 2);

  await page.undo();
  assert.equal(await page.placed(), 1);
  assert.equal(await page.stickers().count(), 1, 'the sticker is gone as well');
  await page.hideEmptyRoom();
  await page.until(async () => (await page.picture()) === bare, 'no circle is drawn any more');
});

story('keys find the room and put a sticker there', async (page) => {
  await withBoxes(page, [[52.5, 60]]);
  for (let presses = 0; (await page.focused()) !== 'Show empty room'; presses += 1) {
    assert.ok(presses < 120, 'the Tab key comes to the switch');
    await page.press('Tab');
  }
  await page.press('Enter');
  await page.showEmptyRoom();
  while (!/^Box at full size/.test(await page.focused())) {
    await page.press('Tab');
  }
  await page.press('Enter');
  assert.equal(await page.placed(), 2);
  assert.match(await page.tally(), CLEAR);
  assert.equal(await page.chosen(), 'Box 2');
  assert.equal(await page.focused(), 'Show empty room', 'the focus stays in the panel');
});

story('what fits only if it were smaller is told, and cannot be put there', async (page) => {
  // 17 mm are left for a box that is 22 mm wide with its border: 15 for its 20.
  const sheet = { width_mm: 25, height_mm: 60, corner_radius_mm: 0, resolution_ppi: 600 };
  await withBoxes(page, [], { sheet });
  assert.match(await page.showEmptyRoom(), /one of your stickers would fit if it were smaller\.$/);
  const [line] = await page.roomStickers();
  assert.match(line, /^Box at 7[45] %$/);
  assert.ok((await page.roomDots()).every(({ diameter }) => diameter <= 17));
});

story('the page finds the room that the command line finds', async (page) => {
  const layout = sample('everything');
  await page.open();
  await page.openFile(layoutFile('everything.json', layout));
  await page.noticed('everything.json is open');
  await page.showEmptyRoom({ seconds: 60 });
  const found = foundByProgram(layout);

  const tenths = (mm) => Math.floor(mm * 10 + 1e-5) / 10;
  const dots = found.dots.slice(0, 8).map((dot) => tenths(dot.diameter_mm));
  assert.ok(dots.length >= 2, 'there is something to compare');
  assert.deepEqual((await page.roomDots()).map((dot) => dot.diameter), dots);
  const turned = (degrees) => Math.round(degrees > 180 ? degrees - 360 : degrees);
  const line = ({ name, scale, turn_deg: turn }) => (scale === 1
    ? `${name} at full size, turned ${turned(turn)}°`
    : `${name} at ${Math.floor(scale * 100)} %`);
  assert.deepEqual(await page.roomStickers(), found.stickers.map(line));
}, { seconds: 900 });
