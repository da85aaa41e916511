// The log folded into things: each named by its first entry, with what corrections and retractions made of it.
// For lists and forms only; what is judged is composed by the engine.

/**
 * @param {Row[]} rows
 * @returns {Map<string, any>} things by the id of their first entry
 */
export function fold(rows) {
  const sorted = [...rows].sort(inOrder);
  const withdrawn = withdrawnIn(sorted);
  const things = new Map();
  const rootOf = new Map();
  for (const row of sorted) {
    if (row.kind === "retraction") continue;
    if (row.entry.base.length === 0) addThing(things, rootOf, row, withdrawn.has(row.id));
    else correct(things, rootOf, row, withdrawn.has(row.id));
  }
  return things;
}

/** What was taken back, by retractions that were not taken back themselves: a first entry takes the thing along, a correction only itself. */
function withdrawnIn(rows) {
  const retractions = rows.filter((row) => row.kind === "retraction");
  const taken = new Set(retractions.map((row) => row.entry.body.of));
  return new Set(retractions.filter((row) => !taken.has(row.id)).map((row) => row.entry.body.of));
}

/**
 * The server's counter decides; what it has not yet counted comes after, in the order it was made here.
 * @param {Row} a @param {Row} b
 */
export function inOrder(a, b) {
  if (a.cursor === b.cursor) return a.order - b.order;
  if (a.cursor === null) return 1;
  return b.cursor === null ? -1 : a.cursor - b.cursor;
}

function addThing(things, rootOf, row, retracted) {
  const setBy = Object.fromEntries(Object.keys(row.entry.body).map((key) => [key, row.id]));
  things.set(row.id, { id: row.id, kind: row.kind, call: row.call, body: { ...row.entry.body }, rows: [row], setBy, above: new Map([[row.id, new Set()]]), retracted });
  rootOf.set(row.id, row.id);
}

function correct(things, rootOf, row, withdrawn) {
  const thing = things.get(rootOf.get(row.entry.base[0]));
  if (!thing) return;
  const replaced = new Set(row.entry.base.flatMap((id) => [id, ...(thing.above.get(id) ?? [])]));
  thing.above.set(row.id, replaced);
  rootOf.set(row.id, thing.id);
  if (withdrawn) return;
  thing.rows.push(row);
  for (const [key, value] of Object.entries(row.entry.body)) setMember(thing, row.id, replaced, key, value);
}

/** The earlier of two corrections that did not know each other stands. */
function setMember(thing, by, replaced, key, value) {
  const setter = thing.setBy[key];
  if (setter && !replaced.has(setter)) return;
  thing.setBy[key] = by;
  if (value === null) delete thing.body[key];
  else thing.body[key] = value;
}

/** Things of one kind that still stand, in order. */
export const standing = (things, kind) => [...things.values()].filter((thing) => thing.kind === kind && !thing.retracted);
