// The other things that packing can aim for: larger, further apart, on a lower sheet.

import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { layoutFile, sample } from './layouts.mjs';
import { story } from './story.mjs';

const HOLDS = /all rules hold$/;
const SECONDS = 90;

/** How many stickers of the sample are kept, one piece of each. */
const KEPT = 8;

/** Opens a sample with one piece each of a few stickers, so that there is room for something better. */
async function withRoom(page, how) {
  const full = sample('title-band');
  const stickers = full.stickers.filter(({ id }) => !id.startsWith('tiny')).slice(0, KEPT)
    .map((sticker) => ({ ...sticker, wanted: { exactly: 1 } }));
  const pieces = stickers.map(({ id }) => full.pieces.find(({ sticker }) => sticker === id)).filter(Boolean);
  const layout = { ...full, stickers, pieces };
  await page.open(how);
  await page.openFile(layoutFile('room.json', layout));
  await page.noticed('room.json is open');
  await page.closeNotice();
  return layout;
}

/** The first number that stands before or behind these words. */
function figure(text, pattern) {
  const found = pattern.exec(text);
  assert.ok(found, `${text} should tell ${pattern}`);
  return Number(found[1]);
}

/** The layout as the page would save it. */
async function saved(page) {
  const layout = JSON.parse(readFileSync(await page.exportLayout(), 'utf8'));
  await page.goTo('Desk');
  return layout;
}

/** How wide an outline of straight lines is: the farthest its numbers reach to the right, less that to the left. */
function widthOf({ outline }) {
  const numbers = outline.match(/[MLHV]?-?\d*\.?\d+(?:e-?\d+)?/gi);
  assert.ok(numbers.length > 4, 'an outline has points');
  const absolute = /^[MLHVZ\d\s.,e-]+$/.test(outline);
  assert.ok(absolute, `this reader knows absolute lines only: ${outline.slice(0, 60)}`);
  let isX = true;
  const xs = [];
  for (const [, command, number] of outline.matchAll(/([MLHV])?\s*(-?\d*\.?\d+(?:e-?\d+)?)/g)) {
    if (command) {
      isX = command !== 'V';
    }
    if (isX) {
      xs.push(Number(number));
    }
    isX = !isX;
  }
  return Math.max(...xs) - Math.min(...xs);
}

story('the stickers grow as large as fits, and one step takes it back', async (page, say) => {
  const given = await withRoom(page);
  const before = { tally: await page.tally(), pieces: await page.pieces() };
  await page.packToward('grow');
  await page.until(async () => /1[1-9]\d(\.\d)? % of the size · growing all pieces/.test(await page.progress()),
    'the size goes up', { seconds: SECONDS });
  await page.stop();
  await page.packed({ seconds: 2 });
  const percent = figure(await page.noticed('of the size'), /(\d+(?:\.\d)?) % of the size/);
  say(`${percent} % of the size`);
  assert.ok(percent >= 110);
  assert.match(await page.tally(), HOLDS);
  assert.equal(await page.placed(), KEPT);

  const after = await saved(page);
  assert.equal(after.packed.aim, 'grow');
  for (const [index, sticker] of after.stickers.entries()) {
    const reached = (100 * widthOf(sticker)) / widthOf(given.stickers[index]);
    assert.ok(Math.abs(reached - percent) < 0.25, `${sticker.name} is ${reached} % as wide`);
  }
  await page.undo();
  assert.equal(await page.tally(), before.tally);
  assert.deepEqual(await page.pieces(), before.pieces);
  assert.deepEqual((await saved(page)).stickers.map(widthOf), given.stickers.map(widthOf));
}, { seconds: 2 * SECONDS });

story('the gaps are evened as far as they go', async (page, say) => {
  await withRoom(page);
  const before = await page.tally();
  const gapOf = (text) => figure(text, /mallest gap (\S+) mm/);
  await page.packToward('even');
  await page.until(async () => {
    const told = /smallest gap (\S+) mm · spreading pieces out/.exec(await page.progress());
    return told && Number(told[1]) > gapOf(before) + 1;
  }, 'the smallest gap becomes larger', { seconds: SECONDS });
  await page.stop();
  await page.packed({ seconds: 2 });
  const gap = gapOf(await page.noticed('mallest gap'));
  say(`smallest gap ${gap} mm`);
  assert.equal(gap, gapOf(await page.tally()), 'the notice and the tally measure the same');
  assert.match(await page.tally(), HOLDS);
  assert.equal(await page.placed(), KEPT);
  await page.undo();
  assert.equal(await page.tally(), before);
}, { seconds: 2 * SECONDS });

