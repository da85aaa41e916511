import assert from "node:assert/strict";
import { test } from "node:test";
import { Judge, JudgeGone } from "../../web/judge/client.js";

/** A worker that answers through `reply(door, texts, post)`; it never answers when told so. */
function fakeWorkers(replies) {
  const spawned = [];
  const spawn = () => {
    const reply = replies[Math.min(spawned.length, replies.length - 1)];
    const worker = { ended: false, terminate() { this.ended = true; }, asked: [] };
    const post = (data) => queueMicrotask(() => worker.onmessage({ data }));
    worker.postMessage = ({ id, door, texts }) => { worker.asked.push([door, ...texts]); reply.answer?.(door, texts, (text) => post({ id, text }), (error) => post({ id, error })); };
    if (reply.starts) post({ id: 0, text: "ready" });
    spawned.push(worker);
    return worker;
  };
  return { spawn, spawned };
}

const sound = { starts: true, answer: (door, texts, say) => say(JSON.stringify({ door, texts })) };
const mute = { starts: true };
const dead = { starts: false };

function judgeOn(replies) {
  const states = [];
  const workers = fakeWorkers(replies);
  const judge = new Judge({ spawn: workers.spawn, onState: (state) => states.push(state), deadline: 30 });
  return { judge, states, ...workers };
}

test("answers come back to their questions as objects", async () => {
  const { judge, states } = judgeOn([sound]);
  await judge.start();
  assert.equal((await judge.describe()).door, "describe");
  assert.deepEqual(states, ["starting", "ready"]);
});

test("a worker that stops answering is replaced once, with the call in hand, and asked again", async () => {
  const { judge, spawned, states } = judgeOn([{ starts: true, answer: (door, texts, say) => door !== "look" && say("{}") }, sound]);
  await judge.start();
  await judge.open({ call: "c" });
  await judge.add([{ id: "e" }]);
  const answer = await judge.look({ round: "r" });
  assert.equal(answer.door, "look");
  assert.deepEqual(spawned[1].asked.map(([door]) => door), ["open", "add", "look"]);
  assert.ok(spawned[0].ended);
  assert.deepEqual(states, ["starting", "ready", "restarting", "ready"]);
});

test("what a call left behind is told to no other call, neither again nor after a restart", async () => {
  const first = { starts: true, answer: (door, texts, say) => texts[0] !== '[{"id":"a2"}]' && door !== "look" && say("{}") };
  const { judge, spawned } = judgeOn([first, sound]);
  await judge.start();
  await judge.open({ call: "a" });
  const kept = judge.add([{ id: "a1" }]);
  const late = judge.add([{ id: "a2" }]);
  await judge.open({ call: "b" });
  await kept;
  await judge.add([{ id: "b1" }]);
  await assert.rejects(late);
  await judge.look({});
  assert.deepEqual(spawned[1].asked.map(([door, text]) => [door, text]), [["open", '{"call":"b"}'], ["add", '[{"id":"b1"}]'], ["look", "{}"]]);
});

test("questions that die together share one restart", async () => {
  const { judge, spawned } = judgeOn([mute, sound]);
  await judge.start();
  const answers = await Promise.all([judge.look({}), judge.describe(), judge.judge({})]);
  assert.deepEqual(answers.map(({ door }) => door), ["look", "describe", "judge"]);
  assert.equal(spawned.length, 2);
});

test("after one restart in vain the judge is gone, and says so", async () => {
  const { judge, states } = judgeOn([dead, dead]);
  await assert.rejects(judge.start(), JudgeGone);
  assert.deepEqual(states, ["starting", "restarting", "gone"]);
  await assert.rejects(judge.look({}), JudgeGone);
});

test("an error of the engine itself is told and restarts nothing", async () => {
  const { judge, spawned } = judgeOn([{ starts: true, answer: (door, texts, say, err) => err("ValueError") }]);
  await judge.start();
  await assert.rejects(judge.look({}), /ValueError/);
  assert.equal(spawned.length, 1);
});

test("the health question answers false for a worker that is stuck", async () => {
  const { judge } = judgeOn([sound]);
  await judge.start();
  assert.equal(await judge.isWell(), true);
});
