// Variants side by side: what each background costs in stickers, and the way of one of them to the desk and back.

import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { layoutFile } from './layouts.mjs';
import { story } from './story.mjs';

const ROOT = fileURLToPath(new URL('../../', import.meta.url));

const TABLET = { viewport: { width: 1024, height: 1366 }, touch: true };

/** How long a comparison may take on a slow machine, beyond the time it gives to its searches. */
const SECONDS = 120;

/** A small card of boxes that may be plain, or have a band or a frame. */
function styled(more = {}) {
  const zone = (name, outline) => ({ name, outline, clearance_mm: 1 });
  return {
    format: 'stickleaf-layout',
    version: 1,
    name: 'Three styles',
    sheet: { width_mm: 100, height_mm: 80, corner_radius_mm: 4 },
    rules: { spacing_mm: 2, margin_mm: 4, border_mm: 1 },
    backgrounds: [
      { name: 'Plain', zones: [] },
      { name: 'Band', zones: [zone('title', 'M0 0H100V20H0Z')] },
      { name: 'Frame', zones: [zone('left', 'M0 0H20V80H0Z'), zone('top', 'M20 0H100V20H20Z'), zone('right', 'M80 20H100V80H80Z')] },
    ],
    background: 'Band',
    stickers: [
      { id: 'box', name: 'Box', outline: 'M-6 -6H6V6H-6Z', wanted: { at_least: 1 }, turns: 'none' },
      { id: 'label', name: 'Label', outline: 'M-9 -4H9V4H-9Z', wanted: { at_least: 1 }, turns: 'none' },
    ],
    pieces: [{ sticker: 'box', x_mm: 30, y_mm: 60, turn_deg: 0 }],
    ...more,
  };
}

async function open(page, layout, how = TABLET) {
  await page.open(how);
  await page.until(async () => (await page.placed().catch(() => 0)) > 0, 'the page has started', { seconds: 30 });
  await page.openFile(layoutFile('styles.json', layout));
  await page.noticed('styles.json is open');
  await page.closeNotice();
}

const byName = (variants) => Object.fromEntries(variants.map((variant) => [variant.name, variant]));

/** The figures of the tally that a card tells as well. */
function tallied(tally) {
  const [, placed, atMost, dense] = /^(\d+) placed · at most (\d+) · (\d+) % dense/.exec(tally).map(Number);
  const gap = Number(/smallest gap (\S+) mm/.exec(tally)[1]);
  return { placed, atMost, dense, gap };
}

story('an artist sees what each background costs, puts one on the desk and takes it back', async (page, say) => {
  await open(page, styled());
  const [before, pieces] = [await page.tally(), await page.pieces()];
  await page.closePanel();
  await page.goTo('Compare');
  assert.deepEqual((await page.offered('Backgrounds')).map(({ name }) => name), ['No background', 'Plain', 'Band', 'Frame']);
  assert.deepEqual(await page.accessibilityFindings(), []);
  await page.compareWith('5 s');
  await page.startComparing();
  await page.until(async () => /% done · .*left/.test(await page.comparingProgress()), 'it tells how far it is');
  await page.compared({ seconds: SECONDS });

  const variants = await page.variants();
  say(variants.map(({ name, placed, atMost }) => `${name} ${placed} of at most ${atMost}`).join(', '));
  const { 'No background': none, Plain, Band, Frame } = byName(variants);
  assert.equal(none.placed, Plain.placed, 'what is the same to stickers is the same');
  assert.ok(Plain.placed > Band.placed && Band.placed > Frame.placed, 'a richer background holds fewer');
  for (const { name, placed, atMost, gap, text } of variants) {
    assert.ok(placed > 0 && placed <= atMost, `${name}: ${placed} of at most ${atMost}`);
    assert.ok(gap >= 2, `${name}: the spacing holds`);
    assert.match(text, /all rules hold/);
    assert.match(text, /Largest empty dot (none|\d)/);
  }
  assert.ok(Band.text.includes(`${none.placed - Band.placed} fewer than No background`), Band.text);
  assert.match(Band.text, /as on the desk/);
  assert.notEqual(await page.variantPicture('Plain'), await page.variantPicture('Frame'));
  assert.deepEqual(await page.accessibilityFindings(), []);

  await page.goTo('Desk');
  assert.equal(await page.tally(), before, 'comparing leaves the desk alone');
  await page.goTo('Compare');
  assert.deepEqual(await page.variants(), variants, 'results stay while the artist looks at the desk');

  await page.putOnDesk('Frame');
  await page.noticed('Frame is on the desk');
  const { placed, atMost, dense, gap } = Frame;
  assert.deepEqual(tallied(await page.tally()), { placed, atMost, dense, gap });
  assert.match(await page.tally(), /all rules hold$/);
  await page.goTo('Compare');
  const after = byName(await page.variants());
  assert.ok(!after.Frame.isEarlier && after.Frame.text.includes('as on the desk'), 'choosing is no change of what was compared');
  await page.goTo('Desk');
  await page.undo();
  assert.equal(await page.tally(), before, 'one step takes it back');
  assert.deepEqual(await page.pieces(), pieces);
}, { seconds: 2 * SECONDS });

