// The lock of a device that examiners share: a code of the person who is signed in, until they sign out. It is asked for on
// every page, in every window. The code itself is kept nowhere, only what PBKDF2 (RFC 8018) makes of it.

const TURNS = 300_000;
const MOST_TRIES = 5;
const LEAST = 4;
const root = document.documentElement;
const screen = document.getElementById("lock-screen");
const form = document.getElementById("lock-form");
const code = document.getElementById("lock-code");
const said = document.getElementById("lock-said");
const KEY = `throughline-lock ${screen.dataset.key}`;

function lock() {
  return JSON.parse(localStorage.getItem(KEY) ?? "{}");
}

function keep(change) {
  localStorage.setItem(KEY, JSON.stringify({ ...lock(), ...change }));
}

async function made(text, salt) {
  const key = await crypto.subtle.importKey("raw", new TextEncoder().encode(text), "PBKDF2", false, ["deriveBits"]);
  const how = { name: "PBKDF2", hash: "SHA-256", salt: Uint8Array.from(salt), iterations: TURNS };
  return [...new Uint8Array(await crypto.subtle.deriveBits(how, key, 256))].join(" ");
}

function show(how) {
  if (how) root.dataset.locked = how;
  else delete root.dataset.locked;
  code.value = "";
  said.textContent = "";
  if (how) code.focus();
  if (how === "locked") showTries();
}

function showTries() {
  const left = MOST_TRIES - (lock().tries ?? 0);
  code.disabled = left <= 0;
  if (left <= 0) said.textContent = screen.dataset.over;
  else if (left < MOST_TRIES) said.textContent = screen.dataset.wrong.replace("{number}", left);
}

function begin() {
  if (!lock().hash) return show("choosing");
  keep({ locked: true });
  return show("locked");
}

async function choose() {
  if (code.value.length < LEAST) return void (said.textContent = screen.dataset.short);
  const salt = [...crypto.getRandomValues(new Uint8Array(16))];
  keep({ salt, hash: await made(code.value, salt), tries: 0, locked: true });
  return show("locked");
}

// A try is counted before it is looked at, so that leaving the page gains nothing.
async function open() {
  const { salt, hash, tries = 0 } = lock();
  if (tries >= MOST_TRIES) return showTries();
  keep({ tries: tries + 1 });
  if ((await made(code.value, salt)) !== hash) return show("locked");
  keep({ tries: 0, locked: false });
  return show("");
}

form.addEventListener("submit", (event) => {
  event.preventDefault();
  event.stopPropagation();
  if (root.dataset.locked === "choosing") choose();
  else open();
});
document.getElementById("lock-not").addEventListener("click", () => show(""));
for (const one of document.querySelectorAll("form[action='/sign-out']")) {
  one.addEventListener("submit", () => localStorage.removeItem(KEY));
}
addEventListener("storage", (event) => {
  if (event.key === KEY || event.key === null) show(lock().locked ? "locked" : "");
});
if (globalThis.crypto?.subtle) {
  for (const one of document.querySelectorAll(".lock-now")) {
    one.hidden = false;
    one.addEventListener("click", begin);
  }
}
if (root.dataset.locked) show("locked");
