// Before anything is painted: the light that was chosen for the room, so that nothing flashes in the dark.
"use strict";

try {
  const light = localStorage.getItem("throughline-light");
  if (light) document.documentElement.dataset.light = light;
} catch {
  // A browser that keeps nothing shows the page in its own light.
}
