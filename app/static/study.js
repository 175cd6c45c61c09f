// Pages work without this; with it, answers are kept on the device and sent from there, so that no reception is needed.

import { entries, newId, put, ready } from "./outbox.js";

const sitting = document.getElementById("sitting");
const undo = document.getElementById("undo");
const over = document.getElementById("sitting-done");
const asked = [...sitting.querySelectorAll(".recall")];
const answered = [];

function turnTo(focus) {
  const next = asked.find((one) => !answered.some((given) => given.article === one));
  for (const one of asked) one.hidden = one !== next;
  over.hidden = Boolean(next);
  if (next) next.querySelector("details").open = false;
  if (focus) (next ?? over).querySelector("h2").focus();
}

function offerUndo() {
  const given = answered.at(-1);
  undo.hidden = !given;
  if (!given) return;
  undo.querySelector("[name=id]").value = given.id;
  undo.querySelector(".hint").textContent = given.article.querySelector("h2").textContent;
}

async function answer(event) {
  stopHere(event);
  const article = event.target.closest(".recall");
  if (!event.submitter || answered.some((given) => given.article === article)) return;
  const fields = {
    id: newId(),
    question: article.dataset.question,
    answer: event.submitter.value,
    at: new Date().toISOString(),
  };
  answered.push({ id: fields.id, article });
  await put("/study", fields, `${article.querySelector("h2").textContent} – ${event.submitter.textContent}`);
  turnTo(true);
  offerUndo();
}

async function takeBack(event) {
  if (!answered.length) return;
  stopHere(event);
  const given = answered.pop();
  await put("/study/undo", { id: given.id }, undo.querySelector("button").textContent);
  turnTo(true);
  offerUndo();
}

function stopHere(event) {
  event.preventDefault();
  event.stopPropagation();
}

// What was answered on this device and is not sent yet, without what was taken back again.
async function recallWaiting() {
  const waiting = (await entries()).filter((one) => !one.reasons).map((one) => [one.path, Object.fromEntries(one.fields)]);
  const back = waiting.filter(([path]) => path === "/study/undo").map(([, fields]) => fields.id);
  for (const [path, fields] of waiting) {
    const article = asked.find((one) => one.dataset.question === fields.question);
    if (path === "/study" && article && !back.includes(fields.id)) answered.push({ id: fields.id, article });
  }
}

if (await ready()) {
  await recallWaiting();
  for (const one of asked) one.addEventListener("submit", answer);
  undo.addEventListener("submit", takeBack);
  if (answered.length) {
    turnTo(false);
    offerUndo();
  }
}
