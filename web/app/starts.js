// A witnessed start: written down when it happens, passed early with a reason, and what became of it.
import { stamp } from "../state/entries.js";
import { legByLeg } from "../state/starts.js";
import { toLeg } from "../state/route.js";
import words from "../words/index.js";
import { keepInCall } from "./call.js";
import { oneAtATime } from "./one-at-a-time.js";

export const startActs = (page) => ({
  started: oneAtATime(() => keepStart(page)),
  startLeg: oneAtATime((label, leg) => startLeg(page, label, leg)),
  startEarly: oneAtATime((label, leg, reason) => reason && startEarly(page, label, leg, reason)),
  notCaught: oneAtATime((label) => noteStart(page, label, { text: words.starts.notCaught })),
  stood: oneAtATime((label) => keepStood(page, label)),
});

async function startEarly(page, label, leg, reason) {
  const { state } = page.store;
  if (await keepInCall(page, "override", { gate: "restart", need: "start_wait", reason })) await startLeg(page, label, leg, state);
}

async function keepStood(page, label) {
  const { state } = page.store;
  await noteStart(page, label, { text: words.starts.stood, motor_ran: false });
  return keepInCall(page, "sign", { sign: "hums_no_rotation", present: true, at: stamp() }, { state });
}

const keepStart = (page, state = page.store.state) =>
  keepInCall(page, "event", { device: "controller", what: "start", at: stamp(), by: state.session.person, motor_ran: true }, { state });

/** The start is on record before its number is asked: the wait after it runs whatever the meter caught. */
async function startLeg(page, label, leg, state = page.store.state) {
  if ((await keepStart(page, state)) && page.store.state.route === state.route) location.hash = toLeg(state.call.id, label, "start_current", leg);
}

function noteStart(page, label, note) {
  const { start } = legByLeg(page.store.state.call, label, Date.now());
  return start && keepInCall(page, "event", note, { base: [start.rows.at(-1).id] });
}
