// Sites, machines, meters and calls as lists, made from the rows this phone holds.
import { callState, returnNote } from "./call-state.js";
import { fold, standing } from "./fold.js";

export const REGISTER_KINDS = ["site", "machine", "meter", "call", "submission", "review", "decision", "retraction"];
const STEPS = new Set(["submission", "review", "decision"]);

/** @param {Row[]} rows @param {number} now */
export function registerOf(rows, now) {
  const things = fold(rows);
  const plain = (kind) => standing(things, kind).map(({ id, body }) => ({ id, ...body }));
  const machines = plain("machine");
  return {
    sites: plain("site"),
    machines: machines.sort(byPlace),
    meters: plain("meter"),
    calls: standing(things, "call").map((call) => summaryOf(call, things, machines, now)).sort(newestFirst),
  };
}

function summaryOf(call, things, machines, now) {
  const steps = [...things.values()].filter((thing) => thing.call === call.id && STEPS.has(thing.kind) && !thing.retracted);
  const machine = machines.find((one) => one.id === call.body.machine);
  return { id: call.id, ...call.body, tag: machine?.tag ?? "?", site: machine?.site ?? null, state: callState(steps, now), note: returnNote(steps) };
}

const byPlace = (a, b) => `${a.rack ?? ""}${a.tag}`.localeCompare(`${b.rack ?? ""}${b.tag}`, undefined, { numeric: true });
const newestFirst = (a, b) => Date.parse(b.opened_at ?? 0) - Date.parse(a.opened_at ?? 0);
