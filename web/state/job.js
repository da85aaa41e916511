// The job from the alarm to the signature: its steps in the order the first fact asks, and how far each has come.
import { moot } from "./moot.js";
import { readingsOf, shelves, signsOf, thingsOf } from "./round.js";
import { standing } from "./fold.js";

const LIVE = ["supply", "control"];
const DEAD = ["make_safe", "isolated"];
const LATER = ["start", "running", "oil", "heat", "repair", "as_left", "gates", "decision", "hand_over"];
const OPEN_FIRST = new Set(["breaker", "fuse"]);
const REPAIRS = new Set(["part_fitted", "cleaned", "setting_changed", "oil_added", "charge_added"]);

/** Points of these groups belong to the step of the same name. */
const READ = new Set(["look", ...LIVE, ...DEAD, "start", "running", "oil", "heat", "repair"]);

export const eventsOf = (call) => standing(thingsOf(call), "event");
export const actionsOf = (call) => standing(thingsOf(call), "action");
export const linesOf = (call) => standing(thingsOf(call), "line");

/**
 * What is done first: with a breaker or fuse open, or a burnt smell, isolate and test before any reset;
 * otherwise supply, control string and contactor live, because isolating erases which contact was open.
 * @returns {{lane: "isolate" | "live", by: string}}
 */
export function laneOf(call) {
  const signs = signsOf(call);
  if (signs.burnt_smell) return { lane: "isolate", by: "burnt_smell" };
  if (signs.breaker_tripped || opened(call, "breaker")) return { lane: "isolate", by: "breaker" };
  if (signs.fuse_open || opened(call, "fuse")) return { lane: "isolate", by: "fuse" };
  return { lane: "live", by: eventsOf(call).length ? "other" : "unknown" };
}

const opened = (call, device) =>
  OPEN_FIRST.has(device) && eventsOf(call).some(({ body }) => body.device === device && body.what === "trip");

export function stepsOf(call) {
  const middle = laneOf(call).lane === "isolate" ? [...DEAD, ...LIVE] : [...LIVE, ...DEAD];
  return ["alarm", "machine", "look", ...middle, ...LATER];
}

/** The round a reading goes to unless the person says otherwise: as left once something was repaired. */
export const usualLabel = (call) => (actionsOf(call).some(({ body }) => REPAIRS.has(body.kind)) ? "as_left" : "as_found");

/** The points a step asks, and those the first answers made moot, each with why. */
export function pointsOf(step, state, label) {
  if (!READ.has(step)) return { asked: [], moot: [] };
  const points = state.engine.words.points.filter((point) => point.group === step);
  const judged = points.map((point) => ({ point, why: moot(point, state.call, label) }));
  return {
    asked: judged.filter(({ why, point }) => !why || readingsOf(state.call, label, point.name).length > 0).map(({ point }) => point),
    moot: judged.filter(({ why, point }) => why && readingsOf(state.call, label, point.name).length === 0),
  };
}

const skipped = (call, step) => call.extra?.skipped?.[step] ?? null;

/**
 * How far a step has come.
 * @returns {{stand: "open" | "begun" | "done" | "skipped", count: number, of: number}}
 */
export function standOf(step, state, label) {
  const { call } = state;
  if (skipped(call, step)) return { stand: "skipped", count: 0, of: 0 };
  const [count, of] = OTHER[step] ? OTHER[step](call, state) : readCount(step, state, label);
  return { stand: count === 0 ? "open" : count >= of ? "done" : "begun", count, of };
}

/** The points a step asks that would be judged and are not read yet. */
export const unreadOf = (step, state, label) => judgedOf(step, state, label).filter((point) => readingsOf(state.call, label, point.name).length === 0);

const judgedOf = (step, state, label) => pointsOf(step, state, label).asked.filter((point) => point.checks.length > 0);

function readCount(step, state, label) {
  const all = judgedOf(step, state, label).length;
  return [all - unreadOf(step, state, label).length, all];
}

const OPEN_GATES = ["reset", "restart", "return_to_service"];

const OTHER = {
  alarm: (call) => [eventsOf(call).length, 1],
  machine: (call) => [call.extra?.done?.machine ? 1 : 0, 1],
  make_safe: (call) => [safeMarks(call) + readingsOf(call, "as_found", "absence_test").length, 5],
  repair: (call) => [actionsOf(call).length, 1],
  as_left: (call) => [(call.result?.rounds ?? []).filter((round) => round.label === "as_left" && round.findings.length).length, 1],
  gates: (call) => [OPEN_GATES.filter((gate) => call.result?.gates[gate]?.open).length, OPEN_GATES.length],
  decision: (call) => [standing(thingsOf(call), "decision").length, 1],
  hand_over: (call) => [call.state === "open" || call.state === "returned" ? 0 : 1, 1],
};

export const SAFE = ["staged", "locked", "tried", "waited"];
export const safeMarks = (call) => SAFE.filter((mark) => call.extra?.done?.[mark]).length;

/**
 * The step in hand: the alarm until something is written, then where the engine's first test is, then the ending.
 * @param {import("./actions.js").State} state
 */
export function stepInHand(state, label) {
  const open = (step) => standOf(step, state, label).stand === "open";
  if (state.call.complaint !== "routine" && open("alarm")) return "alarm";
  const wanted = state.call.result?.next_tests?.[0]?.point;
  const group = state.engine.words.points.find((point) => point.name === wanted)?.group;
  return group ?? ["as_left", "decision", "hand_over"].find(open) ?? "hand_over";
}

/**
 * At most three points to offer next: the engine's, else the first unread one after this in its step. What was made moot is never offered.
 * @param {import("./actions.js").State} state @param {string} label @param {string} [after] the point just read
 * @returns {{point: string, because: string}[]}
 */
export function nextPoints({ call, engine }, label, after = "") {
  const offered = (call.result?.next_tests ?? []).filter((test) => test.point !== after);
  if (offered.length) return offered.slice(0, 3);
  const here = engine.words.points.find((point) => point.name === after)?.group;
  const ordered = shelves(engine.words.points, false).flatMap((shelf) => shelf.points);
  const later = ordered.slice(ordered.findIndex((point) => point.name === after) + 1);
  const free = later.find((point) => (!here || point.group === here) && !moot(point, call, label) && readingsOf(call, label, point.name).length === 0);
  return free ? [{ point: free.name, because: "" }] : [];
}
