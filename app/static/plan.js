// The plan page works without this; it lets exercises be dragged, and moved with Alt and the arrow keys.
"use strict";

const form = document.querySelector("form.plan");
const row = form.querySelector(".row-of-exercises");
let held = null;

function press(value) {
  const button = document.createElement("button");
  button.name = "do";
  button.value = value;
  button.hidden = true;
  form.append(button);
  form.requestSubmit(button);
}

for (const item of row.children) {
  item.draggable = true;
  item.classList.add("handle");
  item.addEventListener("dragstart", (event) => {
    held = item;
    item.classList.add("held");
    event.dataTransfer.effectAllowed = "move";
    event.dataTransfer.setData("text/plain", item.dataset.place);
  });
  item.addEventListener("dragend", () => {
    held = null;
    for (const one of row.children) one.classList.remove("held", "over");
  });
  item.addEventListener("dragover", (event) => {
    if (!held) return;
    event.preventDefault();
    for (const one of row.children) one.classList.toggle("over", one === item && one !== held);
  });
  item.addEventListener("drop", (event) => {
    event.preventDefault();
    if (!held || held === item) return;
    item.before(held);
    press("keep");
  });
}

document.addEventListener("keydown", (event) => {
  const item = event.target.closest?.(".row-of-exercises > li");
  if (!item || !event.altKey || !["ArrowUp", "ArrowDown"].includes(event.key)) return;
  event.preventDefault();
  press((event.key === "ArrowUp" ? "up-" : "down-") + item.dataset.place);
});

const back = location.hash.match(/^#row-(\d+)$/);
if (back) document.getElementById("row-" + back[1])?.querySelector("a")?.focus({ preventScroll: true });
