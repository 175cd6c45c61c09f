// The score sheet in the room: one tap is one record. Nothing beeps, flashes or moves.

import { forget, ready } from "./outbox.js";
import { add, ask, elapsed, filled, lastTap, open, path, room, stands, timeText, words } from "./room-sheet.js";
import { offerWords, showWords } from "./room-words.js";

const LIGHTS = ["", "dark", "bright"];
const said = document.getElementById("said");
const clock = document.getElementById("clock");
const clockAct = document.getElementById("clock-act");
const undo = document.getElementById("undo");
const light = document.getElementById("light");
const panels = [...room.querySelectorAll(".panel")];
const tabs = [...room.querySelectorAll(".tabs button")];
const PANEL = `throughline-panel ${path}`;

function tell(text) {
  said.textContent = text;
}

function pressed(button, on) {
  button.setAttribute("aria-pressed", String(Boolean(on)));
}

// ---- where one is

function turnTo(name) {
  for (const one of panels) one.hidden = one.id !== `panel-${name}`;
  for (const one of tabs) pressed(one, one.dataset.panel === name);
  try {
    sessionStorage.setItem(PANEL, name);
  } catch {
    // It opens at the first block then.
  }
  document.getElementById("critical").open = false;
}

function firstPanel() {
  let name = "";
  try {
    name = sessionStorage.getItem(PANEL) ?? "";
  } catch {
    // As above.
  }
  return tabs.some((one) => one.dataset.panel === name) ? name : tabs[0].dataset.panel;
}

function exerciseOf(panel) {
  return panel?.querySelector("[data-exercise][aria-pressed=true]") ?? null;
}

function shownPanel() {
  return panels.find((one) => !one.hidden);
}

// ---- taps

function tap(button) {
  const panel = button.closest(".panel");
  const block = panel?.dataset.block;
  const { exercise, noticed, choice, manner, grade, code } = button.dataset;
  if (exercise) for (const one of panel.querySelectorAll("[data-exercise]")) pressed(one, one === button);
  else if (button.getAttribute("aria-pressed") === "true" && !code) shut(button);
  else if (noticed) notice(panel, block, noticed, button.textContent);
  else if (choice) mark(button, block, choice);
  else if (manner) how(button, block, manner);
  else if (grade) add("grade", { block, grade }, `${panel.dataset.title}, ${words.grade}: ${button.textContent}`);
  else if (code) critical(button, code);
}

async function notice(panel, block, noticed, text) {
  const exercise = exerciseOf(panel);
  const what = { exercise: exercise.dataset.exercise, noticed, at_block: block, instead: "", gone: "" };
  const safe = await add("tap", { item: crypto.randomUUID(), ...what }, `${exercise.dataset.name}: ${text}`);
  if (safe) panel.querySelector(".on-it").textContent = `${exercise.dataset.name}: ${text}`;
}

function titleOf(button) {
  return button.closest(".judged").querySelector(".title").textContent;
}

async function mark(button, block, choice) {
  const { criterion } = button.closest(".judged").dataset;
  const said = filled(words.level, { what: titleOf(button), level: button.textContent });
  shut(button);
  if (!(await add("mark", { block, criterion, choice }, said))) return;
  const sentence = button.dataset.sentence ? `${button.textContent}: ${button.dataset.sentence}` : button.textContent;
  button.closest(".marks").querySelector(".sentence").textContent = `${titleOf(button)} · ${sentence}`;
}

function how(button, block, manner) {
  const { criterion } = button.closest(".judged").dataset;
  add("manner", { block, criterion, manner }, filled(words.level, { what: titleOf(button), level: button.textContent }));
  shut(button);
}

function shut(button) {
  const fold = button.closest("details");
  if (!fold) return;
  fold.open = false;
  fold.querySelector("summary").focus();
}

async function critical(button, code) {
  const there = stands().get(`critical/${code}`);
  const at = there ? there.at : elapsed();
  const exercise = exerciseOf(shownPanel())?.dataset.exercise ?? "";
  const value = { code, why: "", exercise, gone: "" };
  shut(button);
  if (there || (await add("critical", value, `${words.critical}: ${button.textContent}`))) tell(`${words.critical}, ${timeText(at)}`);
}

async function stepIn() {
  const at = elapsed();
  const value = { item: crypto.randomUUID(), why: "", went_on: "yes", gone: "" };
  if (await add("stepped", value, words.stepped)) tell(`${words.stepped}, ${timeText(at)}`);
}

async function takeBack() {
  const last = lastTap();
  if (!last) return;
  const said = filled(words.tookBack, { what: nameOf(last) });
  if (await add("undo", { of: last.id }, said)) tell(said);
}

// What was tapped, for whoever takes it back.
function nameOf(record) {
  const { kind, value } = record;
  const panel = panels.find((one) => one.dataset.block && one.dataset.block === (value.block || value.at_block));
  const find = (name, text) => [...(panel ?? room).querySelectorAll(`[data-${name}]`)].find((one) => one.dataset[name] === text);
  if (kind === "tap") return `${find("exercise", value.exercise)?.dataset.name ?? value.exercise}, ${find("noticed", value.noticed)?.textContent}`;
  if (kind === "mark" || kind === "manner") {
    const row = find("criterion", value.criterion);
    const chosen = [...row.querySelectorAll("button")].find((one) => (one.dataset.choice ?? one.dataset.manner) === (value.choice ?? value.manner));
    return filled(words.level, { what: row.querySelector(".title").textContent, level: chosen?.textContent ?? "" });
  }
  if (kind === "grade") return `${words.grade}: ${find("grade", value.grade)?.textContent ?? ""}`;
  return { critical: words.critical, stepped: words.stepped, note: words.note, reason: words.why, clock: words.clock }[kind];
}

