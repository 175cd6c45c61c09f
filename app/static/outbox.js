// What is only on this device: entries in IndexedDB, sent in their order when there is reception, each under an id that
// was made here. An entry goes only when the server has taken it (or had taken it before), or when its person throws away
// what was not taken. Pages work without this; `ready()` says whether there is a place to keep things.

const JSON_ONLY = { accept: "application/json" };
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

// Whatever is kept of this person, the oldest first.
export async function entries() {
  if (!(await store) || !person) return [];
  return (await done("readonly", (all) => all.getAll())).filter((one) => one.person === person);
}

// Keep a form to be sent to `path`; `words` says to people what it is. It is safe once this has returned.
export async function put(path, fields, words) {
  await done("readwrite", (all) => all.add({ person, path, fields: Object.entries(fields), words, reasons: null }));
  wait = SOON;
  setTimeout(show, SLOW);
  send();
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
    for (const one of waiting) {
      if (!(await sent(one, self.form_token))) return later();
    }
  }
  wait = SOON;
  document.dispatchEvent(new Event("outbox-sent"));
}

async function unsent() {
  return (await entries()).filter((one) => !one.reasons);
}

async function sent(one, token) {
  const body = new URLSearchParams([...one.fields, ["form_token", token]]);
  const answer = await fetch(one.path, { method: "POST", body, headers: JSON_ONLY, redirect: "manual" });
  if (answer.ok) await drop(one.seq);
  else if (NOT_TAKEN.includes(answer.status)) await refuse(one, answer);
  else return false;
  return true;
}

async function refuse(one, answer) {
  const said = await answer.json().catch(() => ({}));
  const reasons = said.reasons?.length ? said.reasons : [shown.dataset.unknown];
  await done("readwrite", (all) => all.put({ ...one, reasons }));
}

function drop(seq) {
  return done("readwrite", (all) => all.delete(seq));
}

function later() {
  clearTimeout(timer);
  timer = setTimeout(send, wait);
  wait = Math.min(wait * 2, LATE);
}

async function show() {
  if (!shown) return;
  const all = await entries();
  const waiting = all.filter((one) => !one.reasons);
  const refused = all.filter((one) => one.reasons);
  const said = [];
  if (waiting.length) {
    const words = signedOut ? shown.dataset.signIn : shown.dataset.waiting;
    said.push(made("p", words.replace("{number}", waiting.length)), list(waiting));
  }
  if (refused.length) said.push(made("p", shown.dataset.refused), refusals(refused));
  shown.replaceChildren(...said);
  shown.hidden = !said.length;
}

function list(waiting) {
  const fold = document.createElement("details");
  const rows = document.createElement("ul");
  rows.append(...waiting.map((one) => made("li", one.words)));
  fold.append(made("summary", shown.dataset.list), rows);
  return fold;
}

function refusals(refused) {
  const rows = document.createElement("ul");
  for (const one of refused) {
    const row = made("li", `${one.words}: ${one.reasons.join("; ")} `);
    const button = made("button", shown.dataset.drop);
    button.type = "button";
    button.className = "plain";
    button.addEventListener("click", () => drop(one.seq).then(show));
    row.append(button);
    rows.append(row);
  }
  return rows;
}

function made(tag, text) {
  const one = document.createElement(tag);
  one.textContent = text;
  return one;
}

addEventListener("online", send);
document.addEventListener("visibilitychange", () => document.visibilityState === "visible" && send());
if (person) show().then(send);
