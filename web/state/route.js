// The address of a screen, after the #: survives a reload, works with the phone's own back.

/** Screens that need nobody signed in. */
export const OPEN_TO_ALL = new Set(["settings", "diagnose"]);
const TABS = new Set(["measure", "signs", "findings", "close"]);

/** @param {string} hash */
export function routeOf(hash) {
  const [name, id, second, point, correct] = hash.replace(/^#?\/?/, "").split("/").map(decodeURIComponent);
  if (name === "sheet") return { name: "sheet", call: null, sheet: id, arg: second ?? "" };
  if (name === "machine") return { name: "machine", machine: id };
  if (name === "code") return { name: "code", code: id ?? "" };
  if (name !== "call" || !id) return { name: ["ready", "new", "refused", "sign-in", "settings", "diagnose", "carry"].includes(name) ? name : "calls" };
  if (second === "step") return { name: "step", call: id, step: point };
  if (second === "sheet") return { name: "sheet", call: id, sheet: point, arg: correct ?? "" };
  if (second === "starts") return { name: "starts", call: id, label: point ?? "as_left" };
  if (second === "photos") return { name: "photos", call: id };
  if (second === "photo") return { name: "photo", call: id, photo: point };
  if (point) return { name: "reading", call: id, label: second, point, correct: correct ?? null };
  return { name: "call", call: id, tab: TABS.has(second) ? second : "measure" };
}

/** The screen that an address from outside opens: a machine's label, or the page that looks at itself. */
export function doorOf(path) {
  const [, code] = /^\/m\/([^/]+)$/.exec(path) ?? [];
  if (code) return "#/code/" + code;
  return path === "/diagnose" ? "#/diagnose" : null;
}

export const toMachine = (machine) => `#/machine/${machine}`;
export const toPhotos = (call) => `#/call/${call}/photos`;
export const toPhoto = (call, photo) => `#/call/${call}/photo/${photo}`;
export const toCall = (call, tab = "measure") => `#/call/${call}/${tab}`;
export const toReading = (call, label, point, correct = "") => `#/call/${call}/${label}/${point}${correct ? "/" + correct : ""}`;
export const toStarts = (call, label) => `#/call/${call}/starts/${label}`;
export const toLeg = (call, label, point, leg) => toReading(call, label, point, "leg-" + leg);
export const toStep = (call, step) => `#/call/${call}/step/${step}`;
export const toSheet = (call, sheet, arg = "") => `#/${call ? `call/${call}/` : ""}sheet/${sheet}${arg ? "/" + encodeURIComponent(arg) : ""}`;
