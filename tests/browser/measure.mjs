// Packs in the page what a measuring program asks for, in one worker: node tests/browser/measure.mjs
//
// Each line of standard input is a task, `{"layout", "aim", "seed", "rounds"}` or `{"layout", "aim", "seed", "seconds"}`,
// with the text of a layout file. Each is answered by a line on standard output, `{"seconds", "layout"}`: the text of the
// layout as the page saves it, and the seconds from the page's word to the worker until the worker's last word. A task
// that goes wrong is answered by `{"trouble"}`. STICKLEAF_URL says where the page is.

import { readFileSync } from 'node:fs';
import { createInterface } from 'node:readline';
import { launch } from './browser.mjs';
import { file } from './layouts.mjs';
import { StickleafPage } from './page.mjs';

/** How long a packing that ends after so many rounds may take, in seconds. */
const PATIENCE = 1800;

/** The page leaves one processor to itself, so that it packs in one worker where it believes that there is one. */
const PROCESSORS = 1;

/** In the page: notes when each worker was first told something and when it last answered. */
function keepTimes() {
  const PlainWorker = window.Worker;
  window.workerTimes = [];
  window.Worker = class extends PlainWorker {
    constructor(...how) {
      super(...how);
      this.times = {};
      window.workerTimes.push(this.times);
      this.addEventListener('message', () => {
        this.times.last = performance.now();
      });
    }

    postMessage(...message) {
      this.times.first ??= performance.now();
      super.postMessage(...message);
    }
  };
}

/** Starts the packing; the buttons for the two usual aims are in sight, the others are in the list of more ways. */
async function start(page, aim) {
  if (aim === 'fill') {
    await page.fillSheet();
  } else if (aim === 'place') {
    await page.placeThese();
  } else {
    await page.packToward(aim);
  }
}

async function pack(page, { layout, aim, seed, rounds, seconds }, number) {
  const name = `task-${number}.json`;
  await page.goTo('Desk');
  await page.openFile(file(name, layout));
  await page.noticed(`${name} is open`);
  if (rounds) {
    await page.packRepeatably({ rounds, seed });
  } else {
    await page.packUntilStopped({ seed });
  }
  await page.page.evaluate(() => {
    window.workerTimes.length = 0;
  });
  await start(page, aim);
  if (rounds) {
    await page.packed({ seconds: PATIENCE });
  } else {
    await page.packed({ seconds }).catch(() => page.stop());
    await page.packed();
  }
  const times = await page.page.evaluate(() => window.workerTimes);
  if (times.length !== 1) {
    throw new Error(`the page packed in ${times.length} workers`);
  }
  const [{ first, last }] = times;
  return { seconds: (last - first) / 1000, layout: readFileSync(await page.exportLayout(), 'utf8') };
}

const browser = await launch();
try {
  const page = new StickleafPage(browser);
  await page.open({ processors: PROCESSORS, beforeStart: keepTimes });
  let number = 0;
  for await (const line of createInterface({ input: process.stdin })) {
    number += 1;
    const answer = await pack(page, JSON.parse(line), number).catch((error) => ({ trouble: error.message }));
    if (page.complaints.length > 0) {
      answer.trouble ??= page.complaints.join('; ');
    }
    process.stdout.write(`${JSON.stringify(answer)}\n`);
  }
} finally {
  await browser.close();
}
