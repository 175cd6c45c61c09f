// Serves kept pages when there is no reception. It keeps only what a page tells it to, for one person at a time, and
// forgets all of it when anybody signs in or out on this device.
"use strict";

const KEPT = "kept:";
const fromDevice = new Set();
let last = Promise.resolve();

// One thing after another, so that nothing is kept after it should be forgotten.
function inTurn(act) {
  last = last.then(act, act);
  return last;
}

async function forget(but = "") {
  const names = await caches.keys();
  await Promise.all(names.filter((one) => one.startsWith(KEPT) && one !== but).map((one) => caches.delete(one)));
}

async function keep({ person, pages, parts }) {
  const name = KEPT + person;
  await forget(name);
  const cache = await caches.open(name);
  for (const address of [...pages, ...parts]) {
    const answer = await fetch(address, { cache: "no-cache" });
    if (answer.ok && !answer.redirected) await cache.put(address, answer);
    else await cache.delete(address);
  }
}

async function found(request) {
  for (const name of await caches.keys()) {
    if (!name.startsWith(KEPT)) continue;
    const answer = await (await caches.open(name)).match(request, { ignoreSearch: true, ignoreVary: true });
    if (answer) return answer;
  }
  return null;
}

async function fetchedOrKept(event) {
  try {
    return await fetch(event.request);
  } catch (error) {
    const kept = await found(event.request);
    if (!kept) throw error;
    if (event.request.mode === "navigate") fromDevice.add(event.resultingClientId);
    return kept;
  }
}

addEventListener("install", () => skipWaiting());
addEventListener("activate", (event) => event.waitUntil(clients.claim()));

addEventListener("message", (event) => {
  const page = event.source;
  if (fromDevice.has(page.id)) page.postMessage({ fromDevice: true });
  const work = inTurn(() => keep(event.data)).then(
    () => page.postMessage({ kept: event.data.pages.join(" ") }),
    () => {},
  );
  event.waitUntil(work);
});

addEventListener("fetch", (event) => {
  const { request } = event;
  const { origin, pathname } = new URL(request.url);
  if (origin !== location.origin) return;
  if (/^\/sign-(in|out)/.test(pathname)) event.waitUntil(inTurn(() => forget()));
  else if (request.method === "GET" && (request.mode === "navigate" || pathname.startsWith("/static/"))) {
    event.respondWith(fetchedOrKept(event));
  }
});
