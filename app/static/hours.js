// Pages work without this; with it, a session is logged or corrected on the device and sent from there, the usual lengths are
// one tap, and a session that would earn nothing is told of before.

import { entries, idOf, newId, put, ready } from "./outbox.js";

const form = document.getElementById("log");
const logged = document.getElementById("logged");
const submit = form.querySelector("button.main");
const label = submit.textContent;
const lengths = JSON.parse(form.dataset.lengths);
const warnings = JSON.parse(form.dataset.warnings);
const missing = JSON.parse(form.dataset.missing);
// The id under which what stands in the form was kept, until something is changed.
let kept = "";
let last = "";

function field(name) {
  return form.elements.namedItem(name);
}

function fieldsOf() {
  const fields = Object.fromEntries(new FormData(form));
  delete fields.form_token;
  return fields;
}

function words(fields) {
  const day = new Date(`${fields.day}T12:00`);
  const shown = isNaN(day) ? fields.day : day.toLocaleDateString(document.documentElement.lang, { weekday: "short", day: "numeric", month: "short" });
  const what = field("activity-0").selectedOptions[0]?.textContent ?? "";
  return `${what}, ${shown}, ${fields.start}–${fields.end}`;
}

// Two figures of an hour or a minute, a month or a day.
function two(number) {
  return String(number).padStart(2, "0");
}

function clock(minutes) {
  return `${two(Math.floor(minutes / 60))}:${two(minutes % 60)}`;
}

