// The packing worker: the same program as the page, entered by another door.
//
// The page may send its first job before the program has arrived. Such messages wait here, and are handed over in
// their order as soon as `start_worker` has put its own listener in place.

import init, { start_worker } from "./page.js";

const waiting = [];
const keep = (event) => waiting.push(event);
self.addEventListener("message", keep);

try {
  await init();
  self.removeEventListener("message", keep);
  start_worker();
  for (const { data, ports } of waiting) {
    self.dispatchEvent(new MessageEvent("message", { data, ports }));
  }
} catch (error) {
  // A rejected module tells the page nothing; a reported error reaches the worker's `onerror` there.
  reportError(error);
}
