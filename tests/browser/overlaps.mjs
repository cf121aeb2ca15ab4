// Which texts are drawn over one another, or over a picture, although neither stands in front of the other on purpose.

/** How much two may overlap before it counts, in CSS pixels: lines of text reach a little over their own height. */
const SLACK = 3;

/** What stands over the page on purpose. */
const IN_FRONT = 'dialog, .notices, .menu-items, .sample-list, .drawer, .middle, .drop, .word-hidden, [aria-hidden="true"]';

/**
 * The overlaps in sight, each in one line.
 *
 * @param {import('playwright-core').Page} page
 */
export function overlaps(page) {
  return page.evaluate(([slack, inFront]) => {
    const isSeen = (element) => element.checkVisibility({ visibilityProperty: true, opacityProperty: true });

    /** The part of a box that is in sight: cut by everything round it that scrolls or hides. */
    const inSight = (box, element) => {
      let { left, top, right, bottom } = box;
      for (let parent = element; parent; parent = parent.parentElement) {
        if (getComputedStyle(parent).overflow !== 'visible') {
          const room = parent.getBoundingClientRect();
          left = Math.max(left, room.left);
          top = Math.max(top, room.top);
          right = Math.min(right, room.right);
          bottom = Math.min(bottom, room.bottom);
        }
      }
      return { left, top, right, bottom };
    };

    const things = [];
    const scope = document.querySelector('dialog[open]') ?? document.body;
    const walker = document.createTreeWalker(scope, NodeFilter.SHOW_TEXT);
    while (walker.nextNode()) {
      const { currentNode: text } = walker;
      const element = text.parentElement;
      if (text.data.trim() && isSeen(element) && (scope !== document.body || !element.closest(inFront))) {
        const range = document.createRange();
        range.selectNodeContents(text);
        // Line by line: what follows in the last line of a text does not lie over it.
        for (const line of range.getClientRects()) {
          things.push({ element, name: text.data.trim(), box: inSight(line, element) });
        }
      }
    }
    for (const element of scope.querySelectorAll('canvas, img')) {
      if (isSeen(element) && (scope !== document.body || !element.closest(inFront))) {
        things.push({ element, name: 'a picture', box: inSight(element.getBoundingClientRect(), element.parentElement) });
      }
    }
    const seen = things.filter(({ box }) => box.right - box.left > slack && box.bottom - box.top > slack);
    const found = [];
    seen.forEach((one, index) => {
      for (const other of seen.slice(0, index)) {
        const width = Math.min(one.box.right, other.box.right) - Math.max(one.box.left, other.box.left);
        const height = Math.min(one.box.bottom, other.box.bottom) - Math.max(one.box.top, other.box.top);
        if (width > slack && height > slack && one.element !== other.element) {
          found.push(`${one.name} over ${other.name}: ${width.toFixed(0)} x ${height.toFixed(0)} px`);
        }
      }
    });
    return found;
  }, [SLACK, IN_FRONT]);
}
