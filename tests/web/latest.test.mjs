import assert from "node:assert/strict";
import { test } from "node:test";
import { createLatest } from "../../web/judge/latest.js";

test("while one question is under way only the newest waits, and an overtaken answer is dropped", async () => {
  const asked = [];
  const shown = [];
  const answers = [];
  const latest = createLatest((question) => new Promise((resolve) => { asked.push(question); answers.push(resolve); }), (answer) => shown.push(answer));
  latest.ask("4");
  latest.ask("47");
  latest.ask("479");
  answers[0]("of 4");
  await new Promise(setImmediate);
  answers[1]("of 479");
  await new Promise(setImmediate);
  assert.deepEqual(asked, ["4", "479"]);
  assert.deepEqual(shown, ["of 479"]);
});
