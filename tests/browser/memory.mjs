// Measures whether memory stays flat while an artist works on: node tests/browser/memory.mjs [--minutes N]
//
// The table on standard output has a row for each minute or so: what the page holds after everything that can go has
// gone. The last lines say by how much each column rises from its first third to its last, without the first rounds, in
// which caches fill. The task fails if one rises by more than a twentieth. STICKLEAF_URL says where the page is.

import { parseArgs } from 'node:util';
import { launch } from './browser.mjs';
import { StickleafPage } from './page.mjs';
import { begin, held, rise, round } from './rounds.mjs';

/** Rounds in which caches fill and undo begins to be long. */
const WARM_UP = 4;

/** What counts as flat. */
const MOST_RISE = 0.05;

const COLUMNS = ['heap', 'wasm', 'nodes', 'listeners', 'workers'];

const cell = (key, value) => (key === 'heap' || key === 'wasm' ? `${(value / 1e6).toFixed(2)} MB` : String(value));

const { values } = parseArgs({ options: { minutes: { type: 'string' } } });
const minutes = Number(values.minutes ?? 30);
const browser = await launch();
try {
  const page = new StickleafPage(browser);
  const work = await begin(page);
  const begun = Date.now();
  const elapsed = () => (Date.now() - begun) / 60_000;
  const rows = [];
  let told = -1;
  console.log(`| minute | round | ${COLUMNS.join(' | ')} |\n| ${'---: | '.repeat(COLUMNS.length + 2)}`);
  while (elapsed() < minutes || rows.length < WARM_UP + 3) {
    await round(page, work);
    const now = await held(page);
    rows.push(now);
    if (Math.floor(elapsed()) > told || elapsed() >= minutes) {
      told = Math.floor(elapsed());
      const cells = COLUMNS.map((key) => cell(key, now[key]));
      console.log(`| ${elapsed().toFixed(1)} | ${rows.length} | ${cells.join(' | ')} |`);
    }
  }
  const steady = rows.slice(WARM_UP);
  console.log(`\nFrom the first third to the last of ${steady.length} rounds, the first ${WARM_UP} left out:\n`);
  for (const key of COLUMNS.slice(0, 4)) {
    const part = rise(steady.map((row) => row[key]));
    console.log(`- ${key}: ${(part * 100).toFixed(1)} % more, ${part <= MOST_RISE ? 'flat' : 'NOT flat'}`);
    process.exitCode = part <= MOST_RISE ? process.exitCode : 1;
  }
  if (page.complaints.length > 0) {
    throw new Error(page.complaints.join('; '));
  }
} finally {
  await browser.close();
}
