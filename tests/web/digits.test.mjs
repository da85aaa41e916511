import assert from "node:assert/strict";
import { test } from "node:test";
import { isComplete, press, settled } from "../../web/state/digits.js";

const keys = (...pressed) => pressed.reduce(press, "");

test("the pad writes what the contract takes", () => {
  assert.equal(keys("0", ".", "7", "0"), "0.70");
  assert.equal(keys(".", "5"), "0.5");
  assert.equal(keys(">", "2", "0", "0", "0"), ">2000");
  assert.equal(keys("9", "±"), "-9");
  assert.equal(keys("4", "OL"), "OL");
  assert.equal(keys("OL", "4"), "4");
  assert.equal(keys("OL", "back"), "");
  assert.equal(keys("1", "2", "back"), "1");
  assert.equal(keys("1", ".", "."), "1.");
  assert.equal(keys("7", "7", "clear"), "");
});

test("only whole numbers are complete", () => {
  for (const text of ["478", "0.70", ">2000", "-9", "OL", "478."]) assert.ok(isComplete(text), text);
  for (const text of ["", ">", "-", ">-", "."]) assert.equal(isComplete(text), false, text);
  assert.equal(settled("478."), "478");
});
