// Fingers and pens, as the browser's own input path delivers them: trusted events, with pointer types and
// cancellation like those of a tablet. Points are {x, y} in CSS pixels from the viewport's top left corner.

/** Between two steps of a movement, about one frame: a hand does not jump, and a page may draw once per frame. */
const FRAME_MS = 16;

const wait = (milliseconds) => new Promise((resolve) => setTimeout(resolve, milliseconds));

/** The points on the straight way from one point to another, without the first one. */
function way(from, to, steps) {
  return Array.from({ length: steps }, (_, step) => {
    const part = (step + 1) / steps;
    return { x: from.x + (to.x - from.x) * part, y: from.y + (to.y - from.y) * part };
  });
}

/** The hands that rest on one page. `session` is a DevTools session of that page. */
export function handsOn(session) {
  const touch = (type, points) => session.send('Input.dispatchTouchEvent', {
    type,
    touchPoints: points.map((point, id) => ({ x: point.x, y: point.y, id, radiusX: 8, radiusY: 8, force: 0.5 })),
  });
  const pen = (type, point, buttons) => session.send('Input.dispatchMouseEvent', {
    type, x: point.x, y: point.y, pointerType: 'pen', button: buttons || type === 'mouseReleased' ? 'left' : 'none',
    buttons, clickCount: type === 'mouseMoved' ? 0 : 1, force: buttons ? 0.5 : 0,
  });

  /** Moves fingers along their ways, all at once. The ways are equally long lists of points. */
  async function moveFingers(starts, ways, { holdMs = 0, cancel = false } = {}) {
    await touch('touchStart', starts);
    await wait(holdMs);
    for (let step = 0; step < ways[0].length; step += 1) {
      await touch('touchMove', ways.map((points) => points[step]));
      await wait(FRAME_MS);
    }
    await touch(cancel ? 'touchCancel' : 'touchEnd', []);
  }

  return {
    /** One or more fingers touch and lift at once: one selects, two undo, three redo. */
    async tap(...points) {
      await touch('touchStart', points);
      await wait(FRAME_MS);
      await touch('touchEnd', []);
    },

    /** One finger drags. With `cancel` the system takes the gesture away, as a palm or a swipe may do. */
    async touchDrag(from, to, { steps = 12, ...how } = {}) {
      await moveFingers([from], [way(from, to, steps)], how);
    },

    /** One finger touches, drags, and stays down where it comes to, until `lift`. */
    async touchAndHold(from, to, { steps = 12 } = {}) {
      await touch('touchStart', [from]);
      for (const point of way(from, to, steps)) {
        await touch('touchMove', [point]);
        await wait(FRAME_MS);
      }
    },

    /** Another finger comes down beside the one that is held, and both are lifted. */
    async secondFinger(held, other) {
      await touch('touchStart', [held, other]);
      await wait(FRAME_MS);
      await touch('touchEnd', []);
    },

    /** A finger taps twice on the same spot, as quickly as a hand does. */
    async doubleTap(point) {
      for (const pauseMs of [90, 0]) {
        await touch('touchStart', [point]);
        await wait(FRAME_MS);
        await touch('touchEnd', []);
        await wait(pauseMs);
      }
    },

    /** A finger comes down and rests there, a little unsteady, and is lifted. */
    async longPress(point, { holdMs = 700 } = {}) {
      await touch('touchStart', [point]);
      for (let held = 0; held < holdMs; held += 50) {
        await wait(50);
        await touch('touchMove', [{ x: point.x + ((held / 50) % 2), y: point.y }]);
      }
      await touch('touchEnd', []);
    },

    /** Two fingers come down and go to two other points. */
    async twoFingers([first, second], [firstEnd, secondEnd], { steps = 16, ...how } = {}) {
      await moveFingers([first, second], [way(first, firstEnd, steps), way(second, secondEnd, steps)], how);
    },

    /** The finger that was held down is lifted. */
    async lift() {
      await touch('touchEnd', []);
    },

    /** One finger goes along these points. */
    async touchPath([first, ...rest]) {
      await moveFingers([first], [rest]);
    },

    /** Two fingers, level, move apart or together around a centre; distances are between the fingers. */
    async pinch(centre, fromPx, toPx, { steps = 12, ...how } = {}) {
      const pair = (distance) => [
        { x: centre.x - distance / 2, y: centre.y },
        { x: centre.x + distance / 2, y: centre.y },
      ];
      const [left, right] = pair(fromPx);
      const [leftEnd, rightEnd] = pair(toPx);
      await moveFingers([left, right], [way(left, leftEnd, steps), way(right, rightEnd, steps)], how);
    },

    /**
     * A pen comes near, presses, drags and lifts. Half way `meanwhile` happens, such as the palm coming down.
     */
    async penDrag(from, to, { steps = 12, meanwhile = async () => {} } = {}) {
      await pen('mouseMoved', from, 0);
      await pen('mousePressed', from, 1);
      for (const [step, point] of way(from, to, steps).entries()) {
        await pen('mouseMoved', point, 1);
        await wait(FRAME_MS);
        if (step === Math.floor(steps / 2)) {
          await meanwhile();
        }
      }
      await pen('mouseReleased', to, 0);
    },

    /** A pen goes along these points. Half way `meanwhile` happens. */
    async penPath(points, { meanwhile = async () => {} } = {}) {
      const last = points[points.length - 1];
      await pen('mouseMoved', points[0], 0);
      await pen('mousePressed', points[0], 1);
      for (const [step, point] of points.entries()) {
        await pen('mouseMoved', point, 1);
        await wait(FRAME_MS);
        if (step === Math.floor(points.length / 2)) {
          await meanwhile();
        }
      }
      await pen('mouseReleased', last, 0);
    },
  };
}
