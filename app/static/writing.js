// Pages work without this; it checks while one writes, and puts the cursor where a fault is.
"use strict";

const text = document.getElementById("f-text");
const found = document.getElementById("found");
let waiting = null, asked = 0;

function goTo(line) {
  const start = text.value.split("\n").slice(0, line - 1).join("\n").length + (line > 1 ? 1 : 0);
  const end = text.value.indexOf("\n", start);
  text.focus();
  text.setSelectionRange(start, end < 0 ? text.value.length : end);
  const height = parseFloat(getComputedStyle(text).lineHeight);
  text.scrollTop = Math.max(0, (line - 6) * height);
}

function makeButtons() {
  for (const one of found.querySelectorAll("[data-line]")) {
    const button = document.createElement("button");
    button.type = "button";
    button.className = "plain";
    button.append(...one.childNodes);
    button.addEventListener("click", () => goTo(Number(one.dataset.line)));
    one.append(button);
  }
}

async function check() {
  const number = ++asked;
  try {
    const answer = await fetch(found.dataset.check, { method: "POST", body: new FormData(text.form) });
    const html = answer.ok ? await answer.text() : null;
    // An older answer never takes the place of a newer one; without an answer the old one stays.
    if (html === null || number !== asked) return;
    found.replaceChildren(...new DOMParser().parseFromString(html, "text/html").body.childNodes);
    makeButtons();
  } catch {
    // No reception: keeping the file checks it as well.
  }
}

text.addEventListener("input", () => {
  clearTimeout(waiting);
  waiting = setTimeout(check, 600);
});
makeButtons();

const wanted = location.hash.match(/^#line-(\d+)$/);
if (wanted) goTo(Number(wanted[1]));
