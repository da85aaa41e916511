// A refused entry's body as single fields a person can correct, each named by its JSON pointer.

const below = (pointer, key) => `${pointer}/${key.replaceAll("~", "~0").replaceAll("/", "~1")}`;
const isLeaf = (value) => value === null || typeof value !== "object";

/** @returns {{pointer: string, value: any}[]} */
export function leavesOf(value, pointer = "/body") {
  if (isLeaf(value)) return [{ pointer, value }];
  return Object.entries(value).flatMap(([key, inner]) => leavesOf(inner, below(pointer, key)));
}

/**
 * The body with what was typed; a field keeps the type it had, and an emptied one goes.
 * @param {any} value @param {Record<string, string>} typed texts by pointer
 */
export function corrected(value, typed, pointer = "/body") {
  if (isLeaf(value)) return pointer in typed ? likeBefore(typed[pointer].trim(), value) : value;
  const inner = Object.entries(value).map(([key, one]) => [key, corrected(one, typed, below(pointer, key))]);
  const left = inner.filter(([, one]) => one !== undefined);
  return Array.isArray(value) ? left.map(([, one]) => one) : Object.fromEntries(left);
}

function likeBefore(text, before) {
  if (text === "") return undefined;
  if (typeof before === "number") return Number.isFinite(Number(text)) ? Number(text) : text;
  if (typeof before === "boolean") return text === "true";
  return text;
}
