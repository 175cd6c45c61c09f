// Pages work without this; it puts the cursor where a fault is.
"use strict";

const text = document.getElementById("f-text");

function goTo(line) {
  const start = text.value.split("\n").slice(0, line - 1).join("\n").length + (line > 1 ? 1 : 0);
  const end = text.value.indexOf("\n", start);
  text.focus();
  text.setSelectionRange(start, end < 0 ? text.value.length : end);
  const height = parseFloat(getComputedStyle(text).lineHeight);
  text.scrollTop = Math.max(0, (line - 6) * height);
}

for (const one of document.querySelectorAll("[data-line]")) {
  const button = document.createElement("button");
  button.type = "button";
  button.className = "plain";
  button.append(...one.childNodes);
  button.addEventListener("click", () => goTo(Number(one.dataset.line)));
  one.append(button);
}

const wanted = location.hash.match(/^#line-(\d+)$/);
if (wanted) goTo(Number(wanted[1]));
