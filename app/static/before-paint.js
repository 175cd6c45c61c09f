// Before anything is painted: the light chosen for the room, so that nothing flashes in the dark, and whether this person
// has locked the device, so that nothing is seen.
"use strict";

{
  const root = document.documentElement;
  try {
    const light = localStorage.getItem("throughline-light");
    if (light) root.dataset.light = light;
    const lock = JSON.parse(localStorage.getItem(`throughline-lock ${document.currentScript.dataset.key}`) ?? "{}");
    if (lock.locked) root.dataset.locked = "locked";
  } catch {
    // A browser that keeps nothing has neither.
  }
}
