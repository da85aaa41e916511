import assert from "node:assert/strict";
import { test } from "node:test";
import { changedMembers, fieldsOf, isReady, isShort, newDraft, nextField, readingBody, typed } from "../../web/state/draft.js";

const VOLTS = { name: "line_voltage", kind: "legs", keys: ["L1-L2", "L2-L3", "L3-L1"], units: ["V", "mV"], states: ["stopped", "running"], words: [], low: 0 };
const MEGOHMS = { name: "insulation_resistance", kind: "value", keys: [], units: ["Mohm"], states: ["isolated"], words: [], low: 0 };
const CHAIN = { name: "control_chain", kind: "chain", keys: [], units: ["V"], states: ["stopped"], words: [], low: 0 };
const ABSENCE = { name: "absence_test", kind: "absence", keys: ["L1-L2", "L1-G"], units: ["V"], states: ["isolated"], words: [], low: 0 };
const PLACE = { call: "c", label: "as_found" };

const typeInto = (draft, text) => [...text].reduce(typed, draft);

test("digits stay exactly as typed, and the thumb is led from leg to leg", () => {
  let draft = newDraft(VOLTS, PLACE, null);
  for (const text of ["478", "480.0", "479"]) {
    draft = typeInto(draft, text);
    draft = { ...draft, active: nextField(VOLTS, draft) };
  }
  assert.ok(isReady(VOLTS, draft));
  assert.deepEqual(readingBody(VOLTS, draft, "r", "t"), {
    round: "r", point: "line_voltage", legs: { "L1-L2": "478", "L2-L3": "480.0", "L3-L1": "479" }, unit: "V", state: "stopped", at: "t",
  });
});

test("a reading with a leg missing is not ready, and what is typed so far can still be looked at", () => {
  const draft = typeInto(newDraft(VOLTS, PLACE, null), "478");
  assert.equal(isReady(VOLTS, draft), false);
  assert.deepEqual(readingBody(VOLTS, draft, "r", "t").legs, { "L1-L2": "478" });
});

test("state and meter carry over from the last reading, the unit only from the same point", () => {
  const carried = { point: "pole_drop", unit: "mV", state: "running", meter: "m1" };
  const draft = newDraft(VOLTS, PLACE, carried);
  assert.deepEqual([draft.unit, draft.state, draft.meter], ["V", "running", "m1"]);
  assert.equal(newDraft(VOLTS, PLACE, { ...carried, point: "line_voltage" }).unit, "mV");
});

test("a test locked out does not begin as running after a running reading", () => {
  const capacitor = { ...MEGOHMS, name: "fan_capacitance", units: ["uF"], states: ["running", "isolated"], group: "isolated" };
  assert.equal(newDraft(capacitor, PLACE, { point: "fan_speed", state: "running" }).state, "isolated");
  assert.equal(newDraft(capacitor, PLACE, null, { id: "x", body: { point: "fan_capacitance", state: "running" } }).state, "running");
});

test("conditions are optional fields of their own and go beside the value", () => {
  let draft = typeInto(newDraft(MEGOHMS, PLACE, null), "1100");
  assert.ok(isReady(MEGOHMS, draft));
  draft = typeInto({ ...draft, active: "winding_temperature", choices: { leads: "off" } }, "68");
  assert.deepEqual(readingBody(MEGOHMS, draft, "r", "t"), {
    round: "r", point: "insulation_resistance", value: "1100", winding_temperature: "68", winding_temperature_unit: "F", leads: "off", unit: "Mohm", state: "isolated", at: "t",
  });
});

test("a correction says only what changed; a cleared member is null", () => {
  const first = { round: "r", point: "line_voltage", legs: { "L1-L2": "478" }, unit: "V", meter: "m1", at: "1" };
  assert.deepEqual(changedMembers(first, { ...first, legs: { "L1-L2": "487" }, meter: undefined, at: "2" }), { legs: { "L1-L2": "487" }, meter: null });
});

test("a correction starts from what was typed before", () => {
  const body = { point: "line_voltage", legs: { "L1-L2": "478", "L2-L3": "480", "L3-L1": "479" }, unit: "V", state: "running" };
  const draft = newDraft(VOLTS, PLACE, null, { id: "x", body });
  assert.deepEqual([draft.base, draft.texts["L2-L3"], draft.state], ["x", "480", "running"]);
});

test("a control chain keeps the devices that were measured, in drawing order", () => {
  let draft = newDraft(CHAIN, PLACE, null);
  draft = typeInto({ ...draft, active: "oil control" }, "0.4");
  draft = typeInto({ ...draft, active: "fuse" }, "118");
  assert.deepEqual(readingBody(CHAIN, draft, "r", "t").contacts, [
    { name: "fuse", volts: "118", expected: "closed" },
    { name: "oil control", volts: "0.4", expected: "closed" },
  ]);
});

test("an absence test asks the known source first and last", () => {
  const keys = fieldsOf(ABSENCE, newDraft(ABSENCE, PLACE, null)).map((field) => field.key);
  assert.deepEqual(keys, ["known_source_before", "L1-L2", "L1-G", "known_source_after"]);
});

test("a leg half typed is short of the others until it has as many digits", () => {
  let draft = { ...newDraft(VOLTS, PLACE, null), texts: { "L1-L2": "478", "L2-L3": "480" }, active: "L3-L1" };
  draft = typed(draft, "4");
  assert.equal(isShort(VOLTS, draft), true);
  draft = typeInto(draft, "79");
  assert.equal(isShort(VOLTS, draft), false);
});
