// What waits on this device: entries in IndexedDB, sent in their order when there is reception, each under an id that was
// made here. An entry goes only when the server has taken it (or had taken it before), or when its person throws it away.
// Pages work without this. For a page:
//   ready()                    whether there is a place to keep things
//   newId()                    the id of a new entry
//   put(path, fields, words, { together, page, keeps, ends })
//                              keep a form to be sent to `path`; `words` say what it is. Together: those that follow each
//                              other go in one request as the JSON list `items`, answered by as many `items`; the same
//                              `id` takes the place of what waits under it; `page` is where it can be corrected, under
//                              #kept-ID. With `keeps` it stays here, not shown, when it was taken; `ends` names the path
//                              whose kept entries go when this one was taken. Fails if there is no room; otherwise it is
//                              safe once this has returned
//   kept(path)                 the fields of what was put with `keeps`, taken or not, the oldest first
//   forget(path)               throw away what was kept of it and taken
//   entries()                  what waits or needs its person, the oldest first
//   send()                     now, not only by itself
// On the document: "outbox-settled" (detail: id, status, said, errors as answered) for each that was answered,
// "outbox-sent" when all went, "outbox-ended" (detail: path) when what was kept of a path is gone.

import { giveUp, hold } from "./reserve.js";

const JSON_ONLY = { accept: "application/json" };
const MOST_TOGETHER = 50;
const NOT_TAKEN = [400, 404, 409, 413, 422];
const SOON = 5_000;
const LATE = 300_000;
// What goes at once is not worth a line.
const SLOW = 1_500;

const shown = document.getElementById("outbox");
const person = shown?.dataset.person ?? "";
const store = opened();
let wait = SOON;
let timer = 0;
let sending = null;
let again = false;
let signedOut = false;
let roomy = true;
const arrived = [];

function opened() {
  return new Promise((found) => {
    try {
      const request = indexedDB.open("throughline-outbox", 1);
      request.onupgradeneeded = () => request.result.createObjectStore("entries", { keyPath: "seq", autoIncrement: true });
      request.onsuccess = () => found(request.result);
      request.onerror = () => found(null);
    } catch {
      found(null);
    }
  });
}

async function done(mode, act) {
  const base = await store;
  return new Promise((kept, failed) => {
    const work = base.transaction("entries", mode, { durability: "strict" });
    const request = act(work.objectStore("entries"));
    work.oncomplete = () => kept(request.result);
    work.onerror = work.onabort = () => failed(work.error);
  });
}

export function newId() {
  return crypto.randomUUID();
}

export async function ready() {
  return Boolean(person && globalThis.crypto?.randomUUID && (await store));
}

export async function entries() {
  return (await own()).filter((one) => !one.taken);
}

async function own() {
  if (!(await store) || !person) return [];
  return (await done("readonly", (all) => all.getAll())).filter((one) => one.person === person);
}

export async function kept(path) {
  return (await own()).filter((one) => one.keeps && one.path === path).map((one) => Object.fromEntries(one.fields));
}

export async function forget(path) {
  const gone = (await own()).filter((one) => one.taken && one.path === path);
  for (const one of gone) await drop(one.seq);
  document.dispatchEvent(new CustomEvent("outbox-ended", { detail: { path } }));
}

export async function put(path, fields, words, { together = false, page = "", keeps = false, ends = "" } = {}) {
  const entry = { person, path, fields: Object.entries(fields), words, together, page, keeps, ends, reasons: null };
  const keep = (all) => {
    if (!together) return all.add(entry);
    const known = all.getAll();
    known.onsuccess = () => {
      const same = known.result.find((one) => one.person === person && one.path === path && idOf(one) === fields.id);
      all.put(same ? { ...entry, seq: same.seq } : entry);
    };
    return known;
  };
  try {
    await done("readwrite", keep);
  } catch (error) {
    roomy = false;
    if (!(await giveUp())) throw error;
    await done("readwrite", keep);
  }
  navigator.storage?.persist?.().catch(() => {});
  wait = SOON;
  setTimeout(show, SLOW);
  send();
}

