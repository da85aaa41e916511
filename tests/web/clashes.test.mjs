import assert from "node:assert/strict";
import { test } from "node:test";
import { clashesOf, endsOf } from "../../web/state/clashes.js";
import { fold } from "../../web/state/fold.js";
import { registerOf } from "../../web/state/register.js";

const row = (id, body, base = [], cursor = 1, author = "T. Okafor") => ({
  id, kind: "machine", call: null, cursor, order: cursor ?? 99, own: false, seen: 1, machine: null,
  entry: { id, kind: "machine", call: null, base, body, author, made_at: "2026-10-14T21:40:00-05:00" },
});
const two = () => [row("a", { tag: "B3" }), row("b", { serial: "1", model: "M" }, ["a"], 2), row("c", { serial: "2" }, ["a"], 3, "R. Lindqvist")];
const clashes = (rows) => clashesOf(fold(rows).get("a"));

test("two corrections that did not know each other are told with who and when, the one that holds first", () => {
  const [clash, ...others] = clashes(two());
  assert.deepEqual(others, []);
  assert.equal(clash.member, "serial");
  assert.deepEqual(clash.versions.map(({ value, by, holds }) => [value, by, holds]), [["1", "T. Okafor", true], ["2", "R. Lindqvist", false]]);
  assert.equal(registerOf(two(), 0).machines[0].serial, "1");
  assert.equal(registerOf(two(), 0).machines[0].clashes.length, 1);
});

test("the same value twice is no clash, nor is a correction of the other", () => {
  assert.deepEqual(clashes([row("a", { tag: "B3" }), row("b", { serial: "1" }, ["a"], 2), row("c", { serial: "1" }, ["a"], 3)]), []);
  assert.deepEqual(clashes([row("a", { tag: "B3" }), row("b", { serial: "1" }, ["a"], 2), row("c", { serial: "2" }, ["b"], 3)]), []);
});

test("an entry that names every end settles it, also where a third had said the same", () => {
  const rows = [...two(), row("d", { serial: "2" }, ["a"], 4)];
  const ends = endsOf(fold(rows).get("a"));
  assert.deepEqual(ends, ["b", "c", "d"]);
  const settled = [...rows, row("e", { serial: "1" }, ends, null)];
  assert.deepEqual(clashes(settled), []);
  assert.equal(fold(settled).get("a").body.serial, "1");
});

test("a correction of another member leaves the clash to be picked", () => {
  const rows = [...two(), row("d", { model: "N" }, endsOf(fold(two()).get("a")), 4)];
  assert.deepEqual(clashes(rows).map(({ member }) => member), ["serial"]);
});
