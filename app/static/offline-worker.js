// Serves kept pages when there is no reception. It keeps only what a page tells it to, each person's apart, and serves only
// those of the person who is signed in on this device. Signing out forgets that person's; signing in as somebody else hides
// the others' until they are back.
"use strict";

const KEPT = "kept:";
// In here, under WHO, the person whose pages may be served.
const HOLDER = "holder";
const WHO = "/offline/self";
const fromDevice = new Set();
let last = Promise.resolve();

// One thing after another, so that nothing is kept after it should be forgotten.
function inTurn(act) {
  last = last.then(act, act);
  return last;
}

async function holder() {
  const found = await (await caches.open(HOLDER)).match(WHO);
  return found ? await found.text() : "";
}

async function forgetOwn() {
  const person = await holder();
  if (person) await caches.delete(KEPT + person);
  await caches.delete(HOLDER);
}

async function keep({ person, pages, parts, drop = [] }) {
  // A page that was left open may be somebody else's than who is signed in by now.
  const self = await fetch(WHO, { headers: { accept: "application/json" }, cache: "no-store" });
  if (!self.ok || (await self.json()).person !== person) return;
  await (await caches.open(HOLDER)).put(WHO, new Response(person));
  const cache = await caches.open(KEPT + person);
  for (const address of [...pages, ...parts]) {
    const answer = await fetch(address, { cache: "no-cache" });
    if (answer.ok && !answer.redirected) await cache.put(address, answer);
    else await cache.delete(address);
  }
  for (const address of drop) await cache.delete(address);
}

async function found(request) {
  const person = await holder();
  if (!person) return null;
  const cache = await caches.open(KEPT + person);
  const answer = await cache.match(request, { ignoreSearch: true, ignoreVary: true });
  if (answer || request.mode !== "navigate" || new URL(request.url).pathname !== "/") return answer;
  // The first page leads on to a page of its person's own; without reception, to one that is kept.
  const pages = (await cache.keys()).map((one) => new URL(one.url).pathname).filter((one) => !one.startsWith("/static/"));
  return pages.length ? Response.redirect(pages.includes("/today") ? "/today" : pages[0]) : null;
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
  if (request.method === "POST" && pathname === "/sign-out") event.waitUntil(inTurn(forgetOwn));
  else if (request.method === "POST" && pathname.startsWith("/sign-in")) {
    event.waitUntil(inTurn(() => caches.delete(HOLDER)));
  } else if (request.method === "GET" && (request.mode === "navigate" || pathname.startsWith("/static/"))) {
    event.respondWith(fetchedOrKept(event));
  }
});
