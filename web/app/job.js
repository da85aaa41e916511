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
import { keepEntries, tellNotKept } from "./keep.js";
import { keepMark } from "./marks.js";
import { oneAtATime } from "./one-at-a-time.js";
import { roundFor } from "./reading.js";
import { startActs } from "./starts.js";

export const jobActs = (page) => ({
  sheetChange: (change) => page.store.dispatch({ type: "sheet-changed", change }),
  keepSheet: oneAtATime(() => keepSheet(page)),
  askSkipStep: (step) => page.store.dispatch({ type: "step-skip-asked", step }),
  skipStep: oneAtATime((step, reason) => reason && skipStep(page, step, reason)),
  takeUp: (step) => keepMark(page, page.store.state, "skipped", step, null),
  pickVersion: (kind, id, member, entry) => pickVersion(page, kind, id, member, entry),
  mark: (name, done) => keepMark(page, page.store.state, "done", name, done ? stamp() : null),
  ...startActs(page),
  stateValves: oneAtATime((note) => keepInCall(page, "sign", { sign: "valves_stated", present: true, note, at: stamp() })),
});

/** Show a sheet with what is already known filled in. */
export function openSheet({ store }, route) {
  store.dispatch({ type: "sheet-opened", sheet: { name: route.sheet, ...openingOf(route.sheet, route.arg, store.state) } });
}

async function keepSheet(page) {
  const { sheet, session, route } = page.store.state;
  if (faultsOf(sheet.name, sheet.values).length) return void page.store.dispatch({ type: "sheet-tried" });
  const body = bodyOf(sheet.name, sheet.values, sheet.fixed);
  const { kind, own } = SHEETS[sheet.name];
  if (sheet.corrects) return correctThing(page, sheet, body);
  const entry = own ? newEntry(session, kind, null, body) : null;
  const kept = entry ? (await keepEntries(page, [entry])) && entry : await keepInCall(page, kind, body);
  if (!kept) return null;
  await AFTER[sheet.name]?.(page, kept);
  return leave(page, route);
}

/** A plate is corrected by what differs; the call is judged anew with it. */
async function correctThing(page, sheet, body) {
  const { rows, session, route } = page.store.state;
  const thing = fold(rows).get(sheet.corrects);
  const changed = changedMembers(pickMembers(thing.body, sheet.name), body);
  const entry = newEntry(session, sheet.name, null, changed, endsOf(thing));
  if (Object.keys(changed).length && !(await keepEntries(page, [entry]))) return null;
  await reopenCall(page);
  return leave(page, route);
}

/** The new entry speaks over every version, so that none stands beside it any more. */
async function pickVersion(page, kind, id, member, chosen) {
  const { rows, session } = page.store.state;
  const thing = fold(rows).get(id);
  const version = clashesOf(thing).find((one) => one.member === member)?.versions.find(({ entry }) => entry === chosen);
  if (!version) return;
  const kept = await keepEntries(page, [newEntry(session, kind, null, { [member]: version.value }, endsOf(thing))]);
  if (kept) await reopenCall(page);
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

/** Back from a sheet, where the person has not left it already; its button stands until the browser has gone. */
function leave(page, route) {
  if (page.store.state.route === route) history.back();
  return true;
}

async function skipStep(page, step, reason) {
  const { state } = page.store;
  const { session, call } = state;
  const label = usualLabel(call);
  const unread = unreadOf(step, state, label);
  const round = unread.length ? await roundFor(page, state, label) : "";
  if (round === null) return;
  const readings = unread.map(({ name }) => newEntry(session, "reading", call.id, { round, point: name, not_taken: reason }));
  const kept = await keepMark(page, state, "skipped", step, { reason, at: stamp() }, readings);
  if (kept) page.store.dispatch({ type: "step-skip-asked", step: "" });
}
