// The log on this phone: entries kept, the outbox of what the server still lacks, and what it refused.
import { transact } from "./database.js";
import { BUT_PULLED, write } from "./room.js";

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
    if (error?.name === "ConstraintError") return keptBefore(entries, error);
    throw error;
  }
}

const keepOnce = (entries, photos) =>
  write(photos.length ? KEPT : LOG, async (tx) => {
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

/** The browser lost the connection while it committed: what is there already was kept after all. */
async function keptBefore(entries, error) {
  const rows = await transact(["entries"], "readonly", (tx) => Promise.all(entries.map(({ id }) => tx.objectStore("entries").get(id))));
  if (rows.some((row) => row === undefined)) throw error;
  return rows;
}

/** @returns {Row} */
export function rowOf(entry, order, seen = 0) {
  const { cursor = null, received_at: _received, ...made } = entry;
  return { id: entry.id, call: entry.call, kind: entry.kind, machine: entry.body.machine ?? null, cursor, order, own: false, seen, entry: made };
}

/** The entries of a call: what the server has in its order, then what it lacks in the order it was made. */
export const rowsOfCall = async (call) =>
  (await transact(["entries"], "readonly", (tx) => tx.objectStore("entries").index("call").getAll(call))).sort(inOldOrder);

/** Rows of some kinds, whatever their call. */
export const rowsOfKinds = (kinds) =>
  transact(["entries"], "readonly", async (tx) => {
    const index = tx.objectStore("entries").index("kind");
    return (await Promise.all(kinds.map((kind) => index.getAll(kind)))).flat();
  });

/** The oldest waiting entries this sign-in may send, at most `limit`, in the order they were made. */
export const waiting = (mine, limit) =>
  transact(["entries", "outbox"], "readonly", async (tx) => {
    const marks = await tx.objectStore("outbox").getAll();
    const others = new Set(marks.filter((mark) => !mine(mark)).map((mark) => mark.id));
    const found = [];
    for (const mark of marks.filter(mine)) {
      const row = found.length < limit && (await tx.objectStore("entries").get(mark.id));
      if (row && leansOn(row.entry, others)) others.add(mark.id);
      else if (row) found.push(row.entry);
    }
    return found;
  });

/** Whether an entry names one of these; it waits with what another sign-in on this phone has still to send. */
const leansOn = (entry, ids) => ids.size > 0 && [entry.call, ...entry.base, ...Object.values(entry.body)].some((one) => ids.has(one) && one !== entry.id);

/** Ids not yet on the server, by device. */
export const waitingMarks = () => transact(["outbox"], "readonly", (tx) => tx.objectStore("outbox").getAll());

export const refusedEntries = () => transact(["refused"], "readonly", (tx) => tx.objectStore("refused").getAll());

/**
 * Act on the server's answers, one by one; an entry without an answer stays in the outbox. Resolves with how many left it,
 * or with null when this phone meanwhile stands by another log than the one that answered.
 * @param {{id: string, status: string, cursor?: number, code?: string, detail?: string, remedy?: string, errors?: any[]}[]} answers
 * @param {string} epoch of the log that answered: from now on this phone notices another one
 */
export const settle = (answers, epoch) =>
  write([...LOG, "refused"], async (tx) => {
    if (await isOther(tx, epoch)) return null;
    let left = 0;
    for (const answer of answers) {
      const row = await tx.objectStore("entries").get(answer.id);
      if (!row) continue;
      if (answer.status === "refused") await setAside(tx, row, answer);
      else if (answer.status !== "accepted" && answer.status !== "repeated") continue;
      else await arrived(tx, row, answer);
      await unmark(tx, answer.id);
      left += 1;
    }
    await tx.objectStore("meta").put(epoch, "epoch");
    return left;
  });

export const isOther = async (tx, epoch) => ((await tx.objectStore("meta").get("epoch")) ?? epoch) !== epoch;

/** @param {any} tx @param {Row} row @param {{cursor?: number}} answer */
async function arrived(tx, row, { cursor }) {
  await tx.objectStore("entries").put({ ...row, cursor: cursor ?? row.cursor });
  await tx.objectStore("refused").delete(row.id);
}

/** What the server has already is not refused: another tab was quicker. @param {any} tx @param {Row} row @param {any} answer */
async function setAside(tx, row, { code, detail, remedy, errors = [] }) {
  if (row.cursor !== null && code !== "id_reused") return;
  await tx.objectStore("refused").put({ id: row.id, code, detail, remedy, errors, at: new Date().toISOString(), entry: row.entry });
}

export async function unmark(tx, id) {
  const order = await tx.objectStore("outbox").index("id").getKey(id);
  if (order !== undefined) await tx.objectStore("outbox").delete(order);
}

/**
 * Offer a refused entry again, as it is or with a corrected body, and with it what was refused only for leaning on it.
 * The server never took it, so it keeps its id; but one whose id is taken gets a new one.
 */
export const sendAgain = (id, body = null, newId = id) =>
  write([...LOG, "refused"], async (tx) => {
    const refused = await tx.objectStore("refused").get(id);
    if (!refused) return;
    const { entry } = refused;
    await offer(tx, { ...entry, id: newId, call: entry.call === id ? newId : entry.call, body: body ?? entry.body }, id);
    for (const other of await leaning(tx)) await offer(tx, other.entry, other.id);
  });

/** What was refused only because it names what the server lacks, in the order it was made. */
async function leaning(tx) {
  const refused = (await tx.objectStore("refused").getAll()).filter((one) => one.code === "missing_reference");
  const rows = await Promise.all(refused.map(({ id }) => tx.objectStore("entries").get(id)));
  const orders = new Map(rows.map((row) => [row?.id, row?.order ?? Infinity]));
  return refused.sort((a, b) => orders.get(a.id) - orders.get(b.id));
}

async function offer(tx, entry, id) {
  const row = await tx.objectStore("entries").get(id);
  if (entry.id !== id) {
    if (row?.cursor === null) await tx.objectStore("entries").delete(id);
    await tx.objectStore("meta").put(0, "cursor"); // what the server has by that id is read anew
  }
  await tx.objectStore("refused").delete(id);
  await unmark(tx, entry.id);
  const order = await mark(tx, entry, entry.device);
  await tx.objectStore("entries").put({ ...rowOf(entry, order), own: true });
}

/** Another epoch: the server is another log, so all that was made here or sealed by it is offered again, in the old order. */
export const sendAllAgain = (device, epoch) =>
  write([...LOG, "refused"], async (tx) => {
    const rows = await tx.objectStore("entries").getAll();
    await Promise.all([tx.objectStore("outbox").clear(), tx.objectStore("refused").clear()]);
    for (const row of rows.sort(inOldOrder)) {
      const order = await mark(tx, row.entry, row.entry.seal ? device : row.entry.device);
      await tx.objectStore("entries").put({ ...row, cursor: null, order });
    }
    const meta = tx.objectStore("meta");
    await Promise.all([meta.put(epoch, "epoch"), meta.put(0, "cursor")]);
  }, BUT_PULLED);

const inOldOrder = (a, b) => (a.cursor ?? Infinity) - (b.cursor ?? Infinity) || a.order - b.order;

const mark = (tx, entry, device) => tx.objectStore("outbox").add({ id: entry.id, device, author: entry.author });
