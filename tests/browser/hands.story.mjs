// The tools of the other stories: that a finger is a finger, a pen a pen, and a dropped file a file. Seen with a bare
// page that writes down what reaches it.

import assert from 'node:assert/strict';
import { fileURLToPath } from 'node:url';
import { story } from './story.mjs';

const BARE_PAGE = `data:text/html,${encodeURIComponent(`<!doctype html><title>Bare</title>
  <style>body { margin: 0 } div { height: 100vh; touch-action: none }</style><div></div>
  <script>
    const heard = [];
    const surface = document.querySelector("div");
    for (const type of ["pointerdown", "pointermove", "pointerup", "pointercancel"]) {
      surface.addEventListener(type, ({ pointerType, pointerId, clientX, clientY, buttons, isTrusted }) =>
        heard.push({ type, pointerType, pointerId, x: clientX, y: clientY, buttons, isTrusted }));
    }
    surface.addEventListener("dragover", (event) => event.preventDefault());
    surface.addEventListener("drop", async (event) => {
      event.preventDefault();
      const [file] = event.dataTransfer.files;
      heard.push({ type: "drop", name: file.name, size: file.size, isTrusted: event.isTrusted });
    });
  </script>`)}`;

const START = { x: 200, y: 300 };
const END = { x: 320, y: 340 };

async function bare(page) {
  await page.open({ url: BARE_PAGE, touch: true });
  return async (type) => (await page.page.evaluate('heard')).filter((event) => !type || event.type === type);
}

story('a finger drags as a finger', async (page) => {
  const heard = await bare(page);
  await page.touchDrag(START, END);
  const [down] = await heard('pointerdown');
  const [up] = await heard('pointerup');
  assert.deepEqual([down.x, down.y, up.x, up.y], [START.x, START.y, END.x, END.y]);
  assert.ok((await heard('pointermove')).length >= 3);
  assert.ok((await heard()).every((event) => event.pointerType === 'touch' && event.isTrusted));
});

story('the system can take a finger’s gesture away', async (page) => {
  const heard = await bare(page);
  await page.touchDrag(START, END, { cancel: true });
  assert.equal((await heard('pointercancel')).length, 1);
  assert.equal((await heard('pointerup')).length, 0);
});

story('a pen hovers, drags and lifts as a pen', async (page) => {
  const heard = await bare(page);
  await page.penDrag(START, END);
  const events = await heard();
  assert.deepEqual([events[0].type, events[0].buttons], ['pointermove', 0]);
  const [down] = await heard('pointerdown');
  const [up] = await heard('pointerup');
  assert.deepEqual([down.x, down.y, up.x, up.y], [START.x, START.y, END.x, END.y]);
  assert.ok(events.every((event) => event.pointerType === 'pen' && event.isTrusted));
});

story('two fingers pinch around a centre', async (page) => {
  const heard = await bare(page);
  await page.pinch({ x: 400, y: 400 }, 100, 300);
  const downs = await heard('pointerdown');
  const ups = await heard('pointerup');
  assert.deepEqual(downs.map((event) => event.x), [350, 450]);
  assert.deepEqual(ups.map((event) => event.x).sort(), [250, 550]);
  assert.equal(new Set(downs.map((event) => event.pointerId)).size, 2);
});

story('three fingers tap at once', async (page) => {
  const heard = await bare(page);
  await page.tap({ x: 100, y: 100 }, { x: 200, y: 100 }, { x: 300, y: 100 });
  const kinds = (await heard()).map((event) => event.type);
  assert.deepEqual(kinds.slice(0, 3), ['pointerdown', 'pointerdown', 'pointerdown']);
  assert.equal(kinds.filter((kind) => kind === 'pointerup').length, 3);
});

story('a dropped file arrives as a file', async (page) => {
  const heard = await bare(page);
  await page.dropPicture(fileURLToPath(import.meta.url));
  await page.page.waitForFunction('heard.some((event) => event.type === "drop")');
  const [drop] = await heard('drop');
  assert.equal(drop.name, 'hands.story.mjs');
  assert.ok(drop.size > 1000 && drop.isTrusted);
});
