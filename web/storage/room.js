// Space on a phone is lent: ask to keep it, and know what may go when it runs out. The outbox never does.
import { transact } from "./database.js";

/** @type {() => void} */
let tellFull = () => {};
export function onFull(listener) {
  tellFull = listener;
}

/** Free what the server can send again: machine histories first, then entries of others in calls nothing was written to here. */
export async function makeRoom() {
  tellFull();
  await transact(["machines"], "readwrite", (tx) => tx.objectStore("machines").clear());
  await transact(["entries", "meta"], "readwrite", async (tx) => {
    const rows = await tx.objectStore("entries").getAll();
    const needed = new Set(rows.filter((row) => row.own || row.cursor === null).map((row) => row.call));
    const spare = rows.filter((row) => row.call && !needed.has(row.call));
    await Promise.all(spare.map((row) => tx.objectStore("entries").delete(row.id)));
    await tx.objectStore("meta").put(0, "cursor");
  });
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
