// Opening a call: its entries with those of its machine, site and meters, handed to the engine once.
import { newEntry, stamp } from "../state/entries.js";
import { fold, standing } from "../state/fold.js";
import { toCall } from "../state/route.js";
import { rowsOfCall } from "../storage/log.js";
import { machineHistory } from "../storage/pulled.js";
import { language } from "../words/index.js";
import { judged, judgeEntries, keepEntries, readSettled } from "./keep.js";

/** Resolves once the call is read; the engine judges on. */
export async function openCall(page, id) {
  if (await readCall(page, id)) judgeOpen(page, id);
}

/** Read a call from the phone's store into the state, unless another is asked for by then; without one this phone knows, back to the calls. */
async function readCall(page, id) {
  const { store } = page;
  const turn = (page.opening += 1);
  const known = summaryOf(store, id);
  if (!known) {
    location.hash = "#/";
    return false;
  }
  const [rows, held] = await readSettled(page, () => Promise.all([rowsOfCall(id), machineHistory(known.machine)]));
  if (page.opening !== turn) return false;
  const summary = summaryOf(store, id) ?? known;
  const plate = store.state.register.machines.find((one) => one.id === summary.machine) ?? {};
  store.dispatch({ type: "call-opened", call: { ...summary, rows, plate, history: earlier(held, summary), result: null, upto: [], judging: 0 } });
  return true;
}

const summaryOf = (store, id) => store.state.register.calls.find((call) => call.id === id);

/** News of the open call came in: read its log again; the engine judges it anew. */
export async function reopenCall(page) {
  const id = page.store.state.call?.id;
  if (!id) return;
  const rows = await readSettled(page, () => rowsOfCall(id));
  if (page.store.state.call?.id !== id) return;
  page.store.dispatch({ type: "call-rows", rows });
  judgeOpen(page, id);
}

/** What the server judges by, too: the last five rounds before this call. */
const earlier = (held, { id, opened_at: opened }) =>
  (held?.history ?? []).filter((round) => round.call !== id && !(Date.parse(round.at) >= Date.parse(opened))).slice(-5);

function judgeOpen(page, id) {
  const { call, rows } = page.store.state;
  const told = [...rowsAround(rows, call), ...call.rows].filter(({ kind }) => kind !== "judgement");
  const entries = told.map(({ entry, cursor }) => (cursor === null ? entry : { ...entry, cursor }));
  judged(page, id, page.judge.open({ call: id, entries, history: call.history }, language));
}

/** The log of the machine, its site and the meters. */
function rowsAround(rows, call) {
  const things = fold(rows);
  const wanted = [things.get(call.machine), things.get(call.site), ...standing(things, "meter")];
  return wanted.filter(Boolean).flatMap((thing) => thing.rows);
}

export async function startCall(page) {
  const { session, newCall, route } = page.store.state;
  const body = { machine: newCall.machine, complaint: newCall.complaint, opened_at: stamp(), assigned_to: session.person };
  const entry = newEntry(session, "call", "own", newCall.reported ? { ...body, reported: newCall.reported } : body);
  if (!(await keepEntries(page, [entry]))) return;
  page.store.dispatch({ type: "new-call", change: { machine: "", complaint: "", reported: "" } });
  if (page.store.state.route === route) location.hash = toCall(entry.id);
}

/**
 * Keep one entry of a call, with its photo where it has one, and judge it. An act that waited for something first gives
 * the state it began with: another call may be open by now.
 */
export async function keepInCall(page, kind, body, { base = /** @type {string[]} */ ([]), photo = /** @type {any} */ (null), state = page.store.state } = {}) {
  const { session, call } = state;
  const entry = newEntry(session, kind, call.id, body, base);
  if (!(await keepEntries(page, [entry], photo ? [{ ...photo, entry: entry.id }] : []))) return null;
  judgeEntries(page, [entry]);
  return entry;
}
