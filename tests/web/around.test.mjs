// What happens around the job, without a browser: codes, clocks, files, units, photos, a call as text.
import assert from "node:assert/strict";
import { test } from "node:test";
import { FIRST_STATE, reduce } from "../../web/state/actions.js";
import { fileName, fileOf, readFile } from "../../web/state/carried.js";
import { leftOf, newlyDue, passedOf, tilesOf } from "../../web/state/clocks.js";
import { fieldsOf, newDraft, readingBody } from "../../web/state/draft.js";
import { isMine } from "../../web/state/entries.js";
import { fitted, photosOf } from "../../web/state/photos.js";
import { doorOf, routeOf } from "../../web/state/route.js";
import { readSettings, withUnits } from "../../web/state/settings.js";
import { callText } from "../../web/state/share.js";
import { codeFault, matches, signsOf } from "../../web/state/short-code.js";
import { unsaved } from "../../web/state/unsaved.js";
import words from "../../web/words/en.js";

const MACHINE = "00000000-0000-4000-8000-0000000003e1";

test("a machine's code is the one the office prints", () => {
  assert.equal(signsOf(MACHINE).slice(0, 6), "3Z2222");
  assert.equal(signsOf(MACHINE).length, 25);
});

test("a code is read however it is written, and what can't be one is told", () => {
  const machines = [{ id: MACHINE }, { id: "00000000-0000-4000-8000-0000000003e2" }];
  assert.deepEqual(matches(" 3z2-222 ", machines), [machines[0]]);
  assert.deepEqual(["3Z2", "3Z222O", "3Z2222"].map(codeFault), ["short", "mistyped", ""]);
});

test("an address from outside becomes a screen", () => {
  assert.deepEqual(["/m/3Z2222", "/diagnose", "/", "/m/"].map(doorOf), ["#/code/3Z2222", "#/diagnose", null, null]);
  assert.deepEqual(routeOf("#/code/3Z2222"), { name: "code", code: "3Z2222" });
  assert.deepEqual(routeOf("#/call/c1/photo/p1"), { name: "photo", call: "c1", photo: "p1" });
});

test("a clock tells true time, left or over", () => {
  assert.deepEqual([leftOf(60_000, 0), leftOf(60_000, 59_001), leftOf(60_000, 60_000), leftOf(60_000, 135_000)].map(({ over, text }) => [over, text]), [
    [false, "1:00"], [false, "0:01"], [true, "0:00"], [true, "1:15"],
  ]);
  assert.equal(leftOf(4 * 3600_000, 0).text, "4:00:00");
  assert.equal(passedOf({ began: 1000, due: 61_000 }, 16_000), 0.25);
});

test("one's own clock stands until it is put away, an engine's a quarter of an hour after its time", () => {
  const at = Date.parse("2026-10-14T22:00:00Z");
  const told = [{ what: "cooling", due: "2026-10-14T21:50:00Z", because: "b" }, { what: "oil_timing", due: "2026-10-14T21:30:00Z", because: "b" }, { what: "watch_until", due: "2026-10-20T00:00:00Z", because: "b" }];
  const own = { id: "t", call: "c", what: "insulation_minute", began: at - 7_200_000, due: at - 7_140_000 };
  const shown = tilesOf({ timers: [own, { ...own, id: "u", call: "other" }], call: { id: "c", result: { clocks: told } }, clock: { now: at } });
  assert.deepEqual(shown.map(({ what }) => what), ["insulation_minute", "cooling"]);
  assert.deepEqual(newlyDue([own, { ...own, told: true }], at), [own]);
});

test("what one phone wrote another reads, and other files are told apart", () => {
  const entry = { id: "e", kind: "sign", made_at: "2026-10-14T22:00:00Z", device: "d", author: "T. Okafor", base: [], body: {} };
  const file = fileOf({ entries: [entry], photos: [], person: "T. Okafor", device: "d", at: "x", encode: () => "" });
  assert.deepEqual(readFile(JSON.stringify(file)), { fault: "", entries: [entry], photos: [], by: "T. Okafor" });
  const broken = { ...file, entries: [{ ...entry, body: null }] };
  assert.deepEqual(["[", "{}", JSON.stringify({ ...file, version: 9 }), JSON.stringify(broken)].map((text) => readFile(text).fault), ["unreadable", "other-file", "newer", "unreadable"]);
  assert.equal(fileName("0123456789", "2026-10-14T22:05:00-05:00"), "rackside-unsent-01234567-202610142205.json");
});

test("a carried entry is its author's to send, on whichever phone", () => {
  const session = { device: "d2", person: "T. Okafor" };
  const marks = [{ device: "d2", author: "T. Okafor" }, { device: "d1", author: "T. Okafor" }, { device: "d3", author: "R. Lindqvist" }];
  assert.deepEqual(marks.map((mark) => isMine(mark, session)), [true, true, false]);
});

