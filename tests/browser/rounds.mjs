// An artist at work for hours: the same round of work again and again, and what the page holds after each.

import { starsAndDiscs } from './pictures.mjs';

/** The sheets that are opened in turn. */
const SHEETS = ['Clear sky', 'Star party'];

/** How long packing and comparing go on in each round before they are stopped, in milliseconds. */
const PACK_MS = 1500;

/** In the page, before anything else: keeps count of the memory of the page's program and of living workers. */
export function keepCount() {
  const { instantiateStreaming } = WebAssembly;
  const counts = { memory: null, workers: 0 };
  window.roundCounts = counts;
  WebAssembly.instantiateStreaming = async (...how) => {
    const made = await instantiateStreaming(...how);
    counts.memory = made.instance.exports.memory;
    return made;
  };
  const PlainWorker = window.Worker;
  window.Worker = class extends PlainWorker {
    constructor(...how) {
      super(...how);
      counts.workers += 1;
    }

    terminate() {
      super.terminate();
      counts.workers -= 1;
    }
  };
}

/** Opens the page on a tablet, counted, with a sheet on the desk. */
export async function begin(page) {
  await page.open({ touch: true, viewport: { width: 1024, height: 1366 }, beforeStart: keepCount });
  await page.until(async () => (await page.placed().catch(() => 0)) > 0, 'a sheet is drawn', { seconds: 30 });
  const art = { name: 'art.png', mimeType: 'image/png', buffer: await starsAndDiscs({ width: 400, height: 300, across: 3, down: 2 }) };
  return { art, number: 0 };
}

/** One round: another sheet, a drag, a nudge, a packing that is stopped, undo, art, a comparison, every place, every panel. */
export async function round(page, work) {
  work.number += 1;
  await page.openSample(SHEETS[work.number % SHEETS.length]);
  await page.closePanel();
  const sheet = await page.wholeSheet();
  const [piece] = await page.pieces();
  const from = sheet.at(piece);
  await page.closePanel();
  await page.touchDrag(from, { x: from.x + 40, y: from.y + 30 });
  await page.undo();

  await page.fillSheet();
  await page.page.waitForTimeout(PACK_MS);
  await page.stop().catch(() => {});
  await page.packed();
  await page.undo();

  await page.importPicture(work.art);
  await page.drawingsFound();
  await page.addDrawings();
  await page.undo();

  await page.goTo('Compare');
  await page.startComparing();
  await page.page.waitForTimeout(PACK_MS);
  await page.stop();
  await page.compared();
  await page.goTo('Press');
  await page.goTo('Desk');
  for (const panel of ['Sheet', 'Background', 'Findings']) {
    await page.showPanel(panel);
  }
  await page.closePanel();
  await page.showSheets();
  await page.closeSheets();
}

/** What the page holds once all that can go has gone: `{heap, wasm, nodes, listeners, workers}`; sizes in bytes. */
export async function held(page) {
  const { session } = page;
  // Some things go only with what held them, so once is not enough.
  for (let time = 0; time < 3; time += 1) {
    await page.page.waitForTimeout(150);
    await session.send('HeapProfiler.collectGarbage');
  }
  await session.send('Performance.enable');
  const { metrics } = await session.send('Performance.getMetrics');
  const metric = (name) => metrics.find((known) => known.name === name).value;
  const counts = await page.page.evaluate(() => ({
    wasm: window.roundCounts.memory.buffer.byteLength, workers: window.roundCounts.workers,
  }));
  return { heap: metric('JSHeapUsedSize'), nodes: metric('Nodes'), listeners: metric('JSEventListeners'), ...counts };
}

/**
 * By how much a row of values rises from its first third to its last, as a share of the first: medians, so that one
 * high value says nothing. Zero for a row that falls.
 */
export function rise(values) {
  const third = Math.max(1, Math.floor(values.length / 3));
  const middle = (some) => [...some].sort((a, b) => a - b)[some.length >> 1];
  const [first, last] = [middle(values.slice(0, third)), middle(values.slice(-third))];
  return Math.max(0, (last - first) / first);
}
