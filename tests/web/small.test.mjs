import assert from "node:assert/strict";
import { test } from "node:test";
import { newEntry, newId, stamp } from "../../web/state/entries.js";
import { bandText, dateText, dayText, figure, readingText, timeText } from "../../web/state/format.js";
import { registerOf } from "../../web/state/register.js";
import { routeOf, toCall, toReading } from "../../web/state/route.js";
import { isClockOff, readiness } from "../../web/state/readiness.js";
import { cautionOf, stageOf } from "../../web/state/caution.js";
import { FIRST_STATE, reduce } from "../../web/state/actions.js";
import { pauseAfter } from "../../web/sync/pause.js";
import { secondsAhead } from "../../web/sync/clock.js";
import words from "../../web/words/en.js";
import es from "../../web/words/es.js";

test("ids are random UUIDs of version 4", () => {
  assert.match(newId(), /^[0-9a-f]{8}-[0-9a-f]{4}-4[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
  assert.notEqual(newId(), newId());
});

test("moments carry the phone's offset", () => {
  const text = stamp(new Date("2026-10-14T23:55:00Z"));
  assert.match(text, /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d[+-]\d\d:\d\d$/);
  assert.equal(Date.parse(text), Date.parse("2026-10-14T23:55:00Z"));
});

test("the first entry of a call is its own call", () => {
  const entry = newEntry({ device: "d", person: "T. Okafor" }, "call", "own", { machine: "m" });
  assert.equal(entry.call, entry.id);
  assert.equal(entry.author, "T. Okafor");
});

test("an address leads to its screen and back", () => {
  assert.deepEqual(routeOf(toReading("c1", "as_left", "pole_drop")), { name: "reading", call: "c1", label: "as_left", point: "pole_drop", correct: null });
  assert.deepEqual(routeOf(toCall("c1", "signs")), { name: "call", call: "c1", tab: "signs" });
  assert.deepEqual(routeOf("#/nonsense"), { name: "calls" });
  assert.deepEqual(routeOf(""), { name: "calls" });
});

test("a call of other software may lack its time, and then shows none", () => {
  for (const none of [undefined, "", "soon"]) assert.deepEqual([dayText(none, words), dateText(none), timeText(none)], ["", "", ""]);
});

test("numbers are shown with three figures, readings as they were typed", () => {
  assert.deepEqual([0.2131, 41.36, 1087, 0].map(figure), ["0.213", "41.4", "1087", "0"]);
  assert.equal(readingText({ legs: { L1: "33.1", L2: "33.40", L3: "32.9" }, unit: "A" }, words), "33.1 / 33.40 / 32.9 A");
  assert.equal(readingText({ value: ">2000", unit: "Mohm" }, words), ">2000 MΩ");
});

test("the allowed band is told from the innermost limits", () => {
  const finding = { unit: "%", legs: [{ deviation: 1, deviation_unit: "%" }], limits: [{ verdict: "watch", above: 1 }, { verdict: "fail", above: 2 }] };
  assert.equal(bandText(finding, words), "within ±1 %");
  const amps = { ...finding, legs: [{ deviation: -13, deviation_unit: "%", judged: 87 }], limits: [{ verdict: "watch", above: 100 }] };
  assert.equal(bandText(amps, words), "up to 100 %");
  assert.equal(bandText({ unit: "Mohm", legs: [], limits: [{ verdict: "watch", below: 50 }, { verdict: "fail", below: 5 }] }, words), "from 50 MΩ");
  assert.equal(bandText({ unit: "mV", legs: [], limits: [{ verdict: "fail", above: 250 }] }, words), "up to 250 mV");
});

test("pauses grow with failures, end at a minute or so, and are quiet when all went well", () => {
  assert.equal(pauseAfter(0, 0.5), 60_000);
  assert.deepEqual([1, 2, 3].map((failures) => pauseAfter(failures, 0.5)), [2000, 4000, 8000]);
  assert.equal(pauseAfter(30, 0.5), 60_000);
});

test("a clock more than two minutes off is told", () => {
  const ahead = secondsAhead("2026-10-14T22:00:00Z", Date.parse("2026-10-14T22:04:59Z"), Date.parse("2026-10-14T22:05:01Z"));
  assert.equal(ahead, 300);
  assert.ok(isClockOff(ahead));
  assert.equal(isClockOff(-30), false);
});

const POINT = { name: "line_voltage", caution: "volts", kind: "legs" };
const VOCABULARY = { cautions: { energised: "Energised.", volts: "Meter and leads." } };

test("an energised step is held until its words are acknowledged, once for the call", () => {
  const state = { ...FIRST_STATE, engine: { ...FIRST_STATE.engine, words: VOCABULARY }, call: { id: "c" }, draft: { state: "running" } };
  assert.deepEqual(cautionOf(POINT, "running", VOCABULARY).texts, ["Energised.", "Meter and leads."]);
  assert.equal(stageOf(state, POINT), "caution");
  assert.equal(stageOf(reduce(state, { type: "acknowledged", step: "c/volts" }), POINT), "typing");
  assert.equal(stageOf({ ...state, call: { id: "other" }, acknowledged: new Set(["c/volts"]) }, POINT), "caution");
});

test("a phone is ready only with the page, a proved engine, machines and a sign-in", () => {
  const able = {
    ...FIRST_STATE,
    page: { held: true, update: false },
    engine: { ...FIRST_STATE.engine, vectors: { passed: 10, of: 10 } },
    register: { ...FIRST_STATE.register, machines: [{ id: "m", site: "s" }], sites: [{ id: "s" }] },
    session: { person: "T. Okafor" },
  };
  assert.equal(readiness(able).ready, true);
  assert.equal(readiness({ ...able, page: { held: false } }).ready, false);
  assert.equal(readiness({ ...able, engine: { ...able.engine, vectors: { passed: 9, of: 10 } } }).ready, false);
  assert.equal(readiness({ ...able, session: null }).ready, false);
});

test("a word that was chosen is said in the phone's language, what was typed as it was typed", () => {
  const spanish = es.word;
  assert.equal(readingText({ point: "oil_colour", value: "straw" }, es), spanish.straw);
  assert.equal(readingText({ point: "oil_level", value: "0.50", unit: "fraction" }, es), "0.50 de la mirilla");
});

test("times and days are written alike wherever they stand", () => {
  assert.match(timeText("2026-10-14T05:07:00"), /^05:07$/);
  assert.equal(dateText("2025-12-11T10:00:00", new Date("2026-11-25T10:00:00")).includes("2025"), true);
  assert.equal(dateText("2026-12-11T10:00:00", new Date("2026-11-25T10:00:00")).includes("2026"), false);
});

test("machines stand by rack and number, ten after nine", () => {
  const row = (id, tag) => ({ id, kind: "machine", call: null, cursor: 1, order: 1, entry: { base: [], body: { tag, rack: "A" } } });
  const { machines } = registerOf([row("1", "A10"), row("2", "A9"), row("3", "A2")], 0);
  assert.deepEqual(machines.map(({ tag }) => tag), ["A2", "A9", "A10"]);
});
