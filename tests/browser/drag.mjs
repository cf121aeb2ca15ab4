// Measures whether a finger drags smoothly on a full sheet: node tests/browser/drag.mjs [--seconds N] [--slower N]
//     [--check CARRIED.wasm] [--keep TRACE.json]
//
// A sheet of 200 pieces with outlines of 200 points is opened on a tablet held sideways, and one finger carries a piece among
// the others, 60 moves a second. The browser's own tracing tells what the page's thread did meanwhile. The table on standard
// output has a row for each way to drag; with --check another one for the check alone, which is what `crates/bench/carried`
// becomes in wasm. The task fails if a frame took longer than 16 ms, or the check
// longer than 1 ms. Only the page's own thread is slowed down: that is what the browser offers. STICKLEAF_URL says where the
// page is.

import { readFileSync, writeFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { launch } from './browser.mjs';
import { layoutFile } from './layouts.mjs';
import { StickleafPage } from './page.mjs';
import { framesOf, parts, share } from './trace.mjs';

/** A tablet held sideways. */
const TABLET = { width: 1180, height: 820 };

/** How many rows and columns of pieces there are, from the middle of one to that of the next, and the room about them all. */
const [COLUMNS, ROWS, PITCH_MM, ROOM_MM] = [20, 10, 13.5, 12];

/** How many kinds of stickers there are. */
const KINDS = 40;

/** How many points each outline has. */
const POINTS = 200;

/** Between two moves of the finger, in milliseconds. */
const MOVE_MS = 1000 / 60;

/** The most that a frame may take, and the check of the carried piece without a slower processor, in milliseconds. */
const [MOST_FRAME_MS, MOST_CHECK_MS] = [16, 1];

/** A closed wavy line about 11 mm across, as path data. */
function blob(kind) {
  const point = (index) => {
    const angle = (index / POINTS) * 2 * Math.PI;
    const radius = 5 + 0.7 * Math.sin((5 + (kind % 5)) * angle + kind);
    return `${(radius * Math.cos(angle)).toFixed(3)} ${(radius * Math.sin(angle)).toFixed(3)}`;
  };
  return `M${Array.from({ length: POINTS }, (_, index) => point(index)).join('L')}Z`;
}

/** Where the piece of this number lies, in millimetres. */
function place(index) {
  return { x: ROOM_MM + PITCH_MM * (index % COLUMNS), y: ROOM_MM + PITCH_MM * Math.floor(index / COLUMNS) };
}

/** A sheet full of pieces that keep the spacing of 2 mm. */
function fullSheet() {
  const stickers = Array.from({ length: KINDS }, (_, kind) => ({
    id: `blob-${kind}`, name: `Blob ${kind + 1}`, outline: blob(kind), border_mm: 0, wanted: { at_least: 1 }, turns: 'any',
  }));
  const pieces = Array.from({ length: COLUMNS * ROWS }, (_, index) => {
    const { x, y } = place(index);
    return { sticker: `blob-${index % KINDS}`, x_mm: x, y_mm: y, turn_deg: 0 };
  });
  const sheet = {
    width_mm: 2 * ROOM_MM + PITCH_MM * (COLUMNS - 1), height_mm: 2 * ROOM_MM + PITCH_MM * (ROWS - 1), corner_radius_mm: 4, resolution_ppi: 600,
  };
  return { format: 'stickleaf-layout', version: 1, name: 'Two hundred', sheet, rules: { spacing_mm: 2, margin_mm: 4 }, stickers, pieces };
}

/** The piece that is carried: one in the middle. */
const CARRIED = COLUMNS * Math.floor(ROWS / 2) + COLUMNS / 2;

/** The ways that the finger goes: a point in millimetres for each part of the time. */
const WAYS = {
  'about its place': (part) => {
    const { x, y } = place(CARRIED);
    const angle = 2 * Math.PI * part * 4;
    return { x: x + 4 * Math.sin(angle), y: y + 4 * Math.sin(1.3 * angle) };
  },
  'across the others': (part) => {
    const { x, y } = place(CARRIED);
    const angle = 2 * Math.PI * part;
    return { x: x + 100 * Math.sin(2.1 * angle), y: y + 40 * Math.sin(3.2 * angle) };
  },
};

const touch = (session, type, points) => session.send('Input.dispatchTouchEvent', {
  type, touchPoints: points.map(({ x, y }) => ({ x, y, id: 0, radiusX: 8, radiusY: 8, force: 0.5 })),
});

/** Moves a finger that is down along a way for so many seconds, and never waits for the page to follow. */
async function follow(session, way, seconds) {
  const begun = performance.now();
  const sent = [];
  for (let move = 1; move * MOVE_MS < 1000 * seconds; move += 1) {
    await new Promise((done) => setTimeout(done, Math.max(0, begun + move * MOVE_MS - performance.now())));
    sent.push(touch(session, 'touchMove', [way((move * MOVE_MS) / 1000 / seconds)]));
  }
  await Promise.all(sent);
  return sent.length;
}

/** Drags a piece and lets it go; gives what the thread did from the first move until half a second after the last. */
async function drag(page, sheet, way, { seconds, slower, keep }) {
  const { session } = page;
  const at = (part) => sheet.at(way(part));
  await session.send('Emulation.setCPUThrottlingRate', { rate: slower });
  await page.browser.startTracing(page.page, { categories: TRACED });
  await touch(session, 'touchStart', [at(0)]);
  const moves = await follow(session, at, seconds);
  await touch(session, 'touchEnd', []);
  await page.page.waitForTimeout(1500);
  const trace = await page.browser.stopTracing();
  await session.send('Emulation.setCPUThrottlingRate', { rate: 1 });
  if (keep) {
    writeFileSync(keep, trace);
  }
  await page.undo();
  return { moves, ...framesOf(JSON.parse(trace)) };
}

const TRACED = ['devtools.timeline', 'disabled-by-default-devtools.timeline', 'disabled-by-default-devtools.timeline.frame', 'v8'];

const ms = (value) => value.toFixed(1);

function row(name, { moves, dragging, letGo, drawn }) {
  const times = dragging.map(({ work }) => work);
  const over = times.filter((time) => time > MOST_FRAME_MS).length;
  const by = parts(dragging);
  return `| ${[name, moves, dragging.length, drawn, ms(share(times, 0.5)), ms(share(times, 0.95)), ms(Math.max(...times)), over, ms(letGo),
    ...['scripting', 'layout', 'painting', 'other'].map((kind) => ms(by[kind]))].join(' | ')} |`;
}

/** How long the check of the carried piece takes, and a whole move of the editor, in milliseconds: medians of batches. */
function checkAlone(page, path) {
  return page.page.evaluate(async (base64) => {
    const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
    const { instance } = await WebAssembly.instantiate(bytes, {});
    const { check_carried: check, carry } = instance.exports;
    const median = (deed) => {
      const times = [];
      // The first ones run before the browser has compiled the program well.
      for (let batch = 0; batch < 60; batch += 1) {
        const begun = performance.now();
        deed(50);
        times.push((performance.now() - begun) / 50);
      }
      return times.slice(20).sort((a, b) => a - b)[20];
    };
    return Object.fromEntries([['near', 0], ['far', 1]].flatMap(([name, far]) => [
      [`check ${name}`, median((times) => check(far, times))],
      [`move ${name}`, median((times) => carry(far, times))],
    ]));
  }, readFileSync(path).toString('base64'));
}

const { values } = parseArgs({
  options: { seconds: { type: 'string' }, slower: { type: 'string' }, check: { type: 'string' }, keep: { type: 'string' } },
});
const how = { seconds: Number(values.seconds ?? 6), slower: Number(values.slower ?? 4), keep: values.keep };
const browser = await launch();
try {
  const page = new StickleafPage(browser);
  await page.open({ touch: true, viewport: TABLET });
  await page.until(async () => (await page.placed()) > 0, 'a sheet is drawn');
  await page.openFile(layoutFile('two hundred.json', fullSheet()));
  await page.noticed('two hundred.json is open');
  await page.closeNotice();
  const sheet = await page.wholeSheet();
  console.log(`\nOne finger carries a piece among ${COLUMNS * ROWS} of ${POINTS} points each, ${how.seconds} s for each way; the page's`
    + ` thread ${how.slower} times slower. Times are milliseconds of that thread for each frame: the last four columns say with`
    + ' what, on average.\n');
  console.log('| way | moves | frames | drawn | median | 95 of 100 | longest | over 16 ms | letting go | scripts | style, layout | painting | other |');
  console.log(`| --- |${' ---: |'.repeat(12)}`);
  for (const [name, way] of Object.entries(WAYS)) {
    const told = await drag(page, sheet, way, how);
    console.log(row(name, told));
    if (told.dragging.some(({ work }) => work > MOST_FRAME_MS)) {
      process.exitCode = 1;
    }
  }
  if (values.check) {
    const times = await checkAlone(page, values.check);
    console.log('\nIn wasm, without a slower processor, in milliseconds:\n');
    console.log('| where the piece is carried | the check of it | the whole move |\n| --- | ---: | ---: |');
    for (const [name, where] of [['near', 'about its place'], ['far', 'across the others']]) {
      console.log(`| ${where} | ${times[`check ${name}`].toFixed(3)} | ${times[`move ${name}`].toFixed(3)} |`);
      process.exitCode = times[`check ${name}`] > MOST_CHECK_MS ? 1 : process.exitCode;
    }
  }
  if (page.complaints.length > 0) {
    throw new Error(page.complaints.join('; '));
  }
  await page.close();
} finally {
  await browser.close();
}
