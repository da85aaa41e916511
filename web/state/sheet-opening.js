// What a sheet starts with: nothing that is already known is asked again.
import { actionsOf } from "./job.js";
import { SHEETS } from "./sheets.js";

/** The action that closes each opening one. */
export const CLOSES = { jumper_on: "jumper_off", lead_lifted: "lead_restored", leads_rolled: "leads_rolled", valve_moved: "valve_moved", setting_changed: "setting_changed" };
const BACK = new Set(["leads_rolled", "valve_moved"]);

/**
 * @param {string} name @param {string} arg from the address
 * @param {import("./actions.js").State} state
 * @returns {{values: Record<string, any>, fixed: Record<string, any>, corrects?: string, about?: string}}
 */
export const openingOf = (name, arg, state) => (OPENINGS[name] ?? nothing)(arg, state);

const nothing = () => ({ values: {}, fixed: {} });
const DEVICE_OF = { oil_trip: "oil_control", overload_trip: "overload", breaker_trip: "breaker", protector_trip: "module", high_pressure_trip: "high_pressure", high_discharge_temperature: "head_temperature", phase_alarm: "phase_monitor" };

const OPENINGS = {
  event: (what, { call }) => ({ values: { what: what || "trip", device: DEVICE_OF[call.complaint] }, fixed: {} }),
  action: (arg, state) => (arg.startsWith("close~") ? closing(arg.slice(6), state) : { values: { kind: arg || undefined }, fixed: {} }),
  override(arg, state) {
    const [gate, need] = arg.split("~");
    const held = state.call.result?.gates[gate];
    const about = [...(held?.unmet ?? []), ...(held?.blocks ?? [])].find((one) => (one.need ?? one.block) === need)?.text ?? need;
    return { values: {}, fixed: { gate, need }, about };
  },
  machine: (arg, state) => (arg === "plate" ? plateOf(state) : { values: { type: "semi-hermetic-reciprocating", start: "across-the-line", rated_frequency: "60" }, fixed: { site: arg } }),
  signature: (_arg, state) => ({ values: { who: state.call.signer ?? "" }, fixed: {} }),
};

function closing(id, { call }) {
  const opened = actionsOf(call).find((action) => action.id === id)?.body ?? {};
  const turned = BACK.has(opened.kind) ? { before: opened.after, after: opened.before } : { before: opened.before };
  return { values: { kind: CLOSES[opened.kind], what: opened.what, ...turned }, fixed: { closes: id } };
}

function plateOf({ call }) {
  const known = SHEETS.machine.fields.filter(({ name }) => call.plate[name] !== undefined);
  const text = (value) => (typeof value === "number" ? String(value) : value);
  return { values: Object.fromEntries(known.map(({ name }) => [name, text(call.plate[name])])), fixed: {}, corrects: call.machine };
}
