import assert from "node:assert/strict";
import { test } from "node:test";
import { newDraft, nextField, typed } from "../../web/state/draft.js";
import { isSure, movedOn } from "../../web/state/next-leg.js";

const VOLTS = { name: "line_voltage", kind: "legs", keys: ["L1-L2", "L2-L3", "L3-L1"], units: ["V", "mV"], states: ["stopped"], words: [], low: 0, high: 1000 };
const START = { ...VOLTS, name: "start_current", keys: ["L1", "L2", "L3"], units: ["A"], high: 5000 };
const ABSENCE = { ...VOLTS, name: "absence_test", kind: "absence" };
const PLACE = { call: "c", label: "as_found" };
const draftOf = (texts, active, point = VOLTS) => ({ ...newDraft(point, PLACE, null), texts, active });
const sure = (before, text, point = VOLTS, last = null) => isSure(point, draftOf({ "L1-L2": before, "L2-L3": text }, "L2-L3", point), text.at(-1), last);

test("a number like the leg before it is sure", () => {
  assert.ok(sure("478", "480"));
  assert.ok(sure("0.523", "0.527"));
  assert.ok(sure(">200", ">200"));
  assert.ok(sure("40", "42"));
});

test("a number that may still grow waits", () => {
  for (const [before, text] of [["478", "47"], ["478.2", "480"], ["478.2", "480."], ["0", "4"], ["3", "4"], ["478", "4780"], ["478", "100"], ["10", "44"], ["0.0", "0.0"], ["", "478"], [">200", "200"]]) {
    assert.equal(sure(before, text), false, `${before} then ${text}`);
  }
});

test("what nobody can believe waits, in the unit it is read in", () => {
  assert.equal(sure("4780", "4790"), false);
  const millivolts = (before, text) => isSure(VOLTS, { ...draftOf({ "L1-L2": before, "L2-L3": text }, "L2-L3"), unit: "mV" }, text.at(-1), null);
  assert.ok(millivolts("4780", "4790"));
});

test("OL is sure at once, on the last leg nothing follows, and an absence test is never hurried", () => {
  assert.ok(isSure(VOLTS, draftOf({ "L1-L2": "OL" }, "L1-L2"), "OL", null));
  assert.equal(isSure(VOLTS, draftOf({ "L1-L2": "478", "L2-L3": "480", "L3-L1": "479" }, "L3-L1"), "9", null), false);
  assert.equal(isSure(ABSENCE, draftOf({ "L1-L2": "478", "L2-L3": "480" }, "L2-L3", ABSENCE), "0", null), false);
});

test("the first leg is compared with the last visit's, in the same unit only", () => {
  const first = draftOf({ "L1-L2": "478" }, "L1-L2");
  assert.ok(isSure(VOLTS, first, "8", { unit: "V", legs: { "L1-L2": "479" } }));
  assert.equal(isSure(VOLTS, first, "8", { unit: "mV", legs: { "L1-L2": "479" } }), false);
  assert.equal(isSure(VOLTS, first, "8", { unit: "V", legs: { "L1-L2": "47.9" } }), false);
});

test("only a digit begins the pause: deleting never goes on", () => {
  const draft = draftOf({ "L1-L2": "478", "L2-L3": "480" }, "L2-L3");
  for (const key of ["back", ".", ">", "±"]) assert.equal(isSure(VOLTS, draft, key, null), false);
});

test("a late Next does not jump a leg, and the one after it does", () => {
  let draft = movedOn(VOLTS, draftOf({ "L1-L2": "478" }, "L1-L2"));
  assert.equal(draft.active, "L2-L3");
  draft = { ...draft, active: nextField(VOLTS, draft), left: "" };
  assert.equal(draft.active, "L2-L3");
  assert.equal(nextField(VOLTS, draft), "L3-L1");
});

test("a leg left too early is gone back to by the delete key, also after a digit went astray", () => {
  let draft = movedOn(START, draftOf({ L1: "44" }, "L1", START));
  draft = typed(draft, "0");
  assert.deepEqual(draft.texts, { L1: "44", L2: "0" });
  draft = typed(typed(draft, "back"), "back");
  assert.deepEqual([draft.active, draft.texts.L1], ["L1", "44"]);
  assert.equal(typed(draft, "0").texts.L1, "440");
});

test("a point on an empty leg belongs to the number that was left", () => {
  const draft = typed(typed(movedOn(VOLTS, draftOf({ "L1-L2": "478" }, "L1-L2")), "."), "2");
  assert.deepEqual([draft.active, draft.texts["L1-L2"]], ["L1-L2", "478.2"]);
  const ohms = typed(movedOn(VOLTS, draftOf({ "L1-L2": "0.523" }, "L1-L2")), ".");
  assert.deepEqual([ohms.active, ohms.texts["L2-L3"]], ["L2-L3", "0."]);
});