export function idOf(entry) {
  return Object.fromEntries(entry.fields).id;
}

// What stands of an entry now, changed or (null) taken out, in one step; nothing if it is gone.
function change(seq, act) {
  return done("readwrite", (all) => {
    const found = all.get(seq);
    found.onsuccess = () => {
      if (!found.result) return;
      const next = act(found.result);
      if (next) all.put(next);
      else all.delete(seq);
    };
    return found;
  });
}

export async function send() {
  if (sending) {
    again = true;
    return sending;
  }
  sending = inTurn(sendAll).catch(later);
  await sending;
  sending = null;
  await show();
  if (again) {
    again = false;
    await send();
  }
}

// One tab sends at a time.
function inTurn(act) {
  return navigator.locks ? navigator.locks.request("throughline-outbox", act) : act();
}

async function sendAll() {
  let waiting = await unsent();
  if (!waiting.length) return;
  const who = await fetch("/offline/self", { headers: JSON_ONLY, cache: "no-store" });
  const self = who.ok ? await who.json() : {};
  signedOut = self.person !== person;
  if (signedOut) return later();
  // Entries that came in while others were sent go along.
  for (; waiting.length; waiting = await unsent()) {
    const some = first(waiting);
    const went = some[0].together ? await sentTogether(some, self.form_token) : await sent(some[0], self.form_token);
    if (!went) return later();
  }
  wait = SOON;
  document.dispatchEvent(new Event("outbox-sent"));
}

async function unsent() {
  return (await entries()).filter((one) => !one.reasons);
}

// The oldest, with those after it that may go in the same request.
function first(waiting) {
  const [one] = waiting;
  if (!one.together) return [one];
  const end = waiting.findIndex((other) => !other.together || other.path !== one.path);
  return waiting.slice(0, end < 0 ? MOST_TOGETHER : Math.min(end, MOST_TOGETHER));
}

function post(path, fields) {
  const body = new URLSearchParams(fields);
  return fetch(path, { method: "POST", body, headers: JSON_ONLY, redirect: "manual" });
}

async function sent(one, token) {
  const answer = await post(one.path, [...one.fields, ["form_token", token]]);
  if (answer.ok) await drop(one.seq);
  else if (NOT_TAKEN.includes(answer.status)) await refuse(one, await reasonsOf(answer));
  else return false;
  if (answer.ok && one.ends) await forget(one.ends);
  document.dispatchEvent(new CustomEvent("outbox-settled", { detail: { id: idOf(one), status: answer.status } }));
  return true;
}

async function sentTogether(some, token) {
  const items = JSON.stringify(some.map((one) => Object.fromEntries(one.fields)));
  const answer = await post(some[0].path, [["items", items], ["form_token", token]]);
  if (answer.ok) {
    const found = (await answer.json()).items;
    for (const [place, one] of some.entries()) await settle(one, found[place]);
    return true;
  }
  if (!NOT_TAKEN.includes(answer.status)) return false;
  const reasons = await reasonsOf(answer);
  for (const one of some) await refuse(one, reasons);
  return true;
}

// What was changed here while it was on its way is a correction of what arrived, or waits for its own answer.
async function settle(one, item) {
  const taken = item.status < 300;
  const same = (now) => JSON.stringify(now.fields) === JSON.stringify(one.fields);
  await change(one.seq, (now) => {
    if (taken && now.keeps) return { ...now, taken, reasons: null };
    if (taken) return same(now) ? null : { ...now, fields: withVersion(now, item.version) };
    return same(now) ? { ...now, reasons: saidOf(item), errors: item.errors, stands: item.stands } : now;
  });
  if (taken && !one.keeps) arrived.push({ words: one.words, said: item.said, next: item.next });
  document.dispatchEvent(new CustomEvent("outbox-settled", { detail: { id: idOf(one), ...item } }));
}