test("units of a system come first and go back, and no other point is touched", () => {
  const told = { points: [{ units: ["F", "C", "K"] }, { units: ["psig", "psia", "kPa"] }, { units: ["V", "mV"] }] };
  const metric = withUnits(told, "si");
  assert.deepEqual(metric.points.map(({ units }) => units), [["C", "F", "K"], ["kPa", "psig", "psia"], ["V", "mV"]]);
  assert.deepEqual(withUnits(metric, "us").points.map(({ units }) => units[0]), ["F", "psig", "V"]);
});

test("a setting nobody offered is not taken from the store", () => {
  const held = { theme: "sun", text: "huge" };
  assert.deepEqual(readSettings((name) => held[name] ?? null), { theme: "sun", text: "usual", units: "us", legs: "itself" });
});

test("a picture fits its square and never grows", () => {
  assert.deepEqual(fitted(4000, 3000, 2000), { width: 2000, height: 1500 });
  assert.deepEqual(fitted(300, 400, 2000), { width: 300, height: 400 });
});

const row = (id, kind, body, base = []) => ({ id, kind, call: "c", cursor: null, order: Number(id.slice(1)), entry: { id, kind, base, made_at: "2026-10-14T22:00:00Z", body } });

test("a photo taken back is no longer shown; those of a reading are found", () => {
  const rows = [row("r1", "photo", { sha256: "a", shows: "oil", of: "x" }), row("r2", "photo", { sha256: "b", shows: "part" }), row("r3", "retraction", { of: "r2", why: "blurred" })];
  assert.deepEqual(photosOf({ rows }).map(({ sha256 }) => sha256), ["a"]);
  assert.deepEqual(photosOf({ rows }, "y"), []);
});

test("a customer's text holds the engine's sentences of readings that carry, and the decision", () => {
  const findings = [{ check: "oil_level", verdict: "pass", because: "The glass is where it should be.", carries: true }, { check: "oil_level", verdict: "fail", because: "An older one.", carries: false }];
  const call = { id: "c", tag: "B3", machine: "m", complaint: "oil_trip", opened_at: "2026-10-14T22:00:00Z", rows: [row("r1", "decision", { decision: "restart", reason: "Breaker reset." })], result: { rounds: [{ label: "as_found", findings }], causes: [{ cause: "never_ran", word: "likely", text: "The motor never ran" }] } };
  const engine = { words: { checks: [{ check: "oil_level", title: "Oil level" }], complaints: [{ complaint: "oil_trip", text: "Oil failure trip" }] } };
  const text = callText({ call, engine, register: { machines: [{ id: "m", site: "s" }], sites: [{ id: "s", name: "Tannery Lane" }] } }, words);
  for (const said of ["Compressor B3, Tannery Lane", "Oil failure trip", "- Oil level (pass): The glass is where it should be.", "- The motor never ran", "Decision: Restart (Breaker reset.)"]) assert.ok(text.includes(said), said);
  assert.ok(!text.includes("An older one."));
  assert.doesNotMatch(text, /\b(dead|is safe|compliant)\b/);
});

test("nothing typed is lost to a new version: digits, notes and forms hold it back", () => {
  assert.equal(unsaved(FIRST_STATE), false);
  assert.equal(unsaved({ ...FIRST_STATE, draft: { texts: { L1: "4" } } }), true);
  assert.equal(unsaved(reduce(FIRST_STATE, { type: "new-call", change: { reported: "It trips" } })), true);
  assert.equal(unsaved(reduce(FIRST_STATE, { type: "caption-typed", caption: "pole two" })), true);
});

test("a winding's temperature is asked in the phone's unit and kept with the one it was read in", () => {
  const [point] = withUnits({ points: [{ name: "winding_resistance", kind: "legs", keys: ["T1-T2"], units: ["ohm"], states: ["isolated"], words: [] }] }, "si").points;
  const draft = newDraft(point, { call: "c", label: "as_found" }, null);
  assert.equal(fieldsOf(point, draft).find(({ key }) => key === "winding_temperature").unit, "C");
  const body = readingBody(point, { ...draft, texts: { "T1-T2": "0.52", winding_temperature: "20" } }, "r", "at");
  assert.deepEqual([body.winding_temperature, body.winding_temperature_unit], ["20", "C"]);
  const corrected = newDraft(point, { call: "c", label: "as_found" }, null, { id: "x", body: { ...body, winding_temperature: "68", winding_temperature_unit: "F" } });
  assert.equal(corrected.warmth, "F");
});
