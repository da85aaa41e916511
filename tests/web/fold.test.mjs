import assert from "node:assert/strict";
import { test } from "node:test";
import { callState, returnNote } from "../../web/state/call-state.js";
import { fold, standing } from "../../web/state/fold.js";
import { registerOf } from "../../web/state/register.js";

let order = 0;
const row = (id, kind, body, more = {}) => {
  order += 1;
  const { base = [], call = null, cursor = order } = more;
  return { id, kind, call, cursor, order, own: false, seen: 1, machine: null, entry: { id, kind, call, base, body } };
};

test("a correction changes only its members, null clears, and the thing keeps its name", () => {
  const things = fold([row("a", "machine", { tag: "B3", serial: "1" }), row("b", "machine", { serial: null, rack: "B" }, { base: ["a"] })]);
  assert.deepEqual(things.get("a").body, { tag: "B3", rack: "B" });
});

test("of two corrections of one base the earlier by the server's counter stands", () => {
  const rows = [
    row("a", "machine", { tag: "B3" }, { cursor: 1 }),
    row("late", "machine", { tag: "B5", serial: "9" }, { base: ["a"], cursor: 3 }),
    row("early", "machine", { tag: "B4" }, { base: ["a"], cursor: 2 }),
  ];
  assert.deepEqual(fold(rows).get("a").body, { tag: "B4", serial: "9" });
});

test("a correction that knows the other replaces it, and unsent ones come last", () => {
  const rows = [
    row("c", "machine", { tag: "B6" }, { base: ["b"], cursor: null }),
    row("a", "machine", { tag: "B3" }, { cursor: 1 }),
    row("b", "machine", { tag: "B4" }, { base: ["a"], cursor: 2 }),
  ];
  assert.equal(fold(rows).get("a").body.tag, "B6");
});

test("what was retracted no longer stands", () => {
  const things = fold([row("a", "sign", { sign: "knock" }), row("r", "retraction", { of: "a" })]);
  assert.deepEqual(standing(things, "sign"), []);
});

test("taking back a correction brings what it corrected back; taking that back brings the correction", () => {
  const rows = [row("a", "reading", { value: "110" }), row("b", "reading", { value: "1100" }, { base: ["a"] }), row("r", "retraction", { of: "b" })];
  const [undone] = standing(fold(rows), "reading");
  assert.deepEqual([undone.body.value, undone.rows.length], ["110", 1]);
  assert.equal(standing(fold([...rows, row("q", "retraction", { of: "r" })]), "reading")[0].body.value, "1100");
});

const step = (kind, body = {}) => ({ kind, body });

test("the state of a call follows submissions and reviews", () => {
  const now = Date.parse("2026-10-15T00:00:00Z");
  const accepted = [step("submission"), step("review", { outcome: "accepted" })];
  assert.equal(callState([], now), "open");
  assert.equal(callState([step("submission")], now), "submitted");
  assert.equal(callState([step("submission"), step("review", { outcome: "returned" })], now), "returned");
  assert.equal(callState([step("submission"), step("review", { outcome: "returned" }), step("submission")], now), "submitted");
  assert.equal(callState(accepted, now), "accepted");
  assert.equal(callState([step("decision", { watch_until: "2026-10-16T00:00:00Z" }), ...accepted], now), "watching");
  assert.equal(callState([step("decision", { watch_until: "2026-10-14T00:00:00Z" }), ...accepted], now), "closed");
});

test("the office's note stands until the call is handed in again", () => {
  const returned = [step("submission"), step("review", { outcome: "returned", note: "Which leg?" })];
  assert.equal(returnNote(returned), "Which leg?");
  assert.equal(returnNote([...returned, step("submission")]), null);
});

test("the register names each call's machine and state", () => {
  const rows = [
    row("s", "site", { name: "Tannery Lane" }),
    row("m", "machine", { site: "s", tag: "B3" }),
    row("c", "call", { machine: "m", complaint: "oil_trip", opened_at: "2026-10-14T21:00:00-05:00" }, { call: "c" }),
    row("x", "submission", {}, { call: "c" }),
  ];
  const [call] = registerOf(rows, Date.now()).calls;
  assert.deepEqual([call.tag, call.site, call.state], ["B3", "s", "submitted"]);
});
