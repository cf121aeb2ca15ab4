// Keeps the page on this device, so that it opens without a network.
//
// Every version of the page has a cache of its own, filled whole or not at all. A newer version waits beside the one in
// use until the page asks it to take over, or until the last window of the older one was closed: no page ever gets
// files of two versions. Other hosts, and whatever else lies in the same folder, are none of its business.

// The build fills both in: the name of the version, and every file with the hash of its content.
const BUILD = "";
const FILES = {};

const here = (name) => new URL(name, self.location).href;
const HOME = here("./");
const KEPT = new Set(Object.keys(FILES).map(here));

// Pages in other folders of the same host share its caches; the folder's address tells whose a cache is.
const OURS = `stickleaf ${HOME} `;
const CACHE = OURS + BUILD;

self.addEventListener("install", (event) => event.waitUntil(copyAll()));
self.addEventListener("activate", (event) => event.waitUntil(takeOver()));

self.addEventListener("message", (event) => {
  if (event.data === "take over") {
    event.waitUntil(self.skipWaiting());
  }
});

self.addEventListener("fetch", (event) => {
  const file = fileOf(event.request);
  if (event.request.method === "GET" && KEPT.has(file)) {
    event.respondWith(answer(file, event.request));
  }
});

// Copies all files or none. One that is not the very file of this build, as while a host is being filled, is refused.
async function copyAll() {
  const wanted = Object.entries(FILES)
    .map(([name, integrity]) => new Request(here(name), { cache: "no-cache", integrity }));
  try {
    const cache = await caches.open(CACHE);
    await cache.addAll(wanted);
  } catch (error) {
    await caches.delete(CACHE);
    throw error;
  }
}

// Older copies go. A page that came from the host, on the first visit, is looked after from now on.
async function takeOver() {
  const names = await caches.keys();
  const older = names.filter((name) => name.startsWith(OURS) && name !== CACHE);
  await Promise.all(older.map((name) => caches.delete(name)));
  await self.clients.claim();
}

// The address of the file that is asked for, whatever stands behind a question mark.
function fileOf(request) {
  const url = new URL(request.url);
  url.search = "";
  url.hash = "";
  return url.href === here("index.html") ? HOME : url.href;
}

// The copy; the host is asked only if the browser has thrown the copy away.
async function answer(file, request) {
  const kept = await caches.match(file, { cacheName: CACHE, ignoreVary: true }).catch(() => undefined);
  return kept ?? fetch(request);
}
