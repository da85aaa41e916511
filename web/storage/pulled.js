// What the server sent: whole pages with their cursor in one transaction, and each machine's history.
import { transact } from "./database.js";
import { isOther, rowOf, unmark } from "./log.js";
import { HISTORIES, write } from "./room.js";

/** @typedef {{cursor: number, seen: number, epoch: string | null, scope: any}} Asked where a page was asked for from */

/**
 * Keep one page and the cursor it reaches, together or not at all. Resolves with false, and keeps nothing, when this
 * phone stands elsewhere by now: room was made, or another tab was quicker. Then the page is asked for anew.
 * @param {Entry[]} items
 * @param {{cursor: number, epoch: string, scope: any}} reached
 * @param {Asked} asked
 * @param {string} device this sign-in's: what was carried here for another and came back has arrived
 */
export const keepPage = (items, reached, asked, device) =>
  write(["entries", "meta", "outbox"], async (tx) => {
    const meta = tx.objectStore("meta");
    const [cursor = 0, seen = 1, epoch = null] = await Promise.all(["cursor", "seen", "epoch"].map((key) => meta.get(key)));
    if (cursor !== asked.cursor || seen !== asked.seen || epoch !== asked.epoch) return false;
    const store = tx.objectStore("entries");
    const known = await Promise.all(items.map((item) => store.get(item.id)));
    await Promise.all(items.map((item, i) => store.put(merged(item, known[i], seen))));
    await Promise.all(items.filter((item, i) => isCarried(item, known[i], device)).map((item) => unmark(tx, item.id)));
    for (const key of ["cursor", "epoch", "scope"]) await meta.put(reached[key], key);
    await meta.put(new Date().toISOString(), "pulled_at");
    return true;
  }, HISTORIES);

/** Whether the server shows an entry of another phone that waited here: another way was quicker. */
const isCarried = (item, known, device) =>
  known?.own && known.cursor === null && item.device !== device && item.author === known.entry.author && item.made_at === known.entry.made_at && saysSame(item, known.entry);

/** Entries of one call fetched apart from the page order: the cursor does not move. What another log sent is not kept. */
export const keepCall = ({ items, epoch }, seen) =>
  write(["entries", "meta"], async (tx) => {
    if (await isOther(tx, epoch)) return;
    const store = tx.objectStore("entries");
    for (const item of items) await store.put(merged(item, await store.get(item.id), seen));
  }, HISTORIES);

/** What waits here and says something else was corrected since: it stays, and the server's answer to it will tell. */
function merged(item, known, seen) {
  if (known?.own && known.cursor === null && !saysSame(item, known.entry)) return { ...known, seen };
  const fresh = rowOf(item, known?.order ?? item.cursor, seen);
  return { ...fresh, own: known?.own ?? false };
}

const saysSame = (one, other) => JSON.stringify(one.body, sorted) === JSON.stringify(other.body, sorted);

const sorted = (_, value) => (value?.constructor === Object ? Object.fromEntries(Object.entries(value).sort()) : value);

/** What may bring a call back to life that was settled, perhaps so long ago that nothing of it was read here since. */
const REVIVING = new Set(["retraction", "decision"]);

/** Calls of these entries that the server has not shown whole: not from their beginning in this reading, or settled before. */
export const callsLacked = (items, seen) =>
  transact(["entries"], "readonly", async (tx) => {
    const store = tx.objectStore("entries");
    const arriving = new Set(items.map((item) => item.id));
    const calls = [...new Set(items.map((item) => item.call))].filter((call) => call && !arriving.has(call));
    const revived = new Set(items.filter((item) => REVIVING.has(item.kind)).map((item) => item.call));
    const held = await Promise.all(calls.map((call) => store.get(call)));
    const settled = await Promise.all(calls.map((call) => revived.has(call) && isAccepted(store, call)));
    return calls.filter((_, i) => held[i] === undefined || held[i].seen < seen || settled[i]);
  });

async function isAccepted(store, call) {
  const rows = await store.index("call").getAll(call);
  return rows.some(({ kind, entry }) => kind === "review" && entry.body.outcome === "accepted");
}

/** After a pull from the beginning: drop what the server no longer shows this person, never what was made here or waits to be sent. */
export const dropUnseen = (seen) =>
  transact(["entries"], "readwrite", async (tx) => {
    const rows = await tx.objectStore("entries").getAll();
    const gone = rows.filter((row) => !row.own && row.cursor !== null && row.seen < seen);
    await Promise.all(gone.map((row) => tx.objectStore("entries").delete(row.id)));
  });

/** Histories, as far as there is room: they hold up nothing. */
export const keepMachines = (machines) =>
  transact(["machines"], "readwrite", (tx) => Promise.all(machines.map((machine) => tx.objectStore("machines").put(machine)))).catch((error) => {
    if (error?.name !== "QuotaExceededError") throw error;
  });

export const machineHistory = (id) => transact(["machines"], "readonly", (tx) => tx.objectStore("machines").get(id));
