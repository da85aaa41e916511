// When a leg is surely complete, so that the next may follow by itself; and how the thumb gets back when it was not.
import { isComplete } from "./digits.js";

const SCALE = { V: 1, mV: 1e-3, A: 1, mA: 1e-3, ohm: 1, mohm: 1e-3, kohm: 1e3, Mohm: 1e6 };

/**
 * A leg is surely complete after OL, or after a digit that gives it the very shape of the leg before it (of the last
 * visit's leg when it is the first), at least two digits, between half and twice its value, and in what can be believed.
 * One digit more would make it ten times as much: that is why a leg much smaller or larger than the others waits for Next.
 * @param {Point} point @param {Draft} draft @param {string} key the key just pressed @param {any} last reading of the last visit
 */
export function isSure(point, draft, key, last) {
  if (point.kind !== "legs" || draft.only || !nextEmpty(point, draft)) return false;
  const text = draft.texts[draft.active];
  if (text === "OL") return true;
  return /^\d$/.test(key) && text.replace(/\D/g, "").length > 1 && believable(point, draft.unit, text) && alike(text, legBefore(point, draft, last));
}

/** The next leg that has no number yet; conditions beside the legs are never gone to by themselves. */
const nextEmpty = (point, draft) => point.keys.slice(point.keys.indexOf(draft.active) + 1).find((key) => point.keys.includes(draft.active) && !draft.texts[key]);

function legBefore(point, draft, last) {
  const before = point.keys.slice(0, point.keys.indexOf(draft.active)).findLast((key) => isComplete(draft.texts[key] ?? ""));
  if (before) return draft.texts[before];
  return last?.unit === draft.unit ? String(last.legs?.[draft.active] ?? "") : "";
}

const shape = (text) => text.replace(/\d/g, "0");
const sizeOf = (text) => Math.abs(Number(text.replace(/^[<>]/, "")));

function alike(text, other) {
  return shape(text) === shape(other) && sizeOf(other) > 0 && sizeOf(text) >= sizeOf(other) / 2 && sizeOf(text) <= sizeOf(other) * 2;
}

function believable({ low, high }, unit, text) {
  const size = Number(text.replace(/^[<>]/, "")) * SCALE[unit];
  return Number.isNaN(size) || (size >= low && size <= high);
}

/** The thumb on the next empty leg, remembering the one it left. */
export const movedOn = (point, draft) => ({ ...draft, active: nextEmpty(point, draft) ?? draft.active, left: draft.active });

/** On an empty leg come to by itself: the delete key goes back, and a point belongs to the number that was left. */
export function returned(draft, key) {
  if (!draft.left || draft.texts[draft.active]) return draft;
  const mine = key === "back" || (key === "." && /^[^.]*\d$/.test(draft.texts[draft.left]));
  return mine ? { ...draft, active: draft.left, left: "" } : draft;
}
