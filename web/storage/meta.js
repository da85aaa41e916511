// Small facts of this phone: who is signed in, how far it has read, what was acknowledged.
import { transact } from "./database.js";
import { BUT_PULLED, write } from "./room.js";

export const readMeta = (key) => transact(["meta"], "readonly", (tx) => tx.objectStore("meta").get(key));

/** Several facts as they are at one moment, in the order asked for. */
export const readFacts = (keys) => transact(["meta"], "readonly", (tx) => Promise.all(keys.map((key) => tx.objectStore("meta").get(key))));

/** Facts are written one after the other, as they were told: one that had to wait for room must not undo a later one. */
let last = Promise.resolve();
function inTurn(work) {
  const done = last.then(work);
  last = done.catch(() => {});
  return done;
}

/** Once all facts told so far are written. */
export const factsWritten = () => last;

export const writeMeta = (key, value) => writeFacts({ [key]: value });

/** Several facts that hold together, or not at all. */
export const writeFacts = (facts) =>
  inTurn(() => write(["meta"], (tx) => Promise.all(Object.entries(facts).map(([key, value]) => tx.objectStore("meta").put(value, key))), BUT_PULLED));

/** Write down what can be found again, where there is room for it; nothing goes for it. */
export const jot = (key, value) => inTurn(() => transact(["meta"], "readwrite", (tx) => tx.objectStore("meta").put(value, key))).catch(() => {});

/** Forget a fact where it is still the one meant; that takes no room. @param {string} key @param {(held: any) => boolean} isIt */
export const forget = (key, isIt) =>
  inTurn(() =>
    transact(["meta"], "readwrite", async (tx) => {
      const held = await tx.objectStore("meta").get(key);
      if (held !== undefined && isIt(held)) await tx.objectStore("meta").delete(key);
    }),
  ).catch(() => {});

/** All small facts as one object. */
export const allMeta = () =>
  transact(["meta"], "readonly", async (tx) => {
    const store = tx.objectStore("meta");
    const [keys, values] = await Promise.all([store.getAllKeys(), store.getAll()]);
    return Object.fromEntries(keys.map((key, i) => [key, values[i]]));
  });
