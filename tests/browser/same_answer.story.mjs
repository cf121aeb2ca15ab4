// The page and the command line program find the same places, digit by digit.

import assert from 'node:assert/strict';
import { readFileSync, writeFileSync } from 'node:fs';
import { layoutFile, sample } from './layouts.mjs';
import { inFolder, stickleaf } from './program.mjs';
import { story } from './story.mjs';

const ROUNDS = 20;
const SEED = 7;

/** The layout that the program packs. */
function packedByProgram(layout) {
  return inFolder((at) => {
    const [from, to] = [at('from.json'), at('to.json')];
    writeFileSync(from, JSON.stringify(layout));
    stickleaf('pack', from, '-o', to, '--aim', 'fill', '--rounds', ROUNDS, '--seed', SEED, '--threads', 1);
    return JSON.parse(readFileSync(to, 'utf8'));
  });
}

/** One line for each piece, with every digit that the file holds. */
function places({ pieces }) {
  return pieces.map(({ sticker, x_mm, y_mm, turn_deg = 0 }) => `${sticker} ${x_mm} ${y_mm} ${turn_deg}`);
}

story('the page packs as the command line does', async (page) => {
  const layout = { ...sample('title-band'), pieces: [] };
  await page.open();
  await page.openFile(layoutFile('bare.json', layout));
  await page.until(async () => (await page.placed()) === 0, 'the sheet is bare');
  await page.packRepeatably({ rounds: ROUNDS, seed: SEED });
  await page.fillSheet();
  await page.packed({ seconds: 120 });
  const onPage = JSON.parse(readFileSync(await page.exportLayout(), 'utf8'));
  const onCommandLine = packedByProgram(layout);

  assert.ok(onPage.pieces.length > 10, `${onPage.pieces.length} pieces are enough to compare`);
  assert.equal(onPage.packed.rounds, ROUNDS);
  assert.deepEqual(places(onPage), places(onCommandLine));
  assert.deepEqual(onPage.packed, onCommandLine.packed);
}, { seconds: 900 });
