// Files that will not do: each is named, with what to do about it, and what lies on the desk stays.

import assert from 'node:assert/strict';
import { boxes, file, layoutFile } from './layouts.mjs';
import { png, starsAndDiscs } from './pictures.mjs';
import { story } from './story.mjs';

const box = (change) => ({ stickers: [{ ...boxes([]).stickers[0], ...change }] });

/** Layouts that will not do, and what the page says of each beside its name. */
const LAYOUTS = {
  'empty.json': ['', /the file is empty; take an earlier copy/],
  'torn.json': ['{"format": "stickleaf-layout", "version": 1, ', /this is not JSON.*take an earlier copy/],
  'other.json': ['{"format": "recipe", "version": 1}', /this is not a Stickleaf layout/],
  'newer.json': [{ ...boxes([]), version: 99 }, /version 99.*newer Stickleaf/],
  'lost sticker.json': [boxes([], { pieces: [{ sticker: 'gone', x_mm: 20, y_mm: 20 }] }),
    /piece 1 is a copy of sticker "gone".*add it or remove the piece/],
  'nan.json': [boxes([], box({ outline: 'M0 0L20 NaN L20 10Z' })), /plain (numbers|millimetres)/],
  'negative width.json': [boxes([], { sheet: { width_mm: -105, height_mm: 148 } }), /-105.*above 0/],
  'negative spacing.json': [boxes([], { rules: { spacing_mm: -2 } }), /-2.*0 or more/],
  'all margin.json': [boxes([], { rules: { margin_mm: 60 } }), /no usable part of the sheet; make the margin/],
};

const EMPTY_SVG = '<svg xmlns="http://www.w3.org/2000/svg" width="10mm" height="10mm"/>';

/** Pictures that will not do, and what the dialog says of each. */
const PICTURES = {
  'cut short.png': [(await starsAndDiscs({ width: 200, height: 100, across: 2, down: 1 })).subarray(0, 120),
    /ends before it is complete; copy or export it again/],
  'no picture.png': [Buffer.from('not a picture at all'), /export it as PNG/],
  'nothing.png': [Buffer.alloc(0), /the file is empty; export it again/i],
  'clear.png': [await png(40, 40, () => []), /nothing to cut/i],
  'no shapes.svg': [Buffer.from(EMPTY_SVG), /nothing to cut/i],
  'torn.svg': [Buffer.from(EMPTY_SVG.replace('/>', '><path')), /not sound XML.*export it again/],
};

async function withBoxes(page) {
  await page.open();
  await page.openFile(layoutFile('boxes.json', boxes([[20, 20], [50, 20], [80, 20]])));
  await page.noticed('boxes.json is open');
  const tally = await page.tally();
  assert.match(tally, /^3 placed .* all rules hold$/);
  return tally;
}

story('layouts that will not do are refused, with a reason', async (page) => {
  const before = await withBoxes(page);
  for (const [name, [content, reason]] of Object.entries(LAYOUTS)) {
    await page.openFile(typeof content === 'string' ? file(name, content) : layoutFile(name, content));
    const notice = await page.noticed(name);
    assert.match(notice, reason, name);
    assert.match(notice, /What was on the desk is still there/, name);
    assert.equal(await page.tally(), before, name);
  }
});

story('pictures that will not do are refused, with a reason', async (page) => {
  const before = await withBoxes(page);
  for (const [name, [buffer, reason]] of Object.entries(PICTURES)) {
    const mimeType = name.endsWith('.svg') ? 'image/svg+xml' : 'image/png';
    await page.importPicture({ name, mimeType, buffer });
    assert.equal(await page.drawingsFound({ seconds: 10 }), '0 drawings found', name);
    const dialog = await page.importDialog().innerText();
    assert.ok(dialog.includes(name), `${name} is named in: ${dialog}`);
    assert.match(dialog, reason, name);
    await page.cancelImport();
    assert.equal(await page.tally(), before, name);
  }
});

story('a file of another kind is refused, with what would do', async (page) => {
  const before = await withBoxes(page);
  await page.importPicture(file('letter.txt', 'Dear artist', 'text/plain'));
  assert.match(await page.noticed('letter.txt'), /Bring PNG or SVG/);
  assert.equal(await page.tally(), before);
});
