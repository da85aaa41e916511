// What the thumb does on the screen of a reading, by pad or keyboard.
import { padKey } from "../components/pad.js";
import { cautionMark, stageOf } from "../state/caution.js";
import { fieldsOf, isReady } from "../state/draft.js";
import { jot } from "../storage/meta.js";
import { goOnWhenSure } from "./next-leg.js";
import { oneAtATime } from "./one-at-a-time.js";
import { draftChanged, keepNotTaken, keepReading, undoKept } from "./reading.js";

export function readingActs(page) {
  const { store } = page;
  const change = (type, more = {}) => {
    store.dispatch({ type, ...more });
    draftChanged(page);
  };
  const acts = {
    press(key) {
      change("typed", { key });
      goOnWhenSure(page, key);
    },
    chooseField: (key) => change("field-chosen", { key }),
    nextField: () => change("next-field", { point: pointInHand(store.state) }),
    change: (members) => change("draft-changed", { change: members }),
    hasNext,
    keepReading: oneAtATime(() => keepReading(page)),
    undo: oneAtATime(() => undoKept(page)),
    skip: (asked) => store.dispatch({ type: "skip-asked", asked }),
    notTaken: oneAtATime((reason) => reason && keepNotTaken(page, reason)),
    acknowledge: (step) => acknowledge(store, step),
  };
  return { ...acts, keyboard: (event) => onKey(event, store.state, acts) };
}

const pointInHand = (state) => state.engine.words.points.find((one) => one.name === state.draft?.point);

/** Whether a field after this one still waits for its number. */
function hasNext(point, draft) {
  const keys = fieldsOf(point, draft).map((field) => field.key);
  return keys.slice(keys.indexOf(draft.active) + 1).some((key) => !draft.texts[key]);
}

function acknowledge(store, step) {
  store.dispatch({ type: "acknowledged", step: cautionMark(store.state.call.id, step) });
  jot("acknowledged", [...store.state.acknowledged]);
}

function onKey(event, state, acts) {
  const point = state.draft && state.route.name === "reading" ? pointInHand(state) : null;
  if (!point || stageOf(state, point) !== "typing" || ["INPUT", "TEXTAREA", "SELECT"].includes(event.target.tagName)) return;
  const key = padKey(event);
  if (key === null) return;
  event.preventDefault();
  if (key !== "go") return acts.press(key);
  return isReady(point, state.draft) && !hasNext(point, state.draft) ? acts.keepReading() : acts.nextField();
}