// ---- the clock

function turnClock() {
  const now = stands().get("clock");
  const act = now?.value.act === "go" ? "hold" : "go";
  add("clock", { act, moment: String(Date.now()) }, `${words.clock}: ${clockAct.textContent}`, Math.max(0, elapsed()));
}

function showTime() {
  const now = stands().get("clock");
  clock.textContent = timeText(Math.max(0, elapsed()));
  clockAct.textContent = { go: words.hold, hold: words.go }[now?.value.act] ?? words.start;
}

// ---- what is there

function show() {
  const now = stands();
  const taps = [...now.values()].filter((one) => one.kind === "tap");
  for (const panel of panels.filter((one) => one.dataset.block)) showBlock(panel, now, taps);
  for (const one of room.querySelectorAll("[data-code]")) pressed(one, now.has(`critical/${one.dataset.code}`));
  const last = lastTap();
  undo.disabled = !last;
  undo.title = last ? nameOf(last) : "";
  showTime();
  showWords(now, panels);
}

function showBlock(panel, now, taps) {
  const { block } = panel.dataset;
  for (const row of panel.querySelectorAll("[data-criterion]")) {
    const place = `${block}/${row.dataset.criterion}`;
    const choice = now.get(`mark/${place}`)?.value.choice ?? "";
    const manner = now.get(`manner/${place}`)?.value.manner ?? "done";
    for (const one of row.querySelectorAll("[data-choice]")) pressed(one, one.dataset.choice === choice);
    for (const one of row.querySelectorAll("[data-manner]")) pressed(one, one.dataset.manner === manner);
    const other = row.querySelectorAll(".else button[aria-pressed=true]:not([data-manner=done])");
    row.querySelector(".instead").textContent = [...other].map((one) => one.textContent).join(", ") || "…";
  }
  const grade = now.get(`grade/${block}`)?.value.grade ?? "";
  for (const one of panel.querySelectorAll("[data-grade]")) pressed(one, one.dataset.grade === grade);
  for (const one of panel.querySelectorAll("[data-exercise]")) {
    const number = taps.filter((some) => some.value.exercise === one.dataset.exercise).length;
    if (number) one.dataset.taps = number;
    else delete one.dataset.taps;
  }
}

// ---- light, keys

function turnLight() {
  const root = document.documentElement;
  root.dataset.light = LIGHTS[(LIGHTS.indexOf(root.dataset.light ?? "") + 1) % LIGHTS.length];
  try {
    localStorage.setItem("throughline-light", root.dataset.light);
  } catch {
    // It holds until the page is left.
  }
  showLight();
}

function showLight() {
  light.textContent = { dark: words.dark, bright: words.bright }[document.documentElement.dataset.light] ?? words.light;
}

// In a row, its figure gives the level; arrows go from choice to choice and from row to row; Escape shuts what is open.
function key(event) {
  if ((event.ctrlKey || event.metaKey) && event.key === "z" && !event.target.closest("input, textarea")) {
    event.preventDefault();
    return takeBack();
  }
  if (event.key === "Escape") return event.target.closest("details")?.removeAttribute("open");
  const row = event.target.closest(".judged");
  if (!row || event.ctrlKey || event.altKey || event.metaKey) return;
  const levels = [...row.querySelectorAll(".levels button")];
  const place = levels.indexOf(event.target);
  const figure = levels.find((one) => one.textContent === event.key);
  const rows = [...row.parentElement.querySelectorAll(".judged")];
  const next = {
    ArrowLeft: () => levels[place - 1],
    ArrowRight: () => levels[place + 1],
    ArrowUp: () => sameIn(rows[rows.indexOf(row) - 1], place),
    ArrowDown: () => sameIn(rows[rows.indexOf(row) + 1], place),
  }[event.key];
  if (!figure && !next) return;
  event.preventDefault();
  if (figure) tap(figure);
  (figure ?? next())?.focus();
}

function sameIn(row, place) {
  const levels = row ? [...row.querySelectorAll(".levels button")] : [];
  return levels[Math.min(Math.max(place, 0), levels.length - 1)];
}

// ---- begin

async function begin() {
  await open();
  for (const panel of panels) {
    const first = panel.querySelector("[data-exercise]");
    if (first) pressed(first, true);
  }
  room.addEventListener("click", (event) => {
    const button = event.target.closest("button");
    if (button?.dataset.panel) turnTo(button.dataset.panel);
    else if (button) tap(button);
  });
  room.addEventListener("keydown", key);
  undo.addEventListener("click", takeBack);
  clockAct.addEventListener("click", turnClock);
  light.addEventListener("click", turnLight);
  document.getElementById("stepped").addEventListener("click", stepIn);
  document.addEventListener("sheet-changed", show);
  document.addEventListener("sheet-full", () => tell(words.full));
  document.addEventListener("outbox-ended", (event) => event.detail.path === path && location.assign(room.dataset.form));
  addEventListener("online", look);
  document.addEventListener("visibilitychange", () => document.visibilityState === "visible" && look());
  setInterval(showTime, 1000);
  offerWords(turnTo);
  turnTo(firstPanel());
  showLight();
  show();
  room.hidden = false;
  look();
}

// Sent from elsewhere, it goes from this device too.
async function look() {
  if (await ask().catch(() => false)) await forget(path);
}

if (await ready()) await begin();
else document.getElementById("no-room").hidden = false;
