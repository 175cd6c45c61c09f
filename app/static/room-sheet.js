// One sheet on this device: its records, kept by the outbox as they are made, and the time since the start.

import { kept, newId, put } from "./outbox.js";
import { lastDone, nextCount, standing } from "./sheet-records.js";

const LONGEST = 12 * 60 * 60;
const NO_TIME = -1;
const DEVICE = "throughline-device";

export const room = document.getElementById("room");
export const words = document.getElementById("room-words").dataset;
export const path = room.dataset.path;
let device = ownDevice();
// Records that are safe on this device or with the school; and all, with those on their way to be.
const records = [];
let made = [];

// The records' device is this browser; where nothing can be remembered, this page.
function ownDevice() {
  try {
    if (!localStorage.getItem(DEVICE)) localStorage.setItem(DEVICE, newId());
    return localStorage.getItem(DEVICE);
  } catch {
    return newId();
  }
}

export function filled(text, values) {
  return text.replace(/\{(\w+)\}/g, (_, name) => values[name]);
}

// What is here, with what the school holds; of a page that was kept, what it held then.
export async function open() {
  learn(JSON.parse(room.dataset.held).map(recordOf));
  const here = (await kept(path)).map(recordOf);
  // A browser that was killed may have kept the records and not yet its own name.
  device = here.at(-1)?.device ?? device;
  learn(here);
}

function learn(some) {
  const known = new Set(made.map((one) => one.id));
  const fresh = some.filter((one) => !known.has(one.id));
  records.push(...fresh);
  made.push(...fresh);
}

// What another device or the form sent meanwhile; whether the sheet is sent.
export async function ask() {
  const answer = await fetch(path, { headers: { accept: "application/json" }, cache: "no-store" });
  if (!answer.ok || answer.redirected) return false;
  const { items, sent } = await answer.json();
  learn(items.map(recordOf));
  document.dispatchEvent(new Event("sheet-changed"));
  return sent;
}

function recordOf({ id, device: by, count, kind, at, ...value }) {
  return { id, device: by, count: Number(count), kind, at: Number(at), value };
}

export function stands() {
  return standing(records);
}

export function ownIds() {
  return records.filter((one) => one.device === device).map((one) => one.id);
}

// What was done last on this device and can be taken back.
export function lastTap() {
  return lastDone(records.filter((one) => one.device === device));
}

// Seconds since the start, and -1 before it.
export function elapsed() {
  const clock = stands().get("clock");
  if (!clock) return NO_TIME;
  if (clock.value.act === "hold") return clock.at;
  return Math.min(LONGEST, Math.max(0, clock.at + Math.round((Date.now() - Number(clock.value.moment)) / 1000)));
}

export function timeText(at) {
  return at < 0 ? words.noTime : `${Math.floor(at / 60)}:${String(at % 60).padStart(2, "0")}`;
}

// Seconds of a time such as 12 or 12:30; -1 for what is none.
export function secondsOf(text) {
  const found = /^(\d{1,3})(?::([0-5]\d))?$/.exec(text.trim());
  const seconds = found ? Number(found[1]) * 60 + Number(found[2] ?? 0) : NO_TIME;
  return seconds <= LONGEST ? seconds : NO_TIME;
}

// Whether it is safe now. Shown only then: what is seen as taken is never lost.
export async function add(kind, value, said, at = elapsed()) {
  const fields = { id: newId(), device, count: String(nextCount(made)), kind, at: String(at), ...value };
  const record = recordOf(fields);
  made.push(record);
  try {
    await put(path, fields, `${room.dataset.who}: ${said}`, { together: true, keeps: true, page: room.dataset.page });
    records.push(record);
    document.dispatchEvent(new Event("sheet-changed"));
    return true;
  } catch {
    made = made.filter((one) => one !== record);
    document.dispatchEvent(new Event("sheet-full"));
    return false;
  }
}
