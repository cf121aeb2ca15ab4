// A worker: loads its program. The build makes one of these for each program, with its name in the place of this one.
//
// The page may send its first job before the program has arrived. Such messages wait here. The program puts its own
// listener in place while it starts, and no message can come between its start and the lines that follow it.

import init from "./program.js";

const waiting = [];
const keep = (event) => waiting.push(event);
self.addEventListener("message", keep);

try {
  await init();
  self.removeEventListener("message", keep);
  for (const { data, ports } of waiting) {
    self.dispatchEvent(new MessageEvent("message", { data, ports }));
  }
} catch (error) {
  // A rejected module tells the page nothing; a reported error reaches the worker's `onerror` there.
  reportError(error);
}
