// Without this the rehearsal is one long page; with it, one exercise at a time, with a beat to see and, if asked, to hear.
"use strict";

const stage = document.getElementById("rehearsal");
const steps = [...stage.querySelectorAll(".step")];
const bar = document.createElement("div");
let here = 0, timer = null, sound = null;

function button(words, act, kind = "second") {
  const made = document.createElement("button");
  made.type = "button";
  made.className = kind;
  made.textContent = words;
  made.addEventListener("click", act);
  bar.append(made);
  return made;
}

function show(place) {
  stop();
  here = Math.min(Math.max(place, 0), steps.length - 1);
  steps.forEach((step, at) => { step.hidden = at !== here; });
  where.textContent = stage.dataset.of.replace("{number}", here + 1).replace("{all}", steps.length);
  before.disabled = here === 0;
  next.disabled = here === steps.length - 1;
  beat.hidden = !steps[here].querySelector("[data-bouts]");
  stage.scrollTop = 0;
  steps[here].querySelector("h2").focus();
}

function counts(position) {
  const found = [];
  for (const [times, phases] of JSON.parse(position.dataset.bouts))
    for (let time = 1; time <= times; time += 1)
      for (const [number, movement] of phases)
        for (let count = 1; count <= number; count += 1) found.push([count, movement, time, times]);
  return found;
}

function tick(high) {
  if (!sound) return;
  const tone = sound.createOscillator(), level = sound.createGain();
  tone.frequency.value = high ? 660 : 440;
  level.gain.setValueAtTime(0.15, sound.currentTime);
  level.gain.exponentialRampToValueAtTime(0.001, sound.currentTime + 0.12);
  tone.connect(level).connect(sound.destination);
  tone.start();
  tone.stop(sound.currentTime + 0.13);
}

function start() {
  const positions = [...steps[here].querySelectorAll("[data-bouts]")];
  let place = 0, row = counts(positions[0]), at = 0;
  beat.textContent = stage.dataset.going;
  const one = () => {
    if (at === row.length) {
      place += 1;
      if (place === positions.length) return stop();
      row = counts(positions[place]);
      at = 0;
    }
    const position = positions[place], [count, movement, time, times] = row[at];
    let shown = position.querySelector(".count");
    if (!shown) {
      for (const old of stage.querySelectorAll(".count, .movement")) old.remove();
      shown = document.createElement("span");
      shown.className = "count";
      shown.setAttribute("aria-hidden", "true");
      const words = document.createElement("span");
      words.className = "movement";
      words.setAttribute("aria-hidden", "true");
      position.append(shown, words);
      position.scrollIntoView({ block: "center" });
    }
    shown.textContent = count;
    position.querySelector(".movement").textContent = `${movement} · ${time}/${times}`;
    tick(count === 1);
    at += 1;
    timer = setTimeout(one, 60000 / Number(position.dataset.beats));
  };
  one();
}

function stop() {
  clearTimeout(timer);
  timer = null;
  beat.textContent = stage.dataset.still;
  for (const old of stage.querySelectorAll(".count, .movement")) old.remove();
}

bar.className = "bar";
const before = button(stage.dataset.before, () => show(here - 1));
const where = document.createElement("span");
where.setAttribute("role", "status");
bar.append(where);
const beat = button(stage.dataset.still, () => (timer ? stop() : start()), "main");
const loud = button(stage.dataset.silent, () => {
  if (sound) sound.close();
  sound = sound ? null : new AudioContext();
  loud.textContent = sound ? stage.dataset.loud : stage.dataset.silent;
});
const next = button(stage.dataset.next, () => show(here + 1));
const leave = document.querySelector(".ways-on a").cloneNode(true);
bar.append(leave);
if (steps.length) {
  stage.classList.add("one");
  stage.append(bar);
  show(0);
}

document.addEventListener("keydown", (event) => {
  if (event.key === "ArrowRight" || event.key === "PageDown") show(here + 1);
  else if (event.key === "ArrowLeft" || event.key === "PageUp") show(here - 1);
  else if (event.key === "Escape") leave.click();
  else return;
  event.preventDefault();
});
