// Measures how much memory the browser takes to compose a sheet of 4250 x 6500 pixels: node tests/browser/compose.mjs
//
// The sheet is 4.25 x 6.5 in at 1000 pixels to the inch; on it lie 30 stickers of one picture of that size, once in the whole
// picture and once as the parts that a bundle holds. What is told is the most memory that the page's process, its workers in it, ever
// had in hand since the making began, by the kernel's own count, so this runs on Linux only. The task fails above 600 MB. STICKLEAF_URL says
// where the page is.

import assert from 'node:assert/strict';
import { readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { launch } from './browser.mjs';
import { StickleafPage } from './page.mjs';
import { starsAndDiscs } from './pictures.mjs';
import { inFolderAsync, stickleaf } from './program.mjs';

/** 4.25 x 6.5 in, at 1000 pixels to the inch. */
const SIZE = { width: 4250, height: 6500, across: 5, down: 6 };
const SHEET = { width_mm: 107.95, height_mm: 165.1, corner_radius_mm: 4, resolution_ppi: 1000 };

/** The most that composing may take. */
const MOST_MB = 600;

/** The processes that draw pages, by their numbers: the browser is the only one that was started from here. */
function renderers() {
  const numbers = readdirSync('/proc').filter((name) => /^\d+$/.test(name));
  const line = (number) => {
    try {
      return readFileSync(`/proc/${number}/cmdline`, 'utf8');
    } catch {
      return '';
    }
  };
  return numbers.filter((number) => line(number).includes('--type=renderer'));
}

/** The most memory that a process ever had in hand, in MB. */
function peak(number) {
  const found = /^VmHWM:\s+(\d+) kB/m.exec(readFileSync(`/proc/${number}/status`, 'utf8'));
  return (Number(found[1]) * 1024) / 1e6;
}

/** Forgets what processes had in hand before: proc(5), clear_refs. */
const forget = (number) => writeFileSync(`/proc/${number}/clear_refs`, '5');

async function measure(bundle) {
  const before = new Set(renderers());
  const browser = await launch();
  try {
    const page = new StickleafPage(browser);
    await page.open();
    await page.openFile(bundle);
    await page.noticed(/stickleaf is open/);
    assert.equal(await page.placed(), 30);
    await page.goTo('Press');
    const own = renderers().filter((number) => !before.has(number));
    own.forEach(forget);
    const idle = Math.max(...own.map(peak));
    const begun = Date.now();
    await page.makeSheet({ bleed: 'Card only', seconds: 600 });
    const seconds = (Date.now() - begun) / 1000;
    return { idle, most: Math.max(...own.map(peak)), seconds };
  } finally {
    await browser.close();
  }
}

await inFolderAsync(async (at) => {
  writeFileSync(at('large.png'), await starsAndDiscs(SIZE));
  stickleaf('trace', at('large.png'), '--width-mm', SHEET.width_mm, '-o', at('sheet.json'));
  const layout = JSON.parse(readFileSync(at('sheet.json'), 'utf8'));
  const pieces = layout.stickers.map(({ id }, i) => ({
    sticker: id,
    x_mm: ((i % SIZE.across) + 0.5) * (SHEET.width_mm / SIZE.across),
    y_mm: (Math.floor(i / SIZE.across) + 0.5) * (SHEET.height_mm / SIZE.down),
  }));
  writeFileSync(at('sheet.json'), JSON.stringify({ ...layout, sheet: SHEET, rules: { ...layout.rules, margin_mm: 1 }, pieces }));
  stickleaf('export', at('sheet.json'), '--bundle', at('whole.stickleaf'), '--whole-pictures');
  stickleaf('export', at('sheet.json'), '--bundle', at('parts.stickleaf'));
  console.log('| pictures | before, MB | most, MB | seconds |\n| --- | ---: | ---: | ---: |');
  for (const kind of ['whole', 'parts']) {
    const { idle, most, seconds } = await measure(at(`${kind}.stickleaf`));
    console.log(`| ${kind} | ${idle.toFixed(0)} | ${most.toFixed(0)} | ${seconds.toFixed(1)} |`);
    process.exitCode = most <= MOST_MB ? process.exitCode : 1;
  }
});