story('the sheet becomes as low as it can, and as high again with one step', async (page, say) => {
  await withRoom(page);
  const [before, size] = [await page.tally(), await page.sheetSize()];
  await page.packToward('shorten');
  await page.until(async () => {
    const told = /sheet (\S+) mm high · lowering the sheet/.exec(await page.progress());
    return told && Number(told[1]) < 0.8 * size.height;
  }, 'the sheet becomes lower', { seconds: SECONDS });
  await page.stop();
  await page.packed({ seconds: 2 });
  const height = figure(await page.noticed('heet'), /heet (\S+) mm high/);
  say(`sheet ${height} mm high`);
  assert.deepEqual(await page.sheetSize(), { ...size, height });
  assert.match(await page.tally(), HOLDS);
  assert.equal(await page.placed(), KEPT);
  await page.undo();
  assert.deepEqual(await page.sheetSize(), size);
  assert.equal(await page.tally(), before);
}, { seconds: 2 * SECONDS });

story('several workers pack side by side, and one that does not start is done without', async (page, say) => {
  // The second worker cannot be made at all; the others tell when they are made and when they are ended.
  const beforeStart = () => {
    const Plain = globalThis.Worker;
    globalThis.workers = { made: 0, alive: 0 };
    globalThis.Worker = class extends Plain {
      constructor(...how) {
        globalThis.workers.made += 1;
        if (globalThis.workers.made === 2) {
          throw new Error('no room for one more');
        }
        super(...how);
        globalThis.workers.alive += 1;
      }

      terminate() {
        globalThis.workers.alive -= 1;
        super.terminate();
      }
    };
  };
  await withRoom(page, { processors: 4, beforeStart });
  const workers = () => page.page.evaluate(() => globalThis.workers);
  await page.packToward('even');
  await page.until(async () => /spreading/.test(await page.progress()), 'packing goes on', { seconds: SECONDS });
  assert.deepEqual(await workers(), { made: 3, alive: 2 }, 'one processor is left to the page');
  await page.stop();
  await page.packed({ seconds: 2 });
  assert.match(await page.tally(), HOLDS);
  await page.noticed('mallest gap');
  await page.until(async () => (await workers()).alive === 0, 'all are ended');
  const seed = (await saved(page)).packed.seed;
  say(`the best was found from seed ${seed}`);
  assert.ok([1, 3].includes(seed), `seed ${seed} is one of those that were tried`);

  await page.packRepeatably({ rounds: 5, seed: 3 });
  await page.fillSheet();
  await page.packed({ seconds: SECONDS });
  assert.equal((await workers()).made, 4, 'a repeatable packing is one search');
  assert.equal((await saved(page)).packed.seed, 3);
}, { seconds: 2 * SECONDS });

story('more ways are reached by the keyboard', async (page) => {
  await withRoom(page);
  for (let presses = 0; (await page.focused()) !== 'More ways'; presses += 1) {
    assert.ok(presses < 120, 'the Tab key comes to the button');
    await page.press('Tab');
  }
  await page.press('Enter');
  await page.press('Tab');
  assert.match(await page.focused(), /^As large as fits/);
  await page.press('Escape');
  assert.equal(await page.focused(), 'More ways', 'Escape closes the list and gives the focus back');
  await page.press('Enter');
  for (const word of [/^As large/, /^Even/, /^Shorten/]) {
    await page.press('Tab');
    assert.match(await page.focused(), word);
  }
  await page.press('Enter');
  await page.until(async () => /mm high/.test(await page.progress()), 'the sheet is lowered', { seconds: SECONDS });
  await page.stop();
  await page.packed({ seconds: 2 });
}, { seconds: 2 * SECONDS });
