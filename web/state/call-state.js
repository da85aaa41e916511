// Where a call stands, computed from its log; never written down.

/**
 * @param {any[]} things of one call: its submissions, reviews and decisions, in order
 * @param {number} now milliseconds
 * @returns {"open" | "submitted" | "returned" | "watching" | "accepted" | "closed"}
 */
export function callState(things, now) {
  let state = /** @type {any} */ ("open");
  for (const thing of things) {
    if (thing.kind === "submission") state = "submitted";
    if (thing.kind === "review") state = thing.body.outcome === "returned" ? "returned" : "accepted";
  }
  return state === "accepted" ? afterAccepting(things, now) : state;
}

function afterAccepting(things, now) {
  const until = things.findLast((thing) => thing.kind === "decision")?.body.watch_until;
  if (!until) return "accepted";
  return Date.parse(until) > now ? "watching" : "closed";
}

/** The note of the last review, while the call is returned. */
export function returnNote(things) {
  const last = things.findLast((thing) => thing.kind === "review" || thing.kind === "submission");
  return last?.kind === "review" && last.body.outcome === "returned" ? last.body.note ?? "" : null;
}
