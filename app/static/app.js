// Pages work without this; it moves focus to what needs putting right, stops a second press, and unfolds for paper.
"use strict";

const faults = document.getElementById("faults");
if (faults) faults.focus();

document.addEventListener("submit", (event) => {
  if (event.target.dataset.sent) event.preventDefault();
  else if (event.target.method === "post") event.target.dataset.sent = "yes";
});

addEventListener("pageshow", () => {
  for (const form of document.querySelectorAll("form[data-sent]")) delete form.dataset.sent;
});

const unfolded = [];
addEventListener("beforeprint", () => {
  for (const fold of document.querySelectorAll("details:not([open])")) {
    fold.open = true;
    unfolded.push(fold);
  }
});
addEventListener("afterprint", () => {
  for (const fold of unfolded.splice(0)) fold.open = false;
});
