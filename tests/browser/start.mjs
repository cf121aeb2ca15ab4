// Measures how soon the page is there on a slow processor: node tests/browser/start.mjs [--runs N] [--slower N]
//
// Cold visits have nothing stored; warm ones come back to a browser that keeps a copy of the page. Each visit is made
// N times, and the table on standard output gives medians, with the longest in brackets. STICKLEAF_URL says where
// the page is. Only the page's own thread is slowed down: that is what the browser offers.

import { parseArgs } from 'node:util';
import { launch } from './browser.mjs';
import { StickleafPage } from './page.mjs';

/** A tablet held sideways, as tall as the look of the page is made for. */
const TABLET = { width: 1366, height: 1024 };

/** Between two taps of somebody who waits for the page to answer, in milliseconds. */
const TAP_EVERY_MS = 40;

/** A visit that takes longer than this has failed, in milliseconds. */
const PATIENCE_MS = 30_000;

/** In the page, before anything else: notes when things happen, in milliseconds from the start of the visit. */
function keepTimes() {
  const times = { paint: NaN, drawn: NaN, usable: NaN, longestTask: 0 };
  window.startTimes = times;
  const watch = (type, take) => new PerformanceObserver((list) => list.getEntries().forEach(take))
    .observe({ type, buffered: true });
  watch('paint', ({ name, startTime }) => {
    if (name === 'first-contentful-paint') {
      times.paint = startTime;
    }
  });
  watch('longtask', ({ duration }) => {
    times.longestTask = Math.max(times.longestTask, duration);
  });
  const look = () => {
    if (Number.isNaN(times.drawn) && /^[1-9]\d* placed/.test(document.querySelector('.tally')?.innerText ?? '')) {
      times.drawn = Infinity;
      // The frame after the next one begins when what the tally tells is on the screen.
      requestAnimationFrame(() => requestAnimationFrame((now) => {
        times.drawn = now;
      }));
    }
    if (Number.isNaN(times.usable) && document.querySelector('.hand-title')?.textContent) {
      times.usable = performance.now();
    }
  };
  new MutationObserver(look).observe(document, { subtree: true, childList: true, characterData: true });
}

/** Where a finger finds a piece of the first sheet, found on a visit that nobody measures. */
async function pointOnPiece(browser) {
  const page = new StickleafPage(browser);
  await page.open({ touch: true, viewport: TABLET });
  await page.until(async () => (await page.placed()) > 0, 'a sheet is drawn');
  const sheet = await page.wholeSheet();
  const [first] = await page.pieces();
  await page.close();
  return sheet.at(first);
}

/** Visits the page with a finger that taps until something answers; gives the times and the bytes that were sent. */
async function visit(page, point, slower) {
  const { session } = page;
  let sent = 0;
  const count = ({ encodedDataLength }) => {
    sent += encodedDataLength;
  };
  await session.send('Network.enable');
  session.on('Network.loadingFinished', count);
  await session.send('Emulation.setCPUThrottlingRate', { rate: slower });
  const begun = Date.now();
  await page.page.goto(page.url, { waitUntil: 'commit' });
  let times;
  do {
    await page.hands.tap(point);
    await new Promise((done) => setTimeout(done, TAP_EVERY_MS));
    times = await page.page.evaluate(() => ({ ...window.startTimes }));
    if (Date.now() - begun > PATIENCE_MS) {
      throw new Error(`the page did not become usable: ${JSON.stringify(times)}`);
    }
  } while (!(times.usable > 0 && times.drawn < Infinity && times.paint > 0));
  await session.send('Emulation.setCPUThrottlingRate', { rate: 1 });
  return { ...times, sent };
}

async function coldVisits(browser, point, { runs, slower }) {
  const visits = [];
  for (let run = 0; run < runs; run += 1) {
    const page = new StickleafPage(browser);
    await page.openBlank({ touch: true, viewport: TABLET, beforeStart: keepTimes });
    visits.push(await visit(page, point, slower));
    await page.close();
  }
  return visits;
}

async function warmVisits(browser, point, { runs, slower }) {
  const visits = [];
  const page = new StickleafPage(browser);
  await page.open({ touch: true, viewport: TABLET, beforeStart: keepTimes, serviceWorkers: 'allow' });
  await page.page.evaluate(() => navigator.serviceWorker.ready);
  await page.until(async () => (await page.keptCopies()).length > 0, 'the page is kept on the device');
  for (let run = 0; run < runs; run += 1) {
    visits.push(await visit(page, point, slower));
  }
  await page.close();
  return visits;
}

function median(values) {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 ? sorted[middle] : (sorted[middle - 1] + sorted[middle]) / 2;
}

function row(name, visits) {
  const cell = (key) => {
    const values = visits.map((visit) => visit[key]);
    return `${median(values).toFixed(0)} (${Math.max(...values).toFixed(0)})`;
  };
  const sent = `${(median(visits.map((visit) => visit.sent)) / 1000).toFixed(0)} kB`;
  return `| ${[name, cell('paint'), cell('drawn'), cell('usable'), cell('longestTask'), sent].join(' | ')} |`;
}

const { values } = parseArgs({ options: { runs: { type: 'string' }, slower: { type: 'string' } } });
const how = { runs: Number(values.runs ?? 9), slower: Number(values.slower ?? 4) };
const browser = await launch();
try {
  const point = await pointOnPiece(browser);
  console.log(`\nMedian of ${how.runs} visits and, in brackets, the longest; milliseconds from the start of the visit;`
    + ` the page's thread ${how.slower} times slower.\n`);
  console.log('| visit | first paint | sheet drawn | a tap chooses a piece | longest task | sent till then |');
  console.log('| --- | ---: | ---: | ---: | ---: | ---: |');
  console.log(row('cold', await coldVisits(browser, point, how)));
  console.log(row('warm', await warmVisits(browser, point, how)));
} finally {
  await browser.close();
}
