// What else a reading needs to be worth something later: the conditions asked beside the digits, by point.

const LEADS = { name: "leads", values: ["on", "off"] };
const WINDING = { key: "winding_temperature", unit: "F" };
const PROBE = { name: "probe", values: ["clamp", "insulated_clamp", "well", "infrared"] };
const CAUGHT = { name: "capture", values: ["inrush", "min_max", "peak"] };
const SAME_START = { name: "same_start", values: [true, false] };
const TEST_VOLTS = { key: "test_voltage", unit: "V" };
const SINCE_START = { key: "since_start", unit: "s" };

/** @type {Record<string, {choices?: {name: string, values: any[]}[], fields?: {key: string, unit: string}[]}>} */
const BY_POINT = {
  insulation_resistance: { choices: [LEADS], fields: [WINDING, TEST_VOLTS, { key: "at_30s", unit: "" }] },
  cable_insulation_resistance: { fields: [TEST_VOLTS] },
  winding_resistance: { choices: [LEADS], fields: [WINDING, { key: "lead_zero", unit: "" }] },
  half_winding_resistance: { choices: [LEADS], fields: [WINDING] },
  winding_ground_resistance: { choices: [LEADS] },
  start_current: { choices: [SAME_START, CAUGHT], fields: [{ key: "duration", unit: "s" }] },
  start_voltage: { choices: [SAME_START, CAUGHT] },
  start_line_voltage: { choices: [{ name: "where", values: ["source", "disconnect", "contactor"] }] },
  running_current: { choices: [{ name: "load", values: ["full", "unloaded"] }, { name: "roll", values: [0, 1, 2] }] },
  coil_voltage: { choices: [{ name: "called", values: [true, false] }, { name: "moment", values: ["pull_in", "sealed"] }] },
  control_chain: { choices: [{ name: "method", values: ["to_return", "across"] }] },
  pump_pressure: { fields: [SINCE_START] },
  crankcase_pressure: { fields: [SINCE_START] },
  suction_temperature: { choices: [PROBE] },
  discharge_temperature: { choices: [PROBE], fields: [SINCE_START] },
  line_voltage: { choices: [{ name: "where", values: ["source", "disconnect", "contactor"] }] },
  liquid_temperature: { choices: [PROBE] },
};

/** What holds for the next point too; the rest is carried to the same point alone, and what changes by itself never. */
const HOLDS = new Set(["leads", "probe", "capture", "same_start", "load"]);
const PASSING = new Set(["roll", "moment", "where"]);
export const isCarried = (name, same) => HOLDS.has(name) || (same && !PASSING.has(name));

export const choicesOf = (point) => BY_POINT[point]?.choices ?? [];
export const measuredOf = (point) => BY_POINT[point]?.fields ?? [];
