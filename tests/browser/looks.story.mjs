// How the page looks on three screens, by day and by night: nothing sticks out, every button can be hit, and an
// automatic reading finds nothing against WCAG 2.2 AA. The pictures in tests/output are for people to look at.

import assert from 'node:assert/strict';
import { fileURLToPath } from 'node:url';
import { story } from './story.mjs';

const PICTURE = fileURLToPath(new URL('../../sample-layouts/rooftop-night/rooftop-night.png', import.meta.url));

const SCREENS = [[1024, 1366], [1366, 1024], [390, 844]];

/** The least side of a target: WCAG 2.2, success criterion 2.5.8. */
const LEAST_TARGET = 24;

/** A comfortable one for fingers: WCAG 2.2, success criterion 2.5.5 (AAA). Smaller ones are only told. */
const GOOD_TARGET = 44;

/** Drags a piece of the sample onto another, for a finding with long sentences. */
async function layOwlOnCat(page) {
  const pieces = await page.pieces();
  await page.closePanel();
  const sheet = await page.wholeSheet();
  const [owl, cat] = ['Owl', 'Cat'].map((name) => sheet.at(pieces.find((piece) => piece.name === name)));
  await page.touchDrag(owl, cat);
  assert.match(await page.tally(), /Owl overlap/);
}

async function looksWell(page, name, say) {
  // A transition half way has colours of its own.
  await page.still();
  await page.screenshot(name);
  const { content, room } = await page.width();
  assert.ok(content <= room, `${name}: ${content} px of page on a screen of ${room} px`);
  assert.deepEqual(await page.tooFull(), [], `${name}: parts that hold more than they show`);
  const targets = await page.targets();
  assert.ok(targets.length > 3, `${name}: there is something to press`);
  const least = ({ width, height }) => Math.min(width, height);
  const tell = ({ label, width, height }) => `${label} (${width.toFixed(0)} x ${height.toFixed(0)})`;
  assert.deepEqual(targets.filter((target) => least(target) < LEAST_TARGET).map(tell), [], `${name}: too small to hit`);
  const small = targets.filter((target) => least(target) < GOOD_TARGET).map(tell);
  if (small.length > 0) {
    say(`${name}: under ${GOOD_TARGET} px: ${[...new Set(small)].join(', ')}`);
  }
  assert.deepEqual(await page.accessibilityFindings(), [], name);
}

for (const [width, height] of SCREENS) {
  for (const colorScheme of ['light', 'dark']) {
    const screen = `${width}x${height} ${colorScheme}`;
    story(`the page looks well at ${screen}`, async (page, say) => {
      await page.open({ viewport: { width, height }, colorScheme, touch: true, reducedMotion: true });
      await page.until(async () => (await page.placed()) > 0, 'a sample lies on the desk');
      await looksWell(page, `desk ${screen}`, say);

      await page.showMoreWays();
      await looksWell(page, `more ways ${screen}`, say);
      await page.press('Escape');

      await layOwlOnCat(page);
      await looksWell(page, `owl on cat ${screen}`, say);

      await page.pieces();
      await looksWell(page, `findings ${screen}`, say);

      await page.showEmptyRoom();
      await looksWell(page, `room panel ${screen}`, say);
      await page.closePanel();
      await looksWell(page, `room ${screen}`, say);
      await page.hideEmptyRoom();

      await page.closePanel();
      await page.goTo('Compare');
      await looksWell(page, `compare at first ${screen}`, say);
      await page.compareWith('5 s');
      await page.startComparing();
      await page.until(async () => (await page.variants()).every(({ placed }) => placed > 0), 'every card shows a sheet');
      await looksWell(page, `comparing ${screen}`, say);
      await page.stop();
      await page.compared({ seconds: 5 });
      await looksWell(page, `compare ${screen}`, say);

      await page.goTo('Press');
      await looksWell(page, `press ${screen}`, say);

      await page.goTo('Desk');
      await page.importPicture(PICTURE);
      await page.drawingsFound();
      await looksWell(page, `import ${screen}`, say);
    });
  }
}
