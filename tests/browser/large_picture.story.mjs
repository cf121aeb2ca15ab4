// A picture as large as an A4 page at 500 pixels to the inch and more: 27.6 million pixels.

import assert from 'node:assert/strict';
import { starsAndDiscs } from './pictures.mjs';
import { story } from './story.mjs';

const SIZE = { width: 4250, height: 6500, across: 5, down: 6 };

/** Counts the frames of the page from now on; gives what tells how many, and the longest wait between two. */
async function countFrames(page) {
  await page.page.evaluate(() => {
    const frames = { count: 0, longest: 0, last: performance.now() };
    const next = (now) => {
      frames.count += 1;
      frames.longest = Math.max(frames.longest, now - frames.last);
      frames.last = now;
      requestAnimationFrame(next);
    };
    requestAnimationFrame(next);
    window.framesSoFar = frames;
  });
  return () => page.page.evaluate(() => ({ ...window.framesSoFar }));
}

story('a large picture comes in while the page goes on, and can be stopped', async (page) => {
  const picture = { name: 'large.png', mimeType: 'image/png', buffer: await starsAndDiscs(SIZE) };
  await page.open();
  await page.until(async () => (await page.placed()) > 0, 'a sample lies on the desk');
  const before = await page.tally();

  await page.importPicture(picture);
  await page.importDialog().getByText('Looking for drawings in large.png').waitFor();
  const frames = await countFrames(page);
  assert.equal(await page.drawingsFound({ seconds: 60 }), '30 drawings found');
  const { count, longest } = await frames();
  assert.ok(count > 10, `${count} frames were drawn meanwhile`);
  assert.ok(longest < 500, `the page stood still for ${longest.toFixed(0)} ms`);
  await page.cancelImport();

  await page.importPicture(picture);
  await page.importDialog().getByText('Looking for drawings in large.png').waitFor();
  await page.stop();
  await page.importDialog().waitFor({ state: 'hidden', timeout: 1000 });
  assert.equal(await page.tally(), before);
  // The next one is not held up by the one that was stopped.
  const small = await starsAndDiscs({ width: 300, height: 300, across: 2, down: 1 });
  await page.importPicture({ name: 'small.png', mimeType: 'image/png', buffer: small });
  assert.equal(await page.drawingsFound({ seconds: 10 }), '2 drawings found');
}, { seconds: 120 });
