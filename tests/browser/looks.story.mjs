// How the page looks on three screens, by day and by night: nothing sticks out, every button can be hit, and an
// automatic reading finds nothing against WCAG 2.2 AA. The pictures in tests/output are for people to look at.

import assert from 'node:assert/strict';
import { fileURLToPath } from 'node:url';
import { SCREENS, looksWell } from './look.mjs';
import { story } from './story.mjs';

const PICTURE = fileURLToPath(new URL('../../sample-layouts/rooftop-night/rooftop-night.png', import.meta.url));

/** Drags a piece of the sample onto another, for a finding with long sentences. */
async function layOwlOnCat(page) {
  const pieces = await page.pieces();
  await page.closePanel();
  const sheet = await page.wholeSheet();
  const [owl, cat] = ['Owl', 'Cat'].map((name) => sheet.at(pieces.find((piece) => piece.name === name)));
  await page.touchDrag(owl, cat);
  assert.match(await page.tally(), /Owl overlap/);
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

      await page.goTo('Month');
      await looksWell(page, `month ${screen}`, say);

      await page.goTo('Desk');
      await page.importPicture(PICTURE);
      await page.drawingsFound();
      await looksWell(page, `import ${screen}`, say);
    });
  }
}
