// Sites, machines, meters and calls as lists, made from the rows this phone holds.
import { callState, returnNote } from "./call-state.js";
import { clashesOf } from "./clashes.js";
import { fold, standing } from "./fold.js";

export const REGISTER_KINDS = ["site", "machine", "meter", "call", "submission", "review", "decision", "retraction"];
const STEPS = new Set(["submission", "review", "decision"]);

/** @param {Row[]} rows @param {number} now */
export function registerOf(rows, now) {
  const things = fold(rows);
  const plain = (kind) => standing(things, kind).map((thing) => ({ id: thing.id, ...thing.body, clashes: clashesOf(thing) }));
  const accepted = acceptedOf(things);
  const machines = standing(things, "machine").map((thing) => ({ id: thing.id, ...thing.body, clashes: clashesOf(thing), confirmed: isConfirmed(thing, accepted) }));
  const steps = stepsByCall(things);
  return {
    sites: plain("site"),
    machines: machines.sort(byPlace),
    meters: plain("meter"),
    calls: standing(things, "call").map((call) => summaryOf(call, steps.get(call.id) ?? [], machines, now)).sort(newestFirst),
  };
}

/** The counter at which the office last accepted a thing. */
function acceptedOf(things) {
  const reviews = standing(things, "review").filter(({ body }) => body.outcome === "accepted" && body.of);
  return new Map(reviews.map(({ body, rows }) => [body.of, rows.at(-1).cursor ?? 0]));
}

/** Plate facts count at once; they are confirmed once the office accepted the machine as it now stands. */
const isConfirmed = (thing, accepted) => thing.rows.every(({ cursor }) => cursor !== null && cursor < (accepted.get(thing.id) ?? 0));

/** Submissions, reviews and decisions that stand, in order, by their call. */
function stepsByCall(things) {
  const found = new Map();
  for (const thing of things.values()) {
    if (!STEPS.has(thing.kind) || thing.retracted) continue;
    if (!found.has(thing.call)) found.set(thing.call, []);
    found.get(thing.call).push(thing);
  }
  return found;
}

function summaryOf(call, steps, machines, now) {
  const machine = machines.find((one) => one.id === call.body.machine);
  return { id: call.id, ...call.body, tag: machine?.tag ?? "?", site: machine?.site ?? null, state: callState(steps, now), note: returnNote(steps) };
}

/** Rack and tag, with numbers so written that A10 comes after A9. */
const placeOf = ({ rack, tag }) => `${rack ?? ""}${tag}`.toUpperCase().replace(/\d+/g, (digits) => digits.padStart(9, "0"));
const byPlace = (a, b) => (placeOf(a) < placeOf(b) ? -1 : 1);
const newestFirst = (a, b) => Date.parse(b.opened_at ?? 0) - Date.parse(a.opened_at ?? 0);
