// A witnessed start: written down when it happens, passed early with a reason, and what became of it.
import { stamp } from "../state/entries.js";
import { legByLeg } from "../state/starts.js";
import { toLeg } from "../state/route.js";
import words from "../words/index.js";
import { keepInCall } from "./call.js";

export const startActs = (page) => ({
  started: () => keepStart(page),
  startLeg: (label, leg) => startLeg(page, label, leg),
  async startEarly(label, leg, reason) {
    if (!reason || !(await keepInCall(page, "override", { gate: "restart", need: "start_wait", reason }))) return;
    await startLeg(page, label, leg);
  },
  notCaught: (label) => noteStart(page, label, { text: words.starts.notCaught }),
  async stood(label) {
    await noteStart(page, label, { text: words.starts.stood, motor_ran: false });
    await keepInCall(page, "sign", { sign: "hums_no_rotation", present: true, at: stamp() });
  },
});

const keepStart = (page) => keepInCall(page, "event", { device: "controller", what: "start", at: stamp(), by: page.store.state.session.person, motor_ran: true });

/** The start is on record before its number is asked: the wait after it runs whatever the meter caught. */
async function startLeg(page, label, leg) {
  const { call } = page.store.state;
  if (await keepStart(page)) location.hash = toLeg(call.id, label, "start_current", leg);
}

function noteStart(page, label, note) {
  const { start } = legByLeg(page.store.state.call, label, Date.now());
  return start && keepInCall(page, "event", note, [start.rows.at(-1).id]);
}
