// What is sent leaves this device, also when it was sent from another.

import { forget, ready } from "./outbox.js";

if (await ready()) {
  const sent = document.getElementById("offline").dataset.drop?.split(" ") ?? [];
  for (const page of sent) await forget(page.replace(/room$/, "records"));
}
