// The main job, from a picture to a file that other programs read.

import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { story } from './story.mjs';

const PICTURE = fileURLToPath(new URL('../../sample-layouts/rooftop-night/rooftop-night.png', import.meta.url));

const HOLDS = /all rules hold$/;

/** The two pieces whose places are nearest to each other, of those that a finger can take hold of. */
function nearest(pieces, index) {
  const distance = (other) => Math.hypot(pieces[other].x - pieces[index].x, pieces[other].y - pieces[index].y);
  return [...pieces.keys()].filter((other) => other !== index).sort((a, b) => distance(a) - distance(b))[0];
}

/** The first piece that a tap on its place chooses; a crescent has its middle outside. */
async function pieceToTake(page, pieces, sheet) {
  for (const [index, piece] of pieces.entries()) {
    await page.tap(sheet.at(piece));
    if ((await page.chosen()) === piece.name) {
      return index;
    }
  }
  throw new Error('no piece can be taken hold of');
}

story('from a picture to a sheet, a nudge and a placement file', async (page) => {
  await page.open({ touch: true });
  await page.until(async () => (await page.placed()) > 0, 'a sample lies on the desk');

  await page.dropPicture(PICTURE);
  assert.equal(await page.drawingsFound(), '44 drawings found');
  await page.addDrawings();
  assert.equal(await page.stickers().count(), 44);

  await page.fillSheet();
  const progress = /\d+ placed · at most \d+ · .+ · \d+ s/;
  await page.until(async () => progress.test(await page.progress()), 'progress is shown');
  await page.until(async () => (await page.placed()) > 20, 'pieces appear while packing goes on');
  await page.stop();
  await page.packed();
  const before = await page.tally();
  assert.match(before, HOLDS);
  // Forty-four drawings are more than the sheet has room for.
  assert.match(await page.noticed('No room was found for'), /and \d+ other stickers/);
  await page.closeNotice();

  const sheet = await page.wholeSheet();
  const pieces = await page.pieces();
  assert.equal(pieces.length, await page.placed());
  const taken = await pieceToTake(page, pieces, sheet);
  const neighbour = nearest(pieces, taken);
  await page.touchAndHold(sheet.at(pieces[taken]), sheet.at(pieces[neighbour]));
  await page.until(async () => (await page.findings()).some((finding) => /overlap|apart|too close/i.test(finding)),
    'the finding is there while the finger is still down');
  assert.doesNotMatch(await page.tally(), HOLDS);
  await page.lift();
  await page.undo();
  assert.equal(await page.tally(), before);

  const file = await page.exportPlacement();
  const placement = JSON.parse(readFileSync(file, 'utf8'));
  assert.equal(placement.format, 'stickleaf-placement');
  assert.equal(placement.pieces.length, pieces.length);

  await page.goTo('Desk');
  await page.openSample('Look up tonight');
  assert.notEqual(await page.tally(), before);
  await page.openFile(file);
  await page.until(async () => (await page.tally()) === before, `the tally is again: ${before}`);
}, { seconds: 90 });
