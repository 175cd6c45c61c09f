// Keeps the pages named in #offline for when there is no reception, and says when such a page is looked at. A page named
// in data-once is not kept anew each time something was sent: it holds nothing that sending changes.

const said = document.getElementById("offline");
const person = document.getElementById("outbox")?.dataset.person;

// The page itself and what it needs to look and work as it does.
function parts() {
  const loaded = performance.getEntriesByType("resource").map((one) => new URL(one.name));
  const named = [...document.querySelectorAll("link[href], script[src]")].map((one) => new URL(one.href || one.src));
  const own = [...loaded, ...named].filter((one) => one.origin === location.origin && one.pathname.startsWith("/static/"));
  return [...new Set([...own.map((one) => one.pathname), ...(said.dataset.parts?.split(" ") ?? [])])];
}

async function keep() {
  const worker = (await navigator.serviceWorker.ready).active;
  const listed = (text) => text?.split(" ").filter(Boolean) ?? [];
  worker.postMessage({ person, pages: listed(said.dataset.pages), parts: parts(), drop: listed(said.dataset.drop) });
}

function show(kept) {
  said.hidden = !kept;
}

if (said && person && "serviceWorker" in navigator) {
  navigator.serviceWorker.addEventListener("message", (event) => {
    if (event.data.fromDevice) show(true);
    if (event.data.kept) document.documentElement.dataset.kept = event.data.kept;
  });
  navigator.serviceWorker.register("/offline-worker.js").then(keep, () => {});
  if (!("once" in said.dataset)) document.addEventListener("outbox-sent", keep);
  document.addEventListener("outbox-ended", keep);
  show(!navigator.onLine);
  addEventListener("offline", () => show(true));
  addEventListener("online", () => {
    show(false);
    keep();
  });
}