story('a stop keeps the best so far, and both files can be read', async (page, say) => {
  await page.open(TABLET);
  await page.until(async () => (await page.placed()) > 0, 'the sample with its art lies on the desk');
  await page.goTo('Month');
  await page.type('Currency sign', '€');
  await page.type('Price of a pack', '12.50');
  await page.goTo('Compare');
  await page.compareWith('1 min');
  await page.startComparing();
  await page.until(async () => (await page.variants()).every(({ placed }) => placed > 0), 'every card has something', { seconds: SECONDS });
  const seen = await page.variants();
  await page.stop();
  await page.compared({ seconds: 5 });
  const kept = await page.variants();
  say(kept.map(({ name, placed }) => `${name} ${placed}`).join(', '));
  kept.forEach(({ name, placed }, index) => assert.ok(placed >= seen[index].placed, `${name} keeps its best`));

  const rows = readFileSync(await page.saveComparisonTable(), 'utf8').trim().split('\r\n').join('\n').split('\n');
  assert.match(rows[0], /^variant,placed,difference to the first,.*\(mm\)/);
  assert.deepEqual(rows.slice(1).map((row) => row.split(',').slice(0, 2)), kept.map(({ name, placed }) => [name, String(placed)]));
  const column = (heading) => rows[0].split(',').indexOf(heading);
  const costs = kept.map(({ text }) => /ink aside\s+€ (\S+)\s+A sticker costs\s+€ (\S+)/.exec(text).slice(1).map(Number));
  assert.deepEqual(rows.slice(1).map((row) => ['sheet', 'sticker'].map((what) => (
    Number(row.split(',')[column(`cost of a ${what} (ink aside)`)])))), costs, 'the table has the costs of the cards');

  const svg = readFileSync(await page.saveComparisonPicture(), 'utf8');
  const read = await page.page.evaluate((text) => {
    const picture = new DOMParser().parseFromString(text, 'image/svg+xml');
    const texts = [...picture.querySelectorAll('text')].map((element) => element.textContent);
    return {
      isWhole: !picture.querySelector('parsererror'),
      texts,
      grounds: picture.querySelectorAll('g > image[href^="data:image/png"]').length,
      bare: [...picture.querySelectorAll('[id^="shape-"]')].filter((shape) => !shape.querySelector('use[href^="#art-"]')).length,
      pieces: picture.querySelectorAll('use[transform]').length,
    };
  }, svg);
  assert.ok(read.isWhole, 'the picture is sound SVG');
  for (const { name, placed, atMost } of kept) {
    assert.ok(read.texts.includes(name), name);
    assert.ok(read.texts.includes(`${placed} placed · at most ${atMost}`), `${name} tells its figures`);
  }
  for (const [sheet, sticker] of costs) {
    assert.ok(sheet > 0 && read.texts.includes(`a sheet costs € ${sheet.toFixed(3)}, ink aside`), 'and what a sheet costs');
    assert.ok(sticker > 0 && read.texts.includes(`a sticker costs € ${sticker.toFixed(3)}`), 'and a sticker');
  }
  assert.equal(read.pieces, kept.reduce((sum, { placed }) => sum + placed, 0), 'every piece is drawn');
  assert.equal(read.bare, 0, 'every sticker has its art');
  assert.equal(read.grounds, kept.length - 1, 'every background has its picture');
}, { seconds: 2 * SECONDS });

