// From the phone's store to the state: at the start, and after anything came or went.
import { REGISTER_KINDS } from "../state/register.js";
import { readSettings } from "../state/settings.js";
import { countOf } from "../storage/counts.js";
import { refusedEntries, rowsOfKinds, waitingMarks } from "../storage/log.js";
import { allMeta, readMeta } from "../storage/meta.js";
import { lostHold, markHeld } from "../storage/emptied.js";
import { language } from "../words/index.js";
import { readSettled } from "./keep.js";

/** Everything the first screen needs, read from this phone alone. */
export async function wake({ store }, controlled) {
  const [meta, rows, refused, held] = await Promise.all([allMeta(), rowsOfKinds(REGISTER_KINDS), refusedEntries(), countOf(["outbox", "photos"])]);
  const settings = readSettings((name) => localStorage.getItem(name));
  const words = meta.words?.language === language ? meta.words : null;
  store.dispatch({ type: "woke", meta: { ...meta, words }, rows, refused, held, settings, lost: lostHold(meta), secure: isSecureContext, controlled, now: Date.now() });
}

/** Keep the mark of what waits beside the store, as often as that changes. */
export function markWaiting({ store }) {
  let marked = /** @type {number | null} */ (null);
  store.subscribe(({ session, waiting }) => {
    if (!session || !waiting || waiting.size === marked) return;
    marked = waiting.size;
    markHeld(marked);
  });
}

/** Which entries wait and whose they are: for a full phone more than its first screen should wait for. */
export async function readMarks(page) {
  const marks = await readSettled(page, waitingMarks);
  page.store.dispatch({ type: "marks-read", marks });
}

export async function readLog(page) {
  const [held, pulledAt] = await readSettled(page, () => Promise.all([heldNow(), readMeta("pulled_at")]));
  page.store.dispatch({ type: "log-read", ...held, pulledAt: pulledAt ?? "" });
}

async function heldNow() {
  const [rows, marks, refused, held] = await Promise.all([rowsOfKinds(REGISTER_KINDS), waitingMarks(), refusedEntries(), countOf(["photos"])]);
  return { rows, marks, refused, photosWaiting: held.photos, now: Date.now() };
}
