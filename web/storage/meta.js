// Small facts of this phone: who is signed in, how far it has read, what was acknowledged.
import { transact } from "./database.js";

export const readMeta = (key) => transact(["meta"], "readonly", (tx) => tx.objectStore("meta").get(key));

export const writeMeta = (key, value) =>
  transact(["meta"], "readwrite", (tx) => tx.objectStore("meta").put(value, key));

/** All small facts as one object. */
export const allMeta = () =>
  transact(["meta"], "readonly", async (tx) => {
    const store = tx.objectStore("meta");
    const [keys, values] = await Promise.all([store.getAllKeys(), store.getAll()]);
    return Object.fromEntries(keys.map((key, i) => [key, values[i]]));
  });
