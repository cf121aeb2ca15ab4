// Layouts for the stories, as files that are handed to the page's file chooser.

import { readFileSync } from 'node:fs';

const SAMPLES = new URL('../../sample-layouts/rooftop-night/', import.meta.url);

/** A sample's layout, read from its file. */
export function sample(name) {
  return JSON.parse(readFileSync(new URL(`${name}.json`, SAMPLES), 'utf8'));
}

/** A small layout of plain boxes, 20 mm wide and 10 mm high; `pieces` are their places. */
export function boxes(pieces, more = {}) {
  return {
    format: 'stickleaf-layout',
    version: 1,
    name: 'Boxes',
    sheet: { width_mm: 105, height_mm: 148, corner_radius_mm: 4, resolution_ppi: 600 },
    rules: { spacing_mm: 2, margin_mm: 4, border_mm: 1 },
    stickers: [{ id: 'box', name: 'Box', outline: 'M-10 -5H10V5H-10Z', wanted: { at_least: 1 }, turns: 'none' }],
    pieces: pieces.map(([x_mm, y_mm]) => ({ sticker: 'box', x_mm, y_mm, turn_deg: 0 })),
    ...more,
  };
}

/** A file of text, as a file chooser takes it. */
export function file(name, text, mimeType = 'application/json') {
  return { name, mimeType, buffer: Buffer.from(text) };
}

/** A layout as a file. */
export function layoutFile(name, layout) {
  return file(name, JSON.stringify(layout));
}
