// From the phone's store to the state: at the start, and after anything came or went.
import { REGISTER_KINDS } from "../state/register.js";
import { readSettings } from "../state/settings.js";
import { countOf } from "../storage/counts.js";
import { refusedEntries, rowsOfKinds, waitingMarks } from "../storage/log.js";
import { allMeta, readMeta } from "../storage/meta.js";
import { language } from "../words/index.js";
import { readSettled } from "./keep.js";

/** Everything the first screen needs, read from this phone alone. */
export async function wake({ store }) {
  const [meta, held] = await Promise.all([allMeta(), heldNow()]);
  const settings = readSettings((name) => localStorage.getItem(name));
  const words = meta.words?.language === language ? meta.words : null;
  store.dispatch({ type: "woke", meta: { ...meta, words }, ...held, settings, secure: isSecureContext });
}

export async function readLog(page) {
  const [held, pulledAt] = await readSettled(page, () => Promise.all([heldNow(), readMeta("pulled_at")]));
  page.store.dispatch({ type: "log-read", ...held, pulledAt: pulledAt ?? "" });
}

async function heldNow() {
  const [rows, marks, refused, held] = await Promise.all([rowsOfKinds(REGISTER_KINDS), waitingMarks(), refusedEntries(), countOf(["photos"])]);
  return { rows, marks, refused, photosWaiting: held.photos, now: Date.now() };
}
