// Space on a phone is lent: ask to keep it, and know what may go when it runs out. The outbox never does.
import { transact } from "./database.js";

const RESERVE = "/rackside-reserve";
const RESERVE_BYTES = 2 * 1024 * 1024;

/** @type {() => void} */
let tellFull = () => {};
export function onFull(listener) {
  tellFull = listener;
}

/**
 * Space held beside the store, to be given up first: a browser frees what a store deletes only later, what a cache deletes at once.
 * Resolves with whether it is held. Its size holds some thousand readings (common practice, no source).
 */
export async function holdReserve() {
  try {
    const cache = await caches.open(RESERVE);
    if (!(await cache.match(RESERVE))) await cache.put(RESERVE, new Response(new Uint8Array(RESERVE_BYTES)));
    return true;
  } catch {
    return false;
  }
}

const dropReserve = async () => (await globalThis.caches?.open(RESERVE))?.delete(RESERVE);

/** Machine histories go next: they come again whole with the next pull that brings something. */
const dropHistories = () => transact(["machines"], "readwrite", (tx) => tx.objectStore("machines").clear());

/** Then entries of others in calls nothing was written to here; they are read anew. Nothing is put, which a full store would refuse. */
export const dropPulled = () =>
  transact(["entries", "meta"], "readwrite", async (tx) => {
    const rows = await tx.objectStore("entries").getAll();
    const needed = new Set(rows.filter((row) => row.own || row.cursor === null).map((row) => row.call));
    const spare = rows.filter((row) => row.call && !needed.has(row.call));
    await Promise.all(spare.map((row) => tx.objectStore("entries").delete(row.id)));
    await tx.objectStore("meta").delete("cursor");
  });

/** For what was made here. */
const ALL = [dropReserve, dropHistories, dropPulled];
/** Where what was pulled must stay, because the server may lack it. */
export const BUT_PULLED = [dropReserve, dropHistories];
/** For what the server sends: dropping what it sent before would have it read from the beginning without end. */
export const HISTORIES = [dropHistories];

/**
 * One writing transaction. As often as there is no room for it, the next of these means frees some, and it is tried anew.
 * @param {string[]} stores
 * @param {(tx: any) => any} work
 * @param {(() => Promise<any>)[]} [means] what may go for it, in this order
 */
export async function write(stores, work, means = ALL) {
  for (const free of means) {
    try {
      return await transact(stores, "readwrite", work);
    } catch (error) {
      if (error?.name !== "QuotaExceededError") throw error;
    }
    tellFull();
    await free().catch(() => {});
  }
  return transact(stores, "readwrite", work);
}

/** Ask the browser not to clear this page's store; "granted", "refused" or "unknown". */
export async function askToPersist() {
  try {
    return (await navigator.storage.persist()) ? "granted" : "refused";
  } catch {
    return "unknown";
  }
}

/** Bytes left, or null where the browser will not say. */
export async function spaceLeft() {
  try {
    const { quota, usage } = await navigator.storage.estimate();
    return quota - usage;
  } catch {
    return null;
  }
}
