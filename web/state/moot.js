// What the first answers made pointless to ask, each with its reason (a key of words.moot); "" for what stands.
import { readingsOf } from "./round.js";

const SHAPED = new Set(["drive"]);
const OIL_PUMP = new Set(["pump_pressure", "reservoir_pressure"]);
const NEVER_RAN = new Set(["running_current", "pole_drop", "fuse_drop", "joint_drop", "joint_temperature", "pump_pressure", "half_current", "load_voltage", "start_current", "start_voltage", "start_line_voltage", "unloader_step", "head_temperature"]);
const PUMP_DOWN = new Set(["pump_down_vacuum", "pump_down_rise"]);

/** @param {Point} point @param {any} call @param {string} label */
export function moot(point, call, label) {
  return ofMachine(point, call.plate) || ofCall(point.name, call, label);
}

function ofMachine({ name }, plate) {
  const type = plate.type ?? "";
  if (name.startsWith("drive_") && !SHAPED.has(plate.start)) return "no_drive";
  if (/^gas_cooler|^flash_tank/.test(name) && plate.refrigerant !== "R-744") return "no_co2";
  if (/^half_|^between_halves|^second_half/.test(name) && plate.start !== "part-winding") return "one_winding";
  if (OIL_PUMP.has(name) && (plate.oil_pump === "none" || type.startsWith("welded"))) return "no_oil_pump";
  if (PUMP_DOWN.has(name) && (/screw|scroll/.test(type) || plate.refrigerant === "R-744")) return "no_pump_down";
  if (name.startsWith("injection_") && !plate.injection) return "no_injection";
  return name === "unloader_step" && plate.capacity_steps === 1 ? "no_steps" : "";
}

function ofCall(name, call, label) {
  const turned = call.result?.weighing?.turned;
  if (label === "as_found" && turned === "not" && NEVER_RAN.has(name)) return "never_ran";
  if (name === "trip_delay" && call.complaint !== "oil_trip") return "no_oil_trip";
  if (name === "winding_ground_resistance" && readingsOf(call, label, "insulation_resistance").some(({ body }) => !body.not_taken)) return "insulation_read";
  return "";
}
