// Large text, the system's own colours, and a page that keeps still: each screen can be read and used with them.

import assert from 'node:assert/strict';
import { boxes, layoutFile } from './layouts.mjs';
import { story } from './story.mjs';

/** Two boxes on each other, and one past the edge. */
const BROKEN = layoutFile('boxes.json', boxes([[30, 40], [34, 42], [99, 90], [30, 100]]));

/** Every screen of the page, one after the other; `visit` is called on each with its name. */
async function walk(page, visit) {
  await page.openFile(BROKEN);
  await page.noticed('boxes.json is open');
  await page.closeNotice();
  await visit('desk');
  await page.pieces();
  await visit('findings');
  for (const panel of ['Sheet', 'Background']) {
    await page.showPanel(panel);
    await visit(`${panel} panel`);
  }
  await page.closePanel();
  await page.openSticker('Box');
  await visit('sticker panel');
  await page.closePanel();
  await page.openShapes();
  await visit('rough in');
  await page.press('Escape');
  await page.press('?');
  await visit('keys');
  await page.press('Escape');
  await page.showSheets();
  await visit('my sheets');
  await page.closeSheets();
  await page.goTo('Compare');
  await visit('compare');
  await page.goTo('Press');
  await visit('press');
}

/** Text that is cut off by its own box, with nothing to scroll it by. */
const cutOff = (page) => page.page.evaluate(() => [...document.querySelectorAll('button, h1, h2, h3, p, .field-label, .tally-part, .tally-rules')]
  .filter((element) => element.checkVisibility() && element.clientWidth > 1)
  .filter((element) => {
    const { overflowX, overflowY } = getComputedStyle(element);
    const hides = (overflow) => overflow === 'hidden' || overflow === 'clip';
    return (hides(overflowX) && element.scrollWidth > element.clientWidth + 1)
      || (hides(overflowY) && element.scrollHeight > element.clientHeight + 1);
  })
  .map((element) => element.innerText.trim()));

for (const [width, height] of [[1366, 1024], [390, 844]]) {
  story(`text of twice the size is not cut off at ${width}x${height}`, async (page) => {
    await page.open({ viewport: { width, height }, reducedMotion: true, touch: true });
    await page.textSize(2);
    await walk(page, async (screen) => {
      await page.still();
      await page.screenshot(`large text ${screen} ${width}x${height}`);
      const { content, room } = await page.width();
      assert.ok(content <= room, `${screen}: ${content} px of page on a screen of ${room} px`);
      assert.deepEqual(await cutOff(page), [], screen);
      assert.deepEqual(await page.accessibilityFindings(), [], screen);
    });
  });
}

story('the page can be used in the system’s own colours', async (page) => {
  await page.open({ reducedMotion: true });
  await page.page.emulateMedia({ forcedColors: 'active' });
  await walk(page, async (screen) => {
    await page.still();
    await page.screenshot(`forced colours ${screen}`);
    // What is pressed or chosen has to differ by more than a colour that is not there.
    const alike = await page.page.evaluate(() => [...document.querySelectorAll('[aria-pressed="true"], [aria-current="page"]')]
      .filter((element) => element.checkVisibility() && element.parentElement.querySelector('[aria-pressed="false"], .place:not([aria-current])'))
      .filter((element) => {
        const other = element.parentElement.querySelector('[aria-pressed="false"], .place:not([aria-current])');
        const look = (of) => { const style = getComputedStyle(of); return [style.backgroundColor, style.borderColor, style.color, style.outlineStyle, style.fontWeight, style.textDecorationLine, style.boxShadow].join(); };
        return look(element) === look(other);
      })
      .map((element) => element.innerText.trim()));
    assert.deepEqual(alike, [], `${screen}: what is chosen looks like what is not`);
    assert.deepEqual(await page.accessibilityFindings(), [], screen);
  });
});

story('nothing moves by itself for those who want it still', async (page) => {
  await page.open({ reducedMotion: true });
  await walk(page, async (screen) => {
    const moving = await page.page.evaluate(() => document.getAnimations()
      .filter(({ playState, effect }) => playState === 'running' && effect.getComputedTiming().duration > 1)
      .map(({ animationName, transitionProperty }) => animationName ?? transitionProperty));
    assert.deepEqual(moving, [], screen);
  });
});
