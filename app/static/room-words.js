// What is written after watching: why, when, reasons, a note; what is still open; and handing the sheet over.

import { entries, newId, put } from "./outbox.js";
import { add, filled, ownIds, path, room, secondsOf, stands, timeText, words } from "./room-sheet.js";

const explain = document.getElementById("explain");
const note = document.getElementById("note");
const gaps = document.getElementById("gaps");
const send = document.getElementById("send");
const rows = new Map();

function made(tag, text = "", className = "") {
  const one = document.createElement(tag);
  one.textContent = text;
  if (className) one.className = className;
  return one;
}

function field(label, className) {
  const whole = made("label", label);
  const input = made("input", "", className);
  input.maxLength = 400;
  input.autocomplete = "off";
  whole.append(input);
  return { whole, input };
}

function putIn(input, text) {
  if (document.activeElement !== input) input.value = text;
}

// A later record at the same place, with what was changed.
function again(place, change, at) {
  const now = stands().get(place);
  if (now) add(now.kind, { ...now.value, ...change }, words[now.kind] ?? words.why, at ?? now.at);
}

// One that has a time and a reason: stepping in, a critical fault.
function sighting(place, title) {
  const row = made("div", "", "said-of");
  const when = field(words.when, "short");
  const why = field(place.startsWith("critical") ? words.seen : words.why, "long");
  when.input.addEventListener("change", () => again(place, {}, secondsOf(when.input.value)));
  why.input.addEventListener("change", () => again(place, { why: why.input.value.trim() }));
  const away = made("button", words.takeAway);
  away.type = "button";
  away.addEventListener("click", () => again(place, { gone: "yes" }));
  const went = made("button", "");
  went.type = "button";
  went.addEventListener("click", () => again(place, { went_on: stands().get(place).value.went_on === "no" ? "yes" : "no" }));
  row.append(made("b", title), when.whole, why.whole, ...(place.startsWith("stepped") ? [went] : []), away);
  const fill = (one) => {
    putIn(when.input, one.at < 0 ? "" : timeText(one.at));
    putIn(why.input, one.value.why);
    went.textContent = one.value.went_on === "no" ? words.stopped : words.wentOn;
  };
  return { row, fill };
}

// One that has a text: the reason for a part declined, what was taught instead.
function text(label, title, keep, of) {
  const row = made("div", "", "said-of");
  const { whole, input } = field(label, "long");
  input.addEventListener("change", () => keep(input.value.trim()));
  row.append(made("b", title), whole);
  return { row, fill: (one) => putIn(input, of(one)) };
}

function asked(now, panels) {
  const found = [];
  for (const [place, one] of now) {
    if (one.kind === "stepped") found.push([place, one, () => sighting(place, words.stepped)]);
    if (one.kind === "critical") found.push([place, one, () => sighting(place, room.querySelector(`[data-code="${one.value.code}"]`)?.textContent ?? words.critical)]);
    if (one.kind === "tap" && one.value.noticed === "swapped") {
      const name = room.querySelector(`[data-exercise="${one.value.exercise}"]`)?.dataset.name ?? one.value.exercise;
      found.push([place, one, () => text(words.instead, name, (instead) => again(place, { instead }), (some) => some.value.instead)]);
    }
    if (one.kind === "mark" && one.value.choice === "declined") found.push(declined(one, panels));
  }
  return found;
}

function declined(one, panels) {
  const { block, criterion } = one.value;
  const panel = panels.find((some) => some.dataset.block === block);
  const title = `${panel.dataset.title}, ${panel.querySelector(`[data-criterion="${criterion}"] .title`).textContent}`;
  const keep = (given) => add("reason", { block, criterion, text: given }, title);
  const of = () => stands().get(`reason/${block}/${criterion}`)?.value.text ?? "";
  return [`reason/${block}/${criterion}`, one, () => text(words.reason, title, keep, of)];
}

// What keeps the sheet from being sent, block by block; the school looks once more.
function open(now, panels) {
  const found = [];
  for (const panel of panels.filter((one) => one.dataset.block)) {
    const { block, title } = panel.dataset;
    const marks = [...panel.querySelectorAll("[data-criterion]")];
    const missing = marks.filter((one) => !now.get(`mark/${block}/${one.dataset.criterion}`)?.value.choice);
    const scored = marks.some((one) => one.querySelector(".levels button[aria-pressed=true]"));
    const what = missing.map((one) => one.querySelector(".title").textContent);
    if (scored && !now.get(`grade/${block}`)?.value.grade) what.push(words.grade);
    if (missing.length === marks.length) found.push(filled(words.openWhole, { block: title }));
    else if (what.length) found.push(filled(words.open, { block: title, what: what.join(", ") }));
  }
  for (const [place, one, build] of asked(now, panels)) {
    const title = (rows.get(place) ?? build()).row.querySelector("b").textContent;
    const { value } = one;
    const silent = { tap: !value.instead, mark: !now.get(place)?.value.text }[one.kind] ?? (!value.why || one.at < 0);
    if (silent) found.push(filled(words.noWhy, { what: title }));
  }
  return found;
}

export function showWords(now, panels) {
  const wanted = asked(now, panels);
  for (const [place, { row }] of rows) {
    if (wanted.some(([one]) => one === place)) continue;
    row.remove();
    rows.delete(place);
  }
  for (const [place, one, build] of wanted) {
    if (!rows.has(place)) {
      rows.set(place, build());
      explain.append(rows.get(place).row);
    }
    rows.get(place).fill(one);
  }
  putIn(note, now.get("note")?.value.text ?? "");
  const found = open(now, panels);
  send.disabled = found.length > 0;
  const list = made("ul");
  list.append(...found.map((one) => made("li", one)));
  gaps.replaceChildren(found.length ? list : made("p", words.nothingOpen));
}

async function handOver() {
  const mine = await entries();
  if (mine.some((one) => one.reasons && one.path === path)) return gaps.replaceChildren(made("p", words.waitingFirst));
  if (mine.some((one) => !one.reasons && one.path === room.dataset.send)) return;
  send.disabled = true;
  const said = filled(words.send, { who: room.dataset.who });
  await put(room.dataset.send, { id: newId(), records: ownIds().join(" ") }, said, { page: room.dataset.page, ends: path });
  gaps.replaceChildren(made("p", words.handed));
}

export function offerWords() {
  note.addEventListener("change", () => add("note", { text: note.value.trim() }, words.note));
  send.addEventListener("click", handOver);
  document.addEventListener("outbox-settled", () => document.dispatchEvent(new Event("sheet-changed")));
}
