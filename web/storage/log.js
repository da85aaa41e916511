// The log on this phone: entries kept, the outbox of what the server still lacks, and what it refused.
import { transact } from "./database.js";
import { makeRoom } from "./room.js";

const LOG = ["entries", "outbox", "meta"];
const KEPT = [...LOG, "photos"];

/**
 * Keep entries: log, outbox and their photos in one strict transaction. Resolves once they are safe on this phone.
 * @param {Entry[]} entries
 * @param {Photo[]} [photos]
 * @returns {Promise<Row[]>}
 */
export async function keep(entries, photos = []) {
  try {
    return await keepOnce(entries, photos);
  } catch (error) {
    if (error?.name !== "QuotaExceededError") throw error;
    await makeRoom();
    return keepOnce(entries, photos);
  }
}

const keepOnce = (entries, photos) =>
  transact(photos.length ? KEPT : LOG, "readwrite", async (tx) => {
    for (const photo of photos) await tx.objectStore("photos").put(photo);
    const rows = [];
    for (const entry of entries) {
      const order = await tx.objectStore("outbox").add({ id: entry.id, device: entry.device, author: entry.author });
      const row = { ...rowOf(entry, order), own: true };
      await tx.objectStore("entries").put(row);
      rows.push(row);
    }
    return rows;
  });

/** @returns {Row} */
export function rowOf(entry, order, seen = 0) {
  const { cursor = null, received_at: _received, ...made } = entry;
  return { id: entry.id, call: entry.call, kind: entry.kind, machine: entry.body.machine ?? null, cursor, order, own: false, seen, entry: made };
}

export const rowsOfCall = (call) =>
  transact(["entries"], "readonly", (tx) => tx.objectStore("entries").index("call").getAll(call));

/** Rows of some kinds, whatever their call. */
export const rowsOfKinds = (kinds) =>
  transact(["entries"], "readonly", async (tx) => {
    const index = tx.objectStore("entries").index("kind");
    return (await Promise.all(kinds.map((kind) => index.getAll(kind)))).flat();
  });

/** The oldest waiting entries this sign-in may send, at most `limit`, in the order they were made. */
export const waiting = (mine, limit) =>
  transact(["entries", "outbox"], "readonly", async (tx) => {
    const marks = (await tx.objectStore("outbox").getAll()).filter(mine);
    const rows = await Promise.all(marks.slice(0, limit).map((mark) => tx.objectStore("entries").get(mark.id)));
    return rows.filter(Boolean).map((row) => row.entry);
  });

/** Ids not yet on the server, by device. */
export const waitingMarks = () => transact(["outbox"], "readonly", (tx) => tx.objectStore("outbox").getAll());

export const refusedEntries = () => transact(["refused"], "readonly", (tx) => tx.objectStore("refused").getAll());

/**
 * Act on the server's answers, one by one; an entry without an answer stays in the outbox. Resolves with how many left it.
 * @param {{id: string, status: string, cursor?: number, code?: string, detail?: string, remedy?: string}[]} answers
 */
export const settle = (answers) =>
  transact(["entries", "outbox", "refused"], "readwrite", async (tx) => {
    let left = 0;
    for (const answer of answers) {
      const row = await tx.objectStore("entries").get(answer.id);
      if (!row) continue;
      if (answer.status === "refused") await setAside(tx, row, answer);
      else if (answer.status !== "accepted" && answer.status !== "repeated") continue;
      else await tx.objectStore("entries").put({ ...row, cursor: answer.cursor ?? row.cursor });
      await unmark(tx, answer.id);
      left += 1;
    }
    return left;
  });

/** @param {any} tx @param {Row} row @param {any} answer */
const setAside = (tx, row, { code, detail, remedy }) =>
  tx.objectStore("refused").put({ id: row.id, code, detail, remedy, at: new Date().toISOString(), entry: row.entry });

async function unmark(tx, id) {
  const order = await tx.objectStore("outbox").index("id").getKey(id);
  if (order !== undefined) await tx.objectStore("outbox").delete(order);
}

/** Put a refused entry back in the outbox, unchanged. */
export const sendAgain = (id) =>
  transact(["outbox", "refused"], "readwrite", async (tx) => {
    const refused = await tx.objectStore("refused").get(id);
    await tx.objectStore("refused").delete(id);
    if (refused) await mark(tx, refused.entry);
  });

/** Another epoch: the server is another log, so all that was made here or sealed by it is offered again. */
export const sendAllAgain = (device, epoch) =>
  transact(LOG, "readwrite", async (tx) => {
    const rows = await tx.objectStore("entries").getAll();
    for (const row of rows.sort((a, b) => a.order - b.order)) {
      await tx.objectStore("entries").put({ ...row, cursor: null });
      if (row.entry.seal || row.entry.device === device) await mark(tx, row.entry, device);
    }
    await tx.objectStore("meta").put(epoch, "epoch");
    await tx.objectStore("meta").put(0, "cursor");
  });

async function mark(tx, entry, device = entry.device) {
  const known = await tx.objectStore("outbox").index("id").getKey(entry.id);
  if (known === undefined) await tx.objectStore("outbox").add({ id: entry.id, device, author: entry.author });
}
