// Photos of a call as its screens show them.
import { fold, standing } from "./fold.js";

export const SUBJECTS = ["alarm", "plate", "panel", "oil", "part", "other"];

/** What a photo beside a reading most likely shows. */
export function subjectOf({ name, group }) {
  if (name.startsWith("oil")) return "oil";
  return group === "supply" || group === "control" ? "panel" : "part";
}

/** Width and height that fit a square of this side, never larger than they were. */
export function fitted(width, height, side) {
  const share = Math.min(1, side / Math.max(width, height));
  return { width: Math.max(1, Math.round(width * share)), height: Math.max(1, Math.round(height * share)) };
}

/**
 * Photos that stand, oldest first; of one thing when asked.
 * @param {{rows: Row[]}} call @param {string | null} [of] a reading or machine
 */
export function photosOf(call, of = null) {
  const all = standing(fold(call.rows), "photo").map(({ id, body, rows }) => ({ id, at: body.taken_at ?? rows[0].entry.made_at, ...body }));
  return of ? all.filter((photo) => photo.of === of) : all;
}
