// The one way an entry comes into being on this phone: kept, then judged, then sent.
import { keep } from "../storage/log.js";
import { jot } from "../storage/meta.js";
import { askToPersist } from "../storage/room.js";

/**
 * @param {any} page @param {Entry[]} entries @param {Photo[]} [photos]
 * @returns {Promise<boolean>} whether they are safe on this phone
 */
export async function keepEntries(page, entries, photos = []) {
  const { store } = page;
  const rows = await keep(entries, photos).catch((error) => tellNotKept(store, error));
  if (!rows) return false;
  page.kept += 1;
  store.dispatch({ type: "entries-kept", rows });
  page.line.poke();
  if (page.kept === 1 && store.state.storage.persisted !== "granted") persist(store);
  return true;
}

/** Read from the phone's store what no entry kept meanwhile has outdated; dispatch it before anything is awaited. */
export async function readSettled(page, read) {
  for (;;) {
    const { kept } = page;
    const found = await read();
    if (page.kept === kept) return found;
  }
}

/** Add entries of one call to what the engine holds, where that call is still open, and show what it says of them. */
export function judgeEntries(page, entries) {
  const [{ call }] = entries;
  if (call === page.store.state.call?.id) judged(page, call, page.judge.add(entries));
}

/** Show what the engine answers for a call, unless another was opened meanwhile; without an answer the last one stands. */
export function judged(page, call, asked) {
  page.judging = showJudged(page, call, asked);
}

async function showJudged({ store }, call, asked) {
  store.dispatch({ type: "judging" });
  const answer = await asked.catch(() => null);
  if (store.state.call?.id === call) store.dispatch({ type: "judged", answer, now: Date.now() });
}

const KNOWN = { QuotaExceededError: "noRoom", VersionError: "replaced" };

export function tellNotKept(store, error) {
  console.error(error);
  store.dispatch({ type: "storage-trouble", trouble: KNOWN[error.name] ?? error.name });
  return null;
}

/** Asked with the first entry of each start until it is granted: a page put on the home screen since may get another answer. */
async function persist(store) {
  const persisted = await askToPersist();
  store.dispatch({ type: "storage-answer", persisted });
  jot("persisted", persisted);
}
