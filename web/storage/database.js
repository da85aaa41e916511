// The phone's own store: opened once, reopened once when the browser loses it, never silent about failure.
import { openDB } from "../vendor/idb/index.js";

const NAME = "rackside";
const VERSION = 1;
const LOST = new Set(["UnknownError", "InvalidStateError", "AbortError"]);

/** @type {Promise<any> | null} */
let opening = null;
/** @type {(trouble: string) => void} */
let tell = () => {};

/** Say who hears of trouble with the store: "blocked", "replaced", "closed". */
export function onTrouble(listener) {
  tell = listener;
}

function open() {
  opening ??= openDB(NAME, VERSION, {
    upgrade: createStores,
    blocked: () => tell("blocked"),
    blocking: giveWay,
    terminated: () => {
      opening = null;
      tell("closed");
    },
  }).catch((error) => {
    opening = null;
    if (error?.name === "VersionError") tell("replaced");
    throw error;
  });
  return opening;
}

function createStores(db, oldVersion) {
  if (oldVersion >= 1) return;
  const entries = db.createObjectStore("entries", { keyPath: "id" });
  entries.createIndex("call", "call");
  entries.createIndex("kind", "kind");
  db.createObjectStore("outbox", { keyPath: "order", autoIncrement: true }).createIndex("id", "id", { unique: true });
  db.createObjectStore("refused", { keyPath: "id" });
  db.createObjectStore("machines", { keyPath: "id" });
  db.createObjectStore("photos", { keyPath: "sha256" });
  db.createObjectStore("meta");
}

function giveWay(_current, _blocked, event) {
  event.target.close();
  opening = null;
  tell("replaced");
}

/**
 * Run one transaction; its promise fulfils only after the browser says "complete".
 * @param {string[]} stores
 * @param {"readonly" | "readwrite"} mode
 * @param {(tx: any) => any} work
 */
export async function transact(stores, mode, work) {
  const connection = open();
  try {
    return await runOnce(connection, stores, mode, work);
  } catch (error) {
    if (!LOST.has(error?.name)) throw error;
    forget(connection);
    return runOnce(open(), stores, mode, work);
  }
}

/** Give up a connection; the one that another transaction has opened meanwhile stays. */
function forget(connection) {
  if (opening !== connection) return;
  opening = null;
  connection.then((db) => db.close(), () => {});
}

async function runOnce(connection, stores, mode, work) {
  const db = await connection;
  const tx = db.transaction(stores, mode, { durability: "strict" });
  const done = tx.done;
  done.catch(() => {});
  try {
    const answer = await work(tx);
    await done;
    return answer;
  } catch (error) {
    abort(tx);
    throw tx.error ?? error;
  }
}

function abort(tx) {
  try {
    tx.abort();
  } catch {
    // Already finished: nothing of it was kept.
  }
}
