// Room held free on this device, given up when nothing else fits. What a browser says of its room is too round to warn by: it
// is tried instead.
//   hold()    whether room enough is there: held already, or now
//   giveUp()  let go of it; whether there was anything to let go

const NAME = "reserve";
const BYTES = 2_000_000;
// As many random bytes as a browser gives at once.
const MOST_AT_ONCE = 65_536;

export async function hold() {
  try {
    const folder = await navigator.storage.getDirectory();
    const held = await folder.getFileHandle(NAME, { create: true });
    if ((await held.getFile()).size >= BYTES) return true;
    const writing = await held.createWritable();
    await writing.write(noise());
    await writing.close();
    return true;
  } catch (error) {
    // Where a browser has no such place, or none just now, nothing is known of its room.
    return error.name !== "QuotaExceededError";
  }
}

export async function giveUp() {
  try {
    const folder = await navigator.storage.getDirectory();
    const { size } = await (await folder.getFileHandle(NAME)).getFile();
    await folder.removeEntry(NAME);
    return size > 0;
  } catch {
    return false;
  }
}

// Nothing that a disk could make smaller.
function noise() {
  const bytes = new Uint8Array(BYTES);
  for (let at = 0; at < BYTES; at += MOST_AT_ONCE) crypto.getRandomValues(bytes.subarray(at, at + MOST_AT_ONCE));
  return bytes;
}
