import assert from "node:assert/strict";
import { test } from "node:test";
import { laneOf, nextPoints, stepsOf, usualLabel } from "../../web/state/job.js";
import { readBeside, readingsOf } from "../../web/state/round.js";
import { machinesBeside } from "../../web/state/beside.js";
import { moot } from "../../web/state/moot.js";
import { openingOf } from "../../web/state/sheet-opening.js";
import { bodyOf, faultsOf, momentOf } from "../../web/state/sheets.js";
import { signShelves } from "../../web/state/signs.js";

let count = 0;
const row = (kind, body) => {
  const id = `${kind}-${(count += 1)}`;
  return { id, kind, call: "c", cursor: count, order: count, entry: { id, base: [], body } };
};
const call = (rows, more = {}) => ({ id: "c", rows, plate: {}, complaint: "oil_trip", result: null, ...more });
const point = (name) => ({ name, group: "oil" });

test("with a breaker open the machine is made safe and tested before the live supply, else after it", () => {
  const live = stepsOf(call([row("event", { device: "oil_control", what: "trip" })]));
  assert.ok(live.indexOf("supply") < live.indexOf("make_safe"));
  for (const rows of [[row("event", { device: "breaker", what: "trip" })], [row("sign", { sign: "burnt_smell", present: true })]]) {
    const steps = stepsOf(call(rows));
    assert.equal(laneOf(call(rows)).lane, "isolate");
    assert.ok(steps.indexOf("isolated") < steps.indexOf("supply"));
  }
});

test("a breaker that was only reset did not open here", () => {
  assert.equal(laneOf(call([row("event", { device: "breaker", what: "reset" })])).lane, "live");
});

test("readings go to the as-left round once something was repaired, not for a lifted lead", () => {
  assert.equal(usualLabel(call([row("action", { kind: "lead_lifted" })])), "as_found");
  assert.equal(usualLabel(call([row("action", { kind: "part_fitted" })])), "as_left");
});

test("oil pressure of a motor that never turned is not asked as found, and is asked as left", () => {
  const never = call([], { result: { weighing: { turned: "not" } } });
  assert.equal(moot(point("pump_pressure"), never, "as_found"), "never_ran");
  assert.equal(moot(point("pump_pressure"), never, "as_left"), "");
});

test("what the machine has not is not asked", () => {
  const scroll = call([], { plate: { type: "welded-scroll", refrigerant: "R-448A", start: "across-the-line" } });
  assert.equal(moot(point("pump_down_vacuum"), scroll, "as_found"), "no_pump_down");
  assert.equal(moot(point("drive_output_current"), scroll, "as_found"), "no_drive");
  assert.equal(moot(point("gas_cooler_pressure"), scroll, "as_found"), "no_co2");
  assert.equal(moot(point("line_voltage"), scroll, "as_found"), "");
});

test("a setting told by halves is not kept; numbers take a comma; what is blank is absent", () => {
  assert.deepEqual(faultsOf("action", { kind: "setting_changed", what: "overload dial", before: "24 A" }), ["after"]);
  assert.deepEqual(faultsOf("line", { kind: "part", what: "fuse", quantity: "two" }), ["quantity"]);
  assert.deepEqual(bodyOf("line", { kind: "part", what: " fuse ", quantity: "0,5" }), { kind: "part", what: "fuse", quantity: 0.5 });
  assert.deepEqual(bodyOf("site", { name: "Dock 4", nominal_voltage: "480" }), { name: "Dock 4", supply: { nominal_voltage: 480 } });
});

test("a trip without its hour has none; an hour still to come was yesterday's", () => {
  assert.equal("at" in bodyOf("event", { device: "breaker", what: "trip" }), false);
  const now = new Date(2026, 9, 14, 1, 0);
  assert.match(momentOf("23:40", now), /^2026-10-13T23:40:00/);
  assert.match(momentOf("00:20", now), /^2026-10-14T00:20:00/);
});

test("closing a moved valve starts from where it was, and names what it closes", () => {
  const moved = row("action", { kind: "valve_moved", what: "suction valve", before: "open", after: "shut" });
  const opening = openingOf("action", `close~${moved.id}`, { call: call([moved]) });
  assert.deepEqual(opening, { values: { kind: "valve_moved", what: "suction valve", before: "shut", after: "open" }, fixed: { closes: moved.id } });
});

test("a meter's accuracy goes to the points that kind of meter reads", () => {
  const body = bodyOf("meter", { name: "Clamp 3", kind: "clamp", percent: "2", counts: "5" });
  assert.deepEqual(body.points.running_current, { percent: 2, counts: 5 });
  assert.equal(body.percent, undefined);
});

test("every sign stands at one place, also one nobody has placed yet", () => {
  const shelves = signShelves([{ sign: "knock", text: "" }, { sign: "not yet known", text: "" }]);
  assert.deepEqual(shelves.map(({ place, signs }) => [place, signs.length]), [["eyes", 1], ["ears", 1]]);
});

const judgedPoint = (name, group) => ({ name, group, checks: ["any"] });
const POINTS = [judgedPoint("running_current", "running"), judgedPoint("drive_frequency", "running"), judgedPoint("pole_drop", "running"), judgedPoint("oil_level", "oil")];
const stateOf = (one) => ({ call: one, engine: { words: { points: POINTS } } });

test("what is offered next was not made moot, stays in the step, and is the engine's where it names something", () => {
  const read = [row("round", { label: "as_found" })];
  assert.deepEqual(nextPoints(stateOf(call(read)), "as_found", "running_current").map((one) => one.point), ["pole_drop"]);
  assert.deepEqual(nextPoints(stateOf(call(read)), "as_found", "pole_drop"), []);
  const told = call(read, { result: { next_tests: ["a", "b", "c", "d"].map((name) => ({ point: name, because: "" })) } });
  assert.deepEqual(nextPoints(stateOf(told), "as_found", "b").map((one) => one.point), ["a", "c", "d"]);
});

test("what was read on a machine beside is not this machine's, and the newest of each stands", () => {
  const round = row("round", { label: "as_found" });
  const amps = (value, neighbour) => row("reading", { round: round.id, point: "running_current", legs: { L1: value }, ...(neighbour && { neighbour: { tag: neighbour, like: true, running: true } }) });
  const one = call([round, amps("39.2"), amps("38.1", "B3"), amps("38.4", "B3"), amps("30.0", "B4")]);
  assert.deepEqual(readingsOf(one, "as_found", "running_current").map(({ body }) => body.legs.L1), ["39.2"]);
  assert.deepEqual(readBeside(one, "as_found", "running_current").map(({ body }) => body.legs.L1), ["38.4", "30.0"]);
});

test("machines beside are those of the same rack, the like ones first", () => {
  const machine = (id, tag, more = {}) => ({ id, tag, site: "s", rack: "B", model: "MT-25", ...more });
  const plate = machine("m2", "B2");
  const register = { machines: [machine("m1", "B1", { model: "MT-30" }), plate, machine("m3", "B3"), machine("a3", "A3", { rack: "A" }), machine("m5", "B5", { retired: true })] };
  assert.deepEqual(machinesBeside({ call: { machine: "m2", plate }, register }), [{ tag: "B3", like: true }, { tag: "B1", like: false }]);
});
