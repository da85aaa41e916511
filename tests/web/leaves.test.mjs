// Correcting a refused entry: every member is a field, and only what was typed changes.
import assert from "node:assert/strict";
import { test } from "node:test";
import { corrected, leavesOf } from "../../web/state/leaves.js";

const BODY = { point: "line_voltage", legs: { "L1-L2": "478", "L2-L3": "O" }, seconds: 30, called: true, "a/b": "typo" };

test("each member is a field named as the server names a fault", () => {
  assert.deepEqual(leavesOf(BODY).map(({ pointer }) => pointer), ["/body/point", "/body/legs/L1-L2", "/body/legs/L2-L3", "/body/seconds", "/body/called", "/body/a~1b"]);
});

test("what was typed replaces its member, with the type it had; an emptied member goes", () => {
  const typed = { "/body/legs/L2-L3": " 480 ", "/body/seconds": "31", "/body/called": "false", "/body/a~1b": "" };
  assert.deepEqual(corrected(BODY, typed), { point: "line_voltage", legs: { "L1-L2": "478", "L2-L3": "480" }, seconds: 31, called: false });
});

test("untouched, it is the same", () => {
  assert.deepEqual(corrected(BODY, {}), BODY);
  assert.deepEqual(corrected(BODY, Object.fromEntries(leavesOf(BODY).map(({ pointer, value }) => [pointer, String(value)]))), BODY);
});
