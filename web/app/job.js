// The job beside its readings: sheets, marks of what is done, steps left out, starts, and what was left open.
import { newEntry, stamp } from "../state/entries.js";
import { changedMembers } from "../state/draft.js";
import { clashesOf, endsOf } from "../state/clashes.js";
import { fold } from "../state/fold.js";
import { unreadOf, usualLabel } from "../state/job.js";
import { bodyOf, faultsOf, SHEETS } from "../state/sheets.js";
import { openingOf } from "../state/sheet-opening.js";
import { readMeta, writeMeta } from "../storage/meta.js";
import { keepInCall, reopenCall } from "./call.js";
import { judgeEntries, keepEntries, tellNotKept } from "./keep.js";
import { oneAtATime } from "./one-at-a-time.js";
import { roundFor } from "./reading.js";
import { startActs } from "./starts.js";

export const jobActs = (page) => ({
  sheetChange: (change) => page.store.dispatch({ type: "sheet-changed", change }),
  keepSheet: oneAtATime(() => keepSheet(page)),
  askSkipStep: (step) => page.store.dispatch({ type: "step-skip-asked", step }),
  skipStep: oneAtATime((step, reason) => reason && skipStep(page, step, reason)),
  takeUp: (step) => markCall(page, "skipped", step, null),
  pickVersion: (kind, id, member, entry) => pickVersion(page, kind, id, member, entry),
  mark: (name, done) => markCall(page, "done", name, done ? stamp() : null),
  ...startActs(page),
  stateValves: oneAtATime((note) => keepInCall(page, "sign", { sign: "valves_stated", present: true, note, at: stamp() })),
});

/** Show a sheet with what is already known filled in. */
export function openSheet({ store }, route) {
  store.dispatch({ type: "sheet-opened", sheet: { name: route.sheet, ...openingOf(route.sheet, route.arg, store.state) } });
}

async function keepSheet(page) {
  const { sheet, session } = page.store.state;
  if (faultsOf(sheet.name, sheet.values).length) return page.store.dispatch({ type: "sheet-tried" });
  const body = bodyOf(sheet.name, sheet.values, sheet.fixed);
  const { kind, own } = SHEETS[sheet.name];
  if (sheet.corrects) return correctThing(page, sheet, body);
  const entry = own ? newEntry(session, kind, null, body) : null;
  const kept = entry ? (await keepEntries(page, [entry])) && entry : await keepInCall(page, kind, body);
  if (kept) await leave(page, sheet.name, kept);
}

/** A plate is corrected by what differs; the call is judged anew with it. */
async function correctThing(page, sheet, body) {
  const { rows, session } = page.store.state;
  const thing = fold(rows).get(sheet.corrects);
  const changed = changedMembers(pickMembers(thing.body, sheet.name), body);
  const entry = newEntry(session, sheet.name, null, changed, endsOf(thing));
  if (Object.keys(changed).length && !(await keepEntries(page, [entry]))) return;
  await reopenCall(page);
  history.back();
}

/** The new entry speaks over every version, so that none stands beside it any more. */
async function pickVersion(page, kind, id, member, chosen) {
  const { rows, session } = page.store.state;
  const thing = fold(rows).get(id);
  const version = clashesOf(thing).find((one) => one.member === member)?.versions.find(({ entry }) => entry === chosen);
  if (!version) return;
  const kept = await keepEntries(page, [newEntry(session, kind, null, { [member]: version.value }, endsOf(thing))]);
  if (kept && page.store.state.call) await reopenCall(page);
}

const pickMembers = (body, name) =>
  Object.fromEntries(SHEETS[name].fields.filter((field) => body[field.name] !== undefined).map((field) => [field.name, body[field.name]]));

const AFTER = {
  async meter(page, entry) {
    const draft = await readMeta("draft");
    if (draft) await writeMeta("draft", { ...draft, meter: entry.id }).catch((error) => tellNotKept(page.store, error));
    await reopenCall(page);
  },
  machine: (page, entry) => page.store.dispatch({ type: "new-call", change: { machine: entry.id } }),
};

async function leave(page, name, entry) {
  await AFTER[name]?.(page, entry);
  history.back();
}

async function skipStep(page, step, reason) {
  const { state } = page.store;
  const { session, call } = state;
  const label = usualLabel(call);
  const unread = unreadOf(step, state, label);
  const round = unread.length ? await roundFor(page, state, label) : "";
  if (round === null) return;
  const readings = unread.map(({ name }) => newEntry(session, "reading", call.id, { round, point: name, not_taken: reason }));
  const entries = [...readings, markOf(state, "skipped", step, { reason, at: stamp() })];
  if (!(await keepEntries(page, entries))) return;
  page.store.dispatch({ type: "step-skip-asked", step: "" });
  judgeEntries(page, entries);
}

async function markCall(page, part, name, value) {
  const mark = markOf(page.store.state, part, name, value);
  if (await keepEntries(page, [mark])) judgeEntries(page, [mark]);
}

/** Marks ride with the call itself, as a correction of its extra members. */
function markOf({ session, call }, part, name, value) {
  const thing = fold(call.rows).get(call.id);
  const marks = { ...call.extra?.[part], [name]: value };
  if (value === null) delete marks[name];
  return newEntry(session, "call", call.id, { extra: { ...call.extra, [part]: marks } }, endsOf(thing));
}
