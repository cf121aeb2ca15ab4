// What every picture of the page has to stand: nothing sticks out or lies over another thing, every button can be hit, and
// an automatic reading finds nothing against WCAG 2.2 AA.

import assert from 'node:assert/strict';
import { overlaps } from './overlaps.mjs';

/** A tablet both ways, and a phone. */
export const SCREENS = [[1024, 1366], [1366, 1024], [390, 844]];

/** The least side of a target: WCAG 2.2, success criterion 2.5.8. */
const LEAST_TARGET = 24;

/** A comfortable one for fingers: WCAG 2.2, success criterion 2.5.5 (AAA). Smaller ones are only told. */
const GOOD_TARGET = 44;

/**
 * Keeps a picture of the page under this name, and looks at the page. Small targets are told with `say`; there have to be
 * so many `controls` at least.
 */
export async function looksWell(page, name, say, { controls = 4 } = {}) {
  // A transition half way has colours of its own.
  await page.still();
  await page.screenshot(name);
  const { content, room } = await page.width();
  assert.ok(content <= room, `${name}: ${content} px of page on a screen of ${room} px`);
  assert.deepEqual(await page.tooFull(), [], `${name}: parts that hold more than they show`);
  assert.deepEqual(await overlaps(page.page), [], `${name}: one drawn over the other`);
  const targets = await page.targets();
  assert.ok(targets.length >= controls, `${name}: there is something to press`);
  const least = ({ width, height }) => Math.min(width, height);
  const tell = ({ label, width, height }) => `${label} (${width.toFixed(0)} x ${height.toFixed(0)})`;
  assert.deepEqual(targets.filter((target) => least(target) < LEAST_TARGET).map(tell), [], `${name}: too small to hit`);
  const small = targets.filter((target) => least(target) < GOOD_TARGET).map(tell);
  if (small.length > 0) {
    say(`${name}: under ${GOOD_TARGET} px: ${[...new Set(small)].join(', ')}`);
  }
  assert.deepEqual(await page.accessibilityFindings(), [], name);
}
