// The sheet that an examiner's records make: the same as assessments/practicals/sheet_records.py, for the device.

// By kind, the fields that name the place on the sheet.
const PLACES = {
  mark: ["block", "criterion"],
  manner: ["block", "criterion"],
  reason: ["block", "criterion"],
  grade: ["block"],
  tap: ["item"],
  critical: ["code"],
  stepped: ["item"],
  note: [],
  clock: [],
};

export function placeOf(record) {
  return [record.kind, ...PLACES[record.kind].map((name) => record.value[name])].join("/");
}

// The later of two: by count, then device, then id; all ASCII.
export function later(one, other) {
  return one.count - other.count || compared(one.device, other.device) || compared(one.id, other.id);
}

function compared(one, other) {
  return one < other ? -1 : Number(one > other);
}

// By place, the last record that was not undone, without what is gone. An undo reaches back only; undone, it undoes nothing.
export function standing(records) {
  const undone = new Set();
  const found = new Map();
  for (const one of inOrder(records).reverse()) {
    if (undone.has(one.id)) continue;
    if (one.kind === "undo") undone.add(one.value.of);
    else if (!found.has(placeOf(one))) found.set(placeOf(one), one);
  }
  return new Map([...found].filter(([, one]) => !one.value.gone));
}

// The record that the next undo takes back, or nothing.
export function lastDone(records) {
  const undone = new Set();
  for (const one of inOrder(records).reverse()) {
    if (undone.has(one.id)) continue;
    if (one.kind === "undo") undone.add(one.value.of);
    else return one;
  }
  return null;
}

export function nextCount(records) {
  return Math.max(0, ...records.map((one) => one.count)) + 1;
}

function inOrder(records) {
  return [...new Map(records.map((one) => [one.id, one])).values()].sort(later);
}
