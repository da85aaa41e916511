// The address of a screen, after the #: survives a reload, works with the phone's own back.

const TABS = new Set(["measure", "signs", "findings", "close"]);

/** @param {string} hash */
export function routeOf(hash) {
  const [name, id, second, point, correct] = hash.replace(/^#?\/?/, "").split("/").map(decodeURIComponent);
  if (name !== "call" || !id) return { name: ["ready", "new", "refused", "sign-in"].includes(name) ? name : "calls" };
  if (point) return { name: "reading", call: id, label: second, point, correct: correct ?? null };
  return { name: "call", call: id, tab: TABS.has(second) ? second : "measure" };
}

export const toCall = (call, tab = "measure") => `#/call/${call}/${tab}`;
export const toReading = (call, label, point, correct = "") => `#/call/${call}/${label}/${point}${correct ? "/" + correct : ""}`;
