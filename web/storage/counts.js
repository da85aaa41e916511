// How much this phone holds.
import { transact } from "./database.js";

/** @param {string[]} stores */
export const countOf = (stores) =>
  transact(stores, "readonly", async (tx) => Object.fromEntries(await Promise.all(stores.map(async (name) => [name, await tx.objectStore(name).count()]))));