story('spacings are compared, one is added, and what changed meanwhile is told', async (page) => {
  await open(page, styled());
  await page.goTo('Compare');
  await page.compareBy('Spacing');
  assert.deepEqual((await page.offered('Spacing')).map(({ name }) => name), ['1.5 mm spacing', '2 mm spacing', '2.5 mm spacing', '3 mm spacing']);
  const field = page.page.getByRole('textbox', { name: 'Another one' });
  await field.fill('8');
  await field.press('Enter');
  await page.compareWith('2.5 mm spacing');
  await page.compareWith('3 mm spacing');
  await page.compareWith('5 s');
  await page.startComparing();
  await page.compared({ seconds: SECONDS });
  const variants = await page.variants();
  assert.deepEqual(variants.map(({ name }) => name), ['1.5 mm spacing', '2 mm spacing', '8 mm spacing']);
  assert.ok(variants[1].placed > variants[2].placed, 'a wide spacing costs stickers');
  assert.ok(variants[2].gap >= 8);

  await page.goTo('Desk');
  await page.setWanted('Label', 3);
  await page.goTo('Compare');
  assert.ok((await page.variants()).every(({ isEarlier }) => isEarlier), 'the cards say that they are of before');
  assert.deepEqual(await page.accessibilityFindings(), []);
  await page.compareAgain();
  await page.compared({ seconds: SECONDS });
  assert.ok((await page.variants()).every(({ isEarlier }) => !isEarlier));
}, { seconds: 3 * SECONDS });

story('with rounds, the page finds what the command line finds', async (page) => {
  const layout = styled({ pieces: [] });
  await open(page, layout, { ...TABLET, processors: 4 });
  await page.packRepeatably({ rounds: 12, seed: 5 });
  await page.goTo('Compare');
  await page.startComparing();
  await page.compared({ seconds: SECONDS });
  const onPage = (await page.variants()).map(({ name, placed, atMost }) => [name, placed, atMost]);

  const folder = mkdtempSync(join(tmpdir(), 'stickleaf-'));
  try {
    const file = join(folder, 'sheet.json');
    writeFileSync(file, JSON.stringify(layout));
    const compare = ['compare', file, '--rounds', '12', '--seed', '5', '--report', 'json'];
    const program = ['run', '--release', '--quiet', '--package', 'stickleaf', '--', ...compare];
    const { variants } = JSON.parse(execFileSync('cargo', program, { cwd: ROOT, stdio: 'pipe' }).toString());
    assert.deepEqual(onPage, variants.map(({ name, placed, ceiling }) => [name, placed, ceiling]));
  } finally {
    rmSync(folder, { recursive: true });
  }
}, { seconds: 900 });

story('a locked piece in the way of a background is told on its card', async (page) => {
  const locked = { sticker: 'box', x_mm: 30, y_mm: 12, turn_deg: 0, locked: true };
  await open(page, styled({ background: 'Plain', pieces: [locked] }));
  await page.goTo('Compare');
  await page.compareWith('5 s');
  await page.startComparing();
  await page.until(async () => /locked pieces stay where they are/.test(byName(await page.variants()).Band.text), 'the card says why');
  await page.stop();
  await page.compared({ seconds: 5 });
  const { Plain, Band } = byName(await page.variants());
  assert.ok(Plain.placed > 0 && Number.isNaN(Band.placed));
  assert.ok(await page.page.getByRole('button', { name: 'Put on the desk: Band' }).isDisabled());
}, { seconds: SECONDS });

story('everything on Compare is reached by the keyboard', async (page) => {
  await open(page, styled(), { viewport: { width: 1366, height: 1024 } });
  const tabTo = async (label) => {
    for (let presses = 0; (await page.focused()) !== label; presses += 1) {
      assert.ok(presses < 150, `the Tab key comes to ${label}`);
      await page.press('Tab');
    }
  };
  await tabTo('Compare');
  await page.press('Enter');
  await tabTo('Sheet size');
  await page.press('Enter');
  await tabTo('Compare these');
  await page.press('Enter');
  await page.until(async () => (await page.variants()).some(({ placed }) => placed > 0), 'something is packed', { seconds: SECONDS });
  await tabTo('Stop');
  await page.press('Enter');
  await page.compared({ seconds: 5 });
  const first = (await page.variants()).find(({ placed }) => placed > 0).name;
  await tabTo(`Put on the desk: ${first}`);
  await page.press('Enter');
  await page.noticed(`${first} is on the desk`);
}, { seconds: SECONDS });