function saidOf(item) {
  return item.errors?.length ? item.errors.map((one) => one.detail) : [item.detail];
}

function withVersion(entry, version) {
  return Object.entries({ ...Object.fromEntries(entry.fields), version: String(version) });
}

async function reasonsOf(answer) {
  const said = await answer.json().catch(() => ({}));
  if (said.reasons?.length) return said.reasons;
  return said.errors?.length ? said.errors.map((one) => one.detail) : [shown.dataset.unknown];
}

function refuse(one, reasons) {
  return change(one.seq, (now) => ({ ...now, reasons }));
}

function drop(seq) {
  return done("readwrite", (all) => all.delete(seq));
}

// Its person has seen what stands at the school, and sends their own as a correction of it.
function insist(one) {
  return change(one.seq, (now) => ({ ...now, fields: withVersion(now, one.stands.version), reasons: null, stands: null }));
}

function later() {
  clearTimeout(timer);
  timer = setTimeout(send, wait);
  wait = Math.min(wait * 2, LATE);
}

async function show() {
  if (!shown) return;
  const all = await entries();
  const open = document.documentElement.dataset.open;
  const waiting = all.filter((one) => !one.reasons);
  const needing = all.filter((one) => one.reasons && idOf(one) !== open);
  const said = [];
  if (!roomy) said.push(made("p", shown.dataset.full));
  if (waiting.length) {
    const words = signedOut ? shown.dataset.signIn : shown.dataset.waiting;
    said.push(made("p", words.replace("{number}", waiting.length)), list(waiting));
  }
  if (needing.length) said.push(made("p", shown.dataset.refused), rows(needing, needed));
  if (arrived.length) said.push(made("p", shown.dataset.arrived), rows(arrived, came));
  shown.replaceChildren(...said);
  shown.hidden = !said.length;
}

function list(waiting) {
  const fold = document.createElement("details");
  fold.open = shown.querySelector("details")?.open ?? false;
  fold.append(made("summary", shown.dataset.list), rows(waiting, (one) => [`${one.words} `, ...wayTo(one)]));
  return fold;
}

function rows(some, parts) {
  const all = document.createElement("ul");
  all.append(
    ...some.map((one) => {
      const row = document.createElement("li");
      row.append(...parts(one));
      return row;
    }),
  );
  return all;
}

function came(one) {
  const parts = [`${one.words}. ${one.said} `];
  return one.next ? [...parts, link(one.next.href, one.next.words)] : parts;
}

function needed(one) {
  const said = `${one.words}: ${one.reasons.join("; ")} `;
  if (!one.stands) return [said, ...wayTo(one), button(shown.dataset.drop, () => drop(one.seq))];
  const stands = made("p", shown.dataset.stands.replace("{words}", one.stands.words));
  const own = button(shown.dataset.insist, () => insist(one).then(send));
  return [said, stands, own, button(shown.dataset.leave, () => drop(one.seq))];
}

function wayTo(one) {
  return one.page ? [link(`${one.page}#kept-${idOf(one)}`, shown.dataset.correct), " "] : [];
}

function link(href, words) {
  const one = made("a", words);
  one.href = href;
  return one;
}

function button(words, act) {
  const one = made("button", words);
  one.type = "button";
  one.className = "plain";
  one.addEventListener("click", () => act().then(show));
  return one;
}

function made(tag, text) {
  const one = document.createElement(tag);
  one.textContent = text;
  return one;
}

// Where little room is left it is said before something can't be kept; only where things are done without reception.
async function lookForRoom() {
  if ("caches" in globalThis && document.getElementById("offline")) roomy = await hold();
}

addEventListener("online", send);
document.addEventListener("visibilitychange", () => document.visibilityState === "visible" && send());
document.addEventListener("outbox-open", show);
if (person) lookForRoom().then(show).then(send);
