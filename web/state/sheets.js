// Everything that is written down besides readings: which fields a sheet has, and the entry body it becomes. Pure.
import { stamp } from "./entries.js";

const DEVICES = (words) => words.devices.map(({ device, text }) => ({ value: device, text }));
const ACTIONS = (words) => words.actions.map(({ action, text }) => ({ value: action, text }));
const plain = (list) => list.map((value) => ({ value, text: "" }));
const GROUNDINGS = (words) => plain(words.groundings);
const PLACED = new Set(["valve_moved", "setting_changed", "leads_rolled", "part_fitted"]);

/**
 * One field: `choices` for taps, `number` and `time` for their keyboards, text otherwise; `when` shows it only then.
 * @typedef {{name: string, choices?: (words: any) => {value: any, text: string}[], number?: boolean, time?: boolean, must?: boolean | ((values: any) => boolean), unit?: string, when?: (values: any) => boolean, suggest?: string}} SheetField
 * @type {Record<string, {kind: string, own?: boolean, fields: SheetField[]}>}
 */
export const SHEETS = {
  event: {
    kind: "event",
    fields: [
      { name: "device", choices: DEVICES, must: true },
      { name: "what", choices: (words) => plain(words.events), must: true },
      { name: "at", time: true },
      { name: "motor_ran", choices: () => plain([true, false]), when: ({ what }) => what === "trip" || what === "alarm" },
      { name: "by", suggest: "who", when: ({ what }) => what === "reset" },
      { name: "text" },
    ],
  },
  action: {
    kind: "action",
    fields: [
      { name: "kind", choices: ACTIONS, must: true },
      { name: "what", must: true },
      { name: "before", must: needsBoth, when: ({ kind }) => PLACED.has(kind) },
      { name: "after", must: needsBoth, when: ({ kind }) => PLACED.has(kind) },
    ],
  },
  line: {
    kind: "line",
    fields: [
      { name: "kind", choices: () => plain(["part", "labour", "travel", "quote"]), must: true },
      { name: "what", must: true },
      { name: "quantity", number: true },
    ],
  },
  override: { kind: "override", fields: [{ name: "reason", must: true }] },
  meter: {
    kind: "meter",
    own: true,
    fields: [
      { name: "name", must: true },
      { name: "kind", choices: () => plain(["multimeter", "clamp", "megohmmeter", "ohmmeter", "gauge", "thermometer"]), must: true },
      { name: "serial" },
      { name: "resolution", number: true },
      { name: "percent", number: true },
      { name: "counts", number: true },
    ],
  },
  site: {
    kind: "site",
    own: true,
    fields: [
      { name: "name", must: true },
      { name: "address" },
      { name: "nominal_voltage", number: true, unit: "V" },
      { name: "grounding", choices: GROUNDINGS },
      { name: "contact" },
    ],
  },
  machine: {
    kind: "machine",
    own: true,
    fields: [
      { name: "tag", must: true },
      { name: "rack" },
      { name: "model" },
      { name: "serial" },
      { name: "type", choices: (words) => plain(words.types) },
      { name: "refrigerant", choices: (words) => plain(words.refrigerants) },
      { name: "start", choices: (words) => plain(words.starts) },
      { name: "application", choices: () => plain(["low", "medium", "high"]) },
      ...numbers("V", "rated_voltage", "coil_voltage"),
      ...numbers("A", "rated_load_current", "max_continuous_current", "locked_rotor_current", "overload_setting"),
      ...numbers("Hz", "rated_frequency"),
      ...numbers("ohm", "winding_resistance_25c"),
    ],
  },
  signature: { kind: "signature", fields: [{ name: "who", must: true }, { name: "role", suggest: "role" }] },
};

/** A setting or a valve told by halves stays an open item. */
function needsBoth({ kind }) {
  return kind === "setting_changed" || kind === "valve_moved";
}

function numbers(unit, ...names) {
  return names.map((name) => ({ name, number: true, unit }));
}

export const fieldsShown = (name, values) => SHEETS[name].fields.filter((field) => !field.when || field.when(values));

/** A number as the pad or a keyboard of any land gives it, with a point; null when it is none. */
export function numberOf(text) {
  const clean = String(text).trim().replace(",", ".");
  return /^-?\d+(\.\d+)?$/.test(clean) ? clean : null;
}

/** Names of fields that are missing or no number. */
export function faultsOf(name, values) {
  return fieldsShown(name, values)
    .filter((field) => (blank(values[field.name]) ? isAsked(field, values) : field.number && numberOf(values[field.name]) === null))
    .map((field) => field.name);
}

/** @param {{must?: any}} field @param {any} values */
export const isAsked = ({ must = false }, values) => (typeof must === "function" ? must(values) : must);

const blank = (value) => value === undefined || value === null || value === "";

/** What was filled in, numbers as numbers; what is blank is absent. */
function filled(name, values) {
  const given = fieldsShown(name, values).filter((field) => !blank(values[field.name]));
  return Object.fromEntries(given.map((field) => [field.name, field.number ? Number(numberOf(values[field.name])) : trimmed(values[field.name])]));
}

const trimmed = (value) => (typeof value === "string" ? value.trim() : value);

/**
 * The body of the entry. `fixed` holds what the sheet was opened with beside its fields (closes, gate, site …).
 * @param {string} name @param {Record<string, any>} values @param {Record<string, any>} fixed
 */
export function bodyOf(name, values, fixed = {}) {
  const body = { ...fixed, ...filled(name, values) };
  return SHAPES[name] ? SHAPES[name](body) : body;
}

const SHAPES = {
  event: ({ at, ...body }) => (at || body.what === "start" || body.what === "reset" ? { ...body, at: momentOf(at) } : body),
  action: (body) => ({ ...body, at: stamp() }),
  site({ nominal_voltage, grounding, ...body }) {
    const supply = { ...(nominal_voltage && { nominal_voltage }), ...(grounding && { grounding }) };
    return Object.keys(supply).length ? { ...body, supply } : body;
  },
  meter({ percent, counts, ...body }) {
    return percent === undefined && counts === undefined ? body : { ...body, points: accuracy(body.kind, { ...(percent !== undefined && { percent }), ...(counts !== undefined && { counts }) }) };
  },
};

const MEASURES = {
  clamp: ["running_current", "start_current", "half_current", "fan_current", "heater_current"],
  multimeter: ["line_voltage", "load_voltage", "line_ground_voltage", "coil_voltage", "control_voltage", "pole_drop", "fuse_drop", "winding_resistance"],
  megohmmeter: ["insulation_resistance", "cable_insulation_resistance"],
  ohmmeter: ["winding_resistance"],
  gauge: ["suction_pressure", "discharge_pressure", "pump_pressure", "crankcase_pressure", "liquid_pressure"],
  thermometer: ["suction_temperature", "discharge_temperature", "liquid_temperature", "sump_temperature", "ambient_temperature"],
};

const accuracy = (kind, stated) => Object.fromEntries((MEASURES[kind] ?? []).map((point) => [point, stated]));

/** "01:14" of today, or of yesterday when that hour is still to come; any other text as a moment. */
export function momentOf(text, now = new Date()) {
  const clock = /^(\d{1,2}):(\d{2})$/.exec(text ?? "");
  if (!clock) return text || stamp(now);
  const moment = new Date(now);
  moment.setHours(Number(clock[1]), Number(clock[2]), 0, 0);
  if (moment > now) moment.setDate(moment.getDate() - 1);
  return stamp(moment);
}
