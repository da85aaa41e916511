// The log folded into things: each named by its first entry, with what corrections and retractions made of it.
// For lists and forms only; what is judged is composed by the engine.

/**
 * @param {Row[]} rows
 * @returns {Map<string, any>} things by the id of their first entry
 */
export function fold(rows) {
  const sorted = [...rows].sort(inOrder);
  const things = new Map();
  const rootOf = new Map();
  for (const row of sorted) {
    if (row.kind === "retraction") retract(things, rootOf, row);
    else if (row.entry.base.length === 0) addThing(things, rootOf, row);
    else correct(things, rootOf, row);
  }
  return things;
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

function addThing(things, rootOf, row) {
  const setBy = Object.fromEntries(Object.keys(row.entry.body).map((key) => [key, row.id]));
  things.set(row.id, { id: row.id, kind: row.kind, call: row.call, body: { ...row.entry.body }, rows: [row], setBy, above: new Map([[row.id, new Set()]]), retracted: false });
  rootOf.set(row.id, row.id);
}

function correct(things, rootOf, row) {
  const thing = things.get(rootOf.get(row.entry.base[0]));
  if (!thing) return;
  const replaced = new Set(row.entry.base.flatMap((id) => [id, ...(thing.above.get(id) ?? [])]));
  thing.above.set(row.id, replaced);
  rootOf.set(row.id, thing.id);
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

function retract(things, rootOf, row) {
  const thing = things.get(rootOf.get(row.entry.body.of) ?? row.entry.body.of);
  if (thing) thing.retracted = true;
}

/** Things of one kind that still stand, in order. */
export const standing = (things, kind) => [...things.values()].filter((thing) => thing.kind === kind && !thing.retracted);
