// Marks of a call, what is done and what was left out: they ride with the call itself, as a correction of its extra members.
import { endsOf } from "../state/clashes.js";
import { newEntry } from "../state/entries.js";
import { fold } from "../state/fold.js";
import { rowsOfCall } from "../storage/log.js";
import { judgeEntries, keepEntries, tellNotKept } from "./keep.js";

let marking = /** @type {Promise<any>} */ (Promise.resolve());

/**
 * Keep a mark, or take it away by null, with what belongs to it. One after another, each over what this phone holds by
 * then: two kept side by side would be two versions of one fact.
 * @param {any} page @param {any} state as it was when the mark was set
 * @param {"done" | "skipped"} part @param {string} name @param {any} value @param {Entry[]} beside
 * @returns {Promise<boolean>} whether it is kept
 */
export function keepMark(page, state, part, name, value, beside = []) {
  marking = marking.then(() => keepNow(page, state, { part, name, value }, beside)).catch((error) => tellNotKept(page.store, error));
  return marking.then(Boolean);
}

async function keepNow(page, { session, call }, mark, beside) {
  const entries = [...beside, markOf(session, fold(await rowsOfCall(call.id)).get(call.id), mark)];
  if (!(await keepEntries(page, entries))) return false;
  judgeEntries(page, entries);
  return true;
}

function markOf(session, call, { part, name, value }) {
  const marks = { ...call.body.extra?.[part], [name]: value };
  if (value === null) delete marks[name];
  return newEntry(session, "call", call.id, { extra: { ...call.body.extra, [part]: marks } }, endsOf(call));
}
