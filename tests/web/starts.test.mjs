import assert from "node:assert/strict";
import { test } from "node:test";
import { legByLeg, nextStart, rateOf, startsOf, startsThisHour } from "../../web/state/starts.js";
import en from "../../web/words/en.js";

const NOW = Date.parse("2026-11-20T22:30:00Z");
const ago = (minutes) => new Date(NOW - minutes * 60_000).toISOString();
const CHECKS = [{ check: "start_rate", limits: [["watch", 6, "semi-hermetic"], ["fail", 10, "semi-hermetic"], ["watch", 10, "welded"], ["fail", 12, "welded"], ["watch", 4, "screw"], ["fail", 6, "screw"]].map(([verdict, above, when]) => ({ verdict, above, when })) }];

let order = 0;
const row = (id, kind, body, { made = 0, base = [] } = {}) => ({ id, kind, call: "c", cursor: null, order: ++order, own: true, seen: 0, machine: null, entry: { id, kind, call: "c", base, body, made_at: ago(made), author: "T. Okafor", device: "d" } });
const round = row("r", "round", { label: "as_left" });
const start = (id, minutes, more = {}) => row(id, "event", { device: "controller", what: "start", at: ago(minutes), by: "T. Okafor", ...more }, { made: minutes });
const amps = (id, minutes, legs, base = []) => row(id, "reading", base.length ? { legs } : { round: "r", point: "start_current", legs, unit: "A", state: "starting", same_start: false, at: ago(minutes) }, { made: minutes, base });
const callOf = (...rows) => ({ id: "c", rows: [round, ...rows], plate: { type: "semi-hermetic-reciprocating" }, result: { clocks: [] } });

test("a start written down and the reading it gave are one", () => {
  assert.deepEqual(startsOf(callOf(start("e1", 20), amps("a1", 20, { L1: "148" }), start("e2", 12))), [NOW - 20 * 60_000, NOW - 12 * 60_000]);
});

test("the rate is the machine's own, else of its kind", () => {
  assert.deepEqual(rateOf({ type: "semi-hermetic-screw" }, CHECKS, en.starts.kinds), { usual: 4, most: 6, source: "" });
  assert.deepEqual(rateOf({ type: "welded-scroll", limits: { start_rate: { source: "bulletin 7", watch: { above: "3" } } } }, CHECKS, en.starts.kinds), { usual: 3, most: null, source: "bulletin 7" });
});

test("the hour counts one's own starts and those the controller counted besides, until they leave it", () => {
  const counted = row("n", "reading", { round: "r", point: "starts_last_hour", value: "4", at: ago(30) });
  const call = callOf(start("e1", 70), start("e2", 40), start("e3", 10), counted);
  assert.equal(startsThisHour(call, NOW), 4, "two of the four counted were written down, one start came after, one has left the hour");
});

test("the next start waits five minutes, or until the hour has room", () => {
  const rate = rateOf({ type: "semi-hermetic-reciprocating" }, CHECKS, en.starts.kinds);
  assert.deepEqual(nextStart(callOf(start("e1", 2)), rate), { due: NOW + 3 * 60_000, by: "wait" });
  const many = [50, 42, 34, 26, 18, 10].map((minutes, i) => start("m" + i, minutes));
  assert.deepEqual(nextStart(callOf(...many), rate), { due: NOW + 10 * 60_000, by: "rate" });
  const locked = callOf(start("e1", 2));
  locked.result.clocks = [{ what: "next_start_allowed", due: new Date(NOW + 28 * 60_000).toISOString() }];
  assert.deepEqual(nextStart(locked, rate), { due: NOW + 28 * 60_000, by: "wait" });
  assert.deepEqual(nextStart(callOf(), rate), { due: 0, by: "wait" });
});

test("leg by leg the log alone tells which is next and whether a number is due", () => {
  const stage = (...rows) => { const { stage, leg, pair } = legByLeg(callOf(...rows), "as_left", NOW); return [stage, leg, pair]; };
  assert.deepEqual(stage(), ["start", "L1", null]);
  assert.deepEqual(stage(start("e1", 12)), ["read", "L1", null]);
  assert.deepEqual(stage(start("e1", 12, { text: "not caught" })), ["start", "L1", null]);
  assert.deepEqual(stage(start("e1", 45)), ["start", "L1", null]);
  const one = [start("e1", 12), amps("a1", 11, { L1: "148" })];
  assert.deepEqual(stage(...one), ["start", "L2", "T1-T2"]);
  assert.deepEqual(stage(...one, start("e2", 6)), ["read", "L2", null]);
  const two = [...one, start("e2", 6), amps("a2", 5, { L1: "148", L2: "150" }, ["a1"])];
  assert.deepEqual(stage(...two), ["start", "L3", "T1-T2"]);
  assert.deepEqual(stage(...two, start("e3", 1), amps("a3", 0, { L1: "148", L2: "150", L3: "147" }, ["a2"]))[0], "done");
});