function today() {
  const now = new Date();
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

function askAboutToday() {
  if (field("day").value < today() && field("version").value === "0" && !kept) field("day").value = today();
}

function justEnded(minutes) {
  const now = new Date();
  const end = Math.floor((now.getHours() * 60 + now.getMinutes()) / 5) * 5;
  field("day").value = today();
  field("start").value = clock(Math.max(0, end - minutes - Number(field("breaks").value || 0)));
  field("end").value = clock(end);
  changed();
}

function offerLengths() {
  const usual = lengths[field("activity-0").value] ?? lengths[""];
  const group = form.querySelector(".lengths");
  const buttons = usual.map(([minutes, text]) => {
    const button = document.createElement("button");
    button.type = "button";
    button.className = "second";
    button.textContent = text;
    button.addEventListener("click", () => justEnded(minutes));
    return button;
  });
  group.querySelector(".acts").replaceChildren(...buttons);
  group.hidden = !usual.length;
}

// A session is warned of when every part of it is of a kind that would earn nothing.
function warn() {
  const found = [];
  for (let place = 0; place < 4; place += 1) {
    const activity = field(`activity-${place}`)?.value;
    if (!activity) continue;
    const kind = [activity, field(`mode-${place}`)?.value || "live"];
    if (field("host").value === "self" && activity === "self_practice") kind.push("self");
    found.push(warnings[kind.join("|")]);
  }
  const said = found.length && found.every(Boolean) && field("version").value === "0" ? found[0] : "";
  const place = document.getElementById("earns-nothing");
  place.textContent = said;
  place.hidden = !said;
  if (field("version").value !== "0") submit.textContent = form.dataset.correct;
  else submit.textContent = said ? form.dataset.anyway : label;
}

function changed(event) {
  if (kept) {
    field("id").value = newId();
    field("version").value = "0";
    if (event?.target !== field("note")) field("note").value = "";
    kept = "";
  }
  say("");
  warn();
}

function say(text) {
  logged.textContent = text;
}

function clearFaults() {
  document.getElementById("faults")?.remove();
  for (const one of form.querySelectorAll(".fault")) one.remove();
  for (const one of form.querySelectorAll("[aria-invalid]")) one.removeAttribute("aria-invalid");
}

function showFaults(faults) {
  clearFaults();
  const section = document.createElement("section");
  section.id = "faults";
  section.className = "fault-summary";
  section.tabIndex = -1;
  section.setAttribute("aria-labelledby", "faults-heading");
  const heading = document.createElement("h2");
  heading.id = "faults-heading";
  heading.textContent = form.dataset.faults;
  const rows = document.createElement("ul");
  for (const one of faults) {
    const row = document.createElement("li");
    const place = one.field && document.getElementById(`f-${one.field}`);
    const text = document.createElement(place ? "a" : "span");
    text.textContent = one.detail;
    if (place) {
      text.href = `#f-${one.field}`;
      place.setAttribute("aria-invalid", "true");
    }
    row.append(text);
    rows.append(row);
  }
  section.append(heading, rows);
  document.getElementById("content").prepend(section);
  section.focus();
}

// What can be seen without the school; the rest it says when there is reception.
function missingHere(fields) {
  const open = Object.keys(missing).filter((name) => !fields[name]);
  return open.map((name) => ({ field: name, detail: missing[name] }));
}

async function keep(event) {
  event.preventDefault();
  event.stopPropagation();
  if (kept) {
    say(form.dataset.same);
    return;
  }
  clearFaults();
  say("");
  const fields = fieldsOf();
  const faults = navigator.onLine ? [] : missingHere(fields);
  if (faults.length) {
    showFaults(faults);
    return;
  }
  kept = last = fields.id;
  opened("");
  try {
    await put("/hours/sessions", fields, words(fields), { together: true, page: "/today" });
  } catch {
    kept = "";
    say(form.dataset.full);
    return;
  }
  if (!logged.textContent) say(form.dataset.kept);
}

function opened(id) {
  document.documentElement.dataset.open = id;
  document.dispatchEvent(new Event("outbox-open"));
}

function fill(fields) {
  for (const one of form.elements) {
    if (!one.name || one.name === "form_token") continue;
    one.value = fields[one.name] ?? (one.name.startsWith("mode-") ? "live" : "");
  }
  for (const one of form.querySelectorAll("details")) {
    one.open ||= [...one.querySelectorAll("input, textarea")].some((field) => field.value);
  }
  kept = "";
  say("");
  offerLengths();
  warn();
}

async function openKept() {
  const id = location.hash.match(/^#kept-(.+)$/)?.[1];
  const entry = id && (await entries()).find((one) => idOf(one) === id);
  if (!entry) return;
  history.replaceState(null, "", location.pathname + location.search);
  fill(Object.fromEntries(entry.fields));
  opened(id);
  if (entry.reasons) showFaults(entry.errors?.length ? entry.errors : entry.reasons.map((detail) => ({ detail })));
  else field("host").focus();
}

function settled({ detail }) {
  if (detail.id !== last) return;
  last = "";
  if (detail.status < 300) {
    say(detail.said);
    lookAgain();
  } else if (!detail.stands && kept === detail.id) {
    kept = "";
    say("");
    opened(detail.id);
    showFaults(detail.errors?.length ? detail.errors : [{ detail: detail.detail }]);
  } else say("");
}

// The list of what was logged last, as it is now.
async function lookAgain() {
  const answer = await fetch("/today").catch(() => null);
  if (!answer?.ok) return;
  const page = new DOMParser().parseFromString(await answer.text(), "text/html");
  for (const part of ["#last", ".page-heading"]) {
    const now = page.querySelector(part);
    if (now) document.querySelector(part)?.replaceWith(document.adoptNode(now));
  }
  offerCorrections();
}

function offerCorrections() {
  const section = document.getElementById("last");
  const known = JSON.parse(section.dataset.sessions);
  for (const one of section.querySelectorAll("a[href^='/hours/sessions/']")) {
    const fields = known[one.getAttribute("href").split("/").pop()];
    if (!fields) continue;
    const button = document.createElement("button");
    button.type = "button";
    button.className = "plain";
    button.textContent = section.dataset.words;
    button.setAttribute("aria-label", `${section.dataset.words}: ${one.textContent}`);
    button.addEventListener("click", () => {
      clearFaults();
      opened("");
      fill(fields);
      field("host").focus();
    });
    one.closest("li").append(button);
  }
}

if (await ready()) {
  form.addEventListener("submit", keep);
  form.addEventListener("input", changed);
  field("activity-0").addEventListener("change", offerLengths);
  document.addEventListener("outbox-settled", settled);
  addEventListener("hashchange", openKept);
  // A kept page may be opened again and again: what is logged on it is a new session each time, and of today.
  if (field("version").value === "0") field("id").value = newId();
  if (!navigator.onLine) askAboutToday();
  navigator.serviceWorker?.addEventListener("message", (event) => event.data.fromDevice && askAboutToday());
  offerLengths();
  offerCorrections();
  warn();
  await openKept();
}
