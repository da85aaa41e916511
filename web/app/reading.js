// A reading from the first digit to "kept": the draft, its look, its entry.
import { newEntry, stamp } from "../state/entries.js";
import { changedMembers, hasDigits, isReady, isSameField, isShort, legDraft, newDraft, readingBody } from "../state/draft.js";
import { carriedOver, readingsOf, readingsTaken, roundOf } from "../state/round.js";
import { machinesBeside } from "../state/beside.js";
import { toStarts } from "../state/route.js";
import { legByLeg, takenByLegs } from "../state/starts.js";
import { forget, readMeta, writeMeta } from "../storage/meta.js";
import { keepInCall } from "./call.js";
import { judgeEntries, keepEntries } from "./keep.js";

const REST = 800;
const pointOf = (state, name) => state.engine.words?.points.find((point) => point.name === name);

/** Show the field for a point, with digits typed before the page was closed. */
export async function openReading(page, route) {
  const { store } = page;
  const point = await whenDescribed(store, route.point);
  const { call } = store.state;
  if (!point || !call || store.state.route !== route) return;
  const left = await readMeta("draft");
  const only = legIn(route);
  const beside = route.correct === "beside";
  const base = route.correct === "again" || beside || only ? null : route.correct;
  const mine = left && left.call === call.id && left.label === route.label && left.point === point.name && Boolean(left.neighbour && !base) === beside && (only ? left.only === only : !left.only && left.base === base);
  if (only && !mine) return store.dispatch({ type: "draft-opened", draft: oneLeg(call, point, route.label, only) });
  const corrected = base ? readingsTaken(call, route.label, point.name).find((one) => one.id === base) : null;
  const place = { call: call.id, label: route.label };
  const last = readingsOf(call, route.label, point.name).at(-1);
  if (last && route.correct === null && !mine) return store.dispatch({ type: "reading-kept", id: last.rows.at(-1).id, at: last.rows.at(-1).entry.made_at, point: point.name });
  const fresh = newDraft(point, place, carriedOver(call, point.name), corrected);
  store.dispatch({ type: "draft-opened", draft: mine ? left : beside ? { ...fresh, neighbour: machinesBeside(store.state)[0] } : fresh });
  if (hasDigits(store.state.draft)) lookAt(page);
}

/** The leg that an address asks alone, in a reading taken leg by leg. */
const legIn = ({ correct }) => (correct?.startsWith("leg-") ? correct.slice(4) : undefined);

function oneLeg(call, point, label, leg) {
  const { start } = legByLeg(call, label, Date.now());
  return legDraft(point, { call: call.id, label }, carriedOver(call, point.name), takenByLegs(call, label, point.name), leg, start?.body.at);
}

function whenDescribed(store, name) {
  if (store.state.engine.words || store.state.engine.state === "gone") return pointOf(store.state, name);
  return new Promise((resolve) => store.subscribe((state) => state.engine.words && resolve(pointOf(state, name))));
}

/** After any change of the draft: keep the digits, and ask the engine what it makes of them. */
export async function draftChanged(page) {
  const { draft } = page.store.state;
  writeMeta("draft", draft).catch(() => {});
  if (hasDigits(draft)) await lookAt(page);
}

/**
 * What is typed by the time the round has begun is looked at, not what was typed when it was asked for.
 * A leg that is still shorter than the others waits until the thumb rests: 4, 47, 479 is not two lost legs and a sound one.
 */
async function lookAt(page, rested = false) {
  const { store } = page;
  const { state } = store;
  const round = await roundFor(page, state, state.draft.label);
  const { draft } = store.state;
  if (!round || !draft || draft.neighbour || !isSameField(draft, state.draft)) return;
  const point = pointOf(store.state, draft.point);
  if (point.kind === "absence" && !isReady(point, draft)) return;
  const early = !rested && isShort(point, draft);
  const seen = early ? { ...draft, texts: { ...draft.texts, [draft.active]: "" } } : draft;
  const { round: _round, ...reading } = readingBody(point, seen, round, stamp());
  page.look.ask({ round, reading: defined(reading) });
  if (early) setTimeout(() => store.state.draft === draft && lookAt(page, true), REST);
}

const defined = (body) => Object.fromEntries(Object.entries(body).filter(([, value]) => value !== undefined));

/** @type {Map<string, Promise<string | null>>} rounds being begun, so that two digits begin one */
const beginning = new Map();

/** The round of this label, begun with its first digit; null where it could not be kept. */
export function roundFor(page, { session, call }, label) {
  const known = roundOf(call, label);
  if (known) return known.id;
  const name = `${call.id}/${label}`;
  if (!beginning.has(name)) beginning.set(name, beginRound(page, newEntry(session, "round", call.id, { label, at: stamp() })).finally(() => beginning.delete(name)));
  return beginning.get(name);
}

async function beginRound(page, entry) {
  if (!(await keepEntries(page, [entry]))) return null;
  judgeEntries(page, [entry]);
  return entry.id;
}

export function keepReading(page) {
  const point = pointOf(page.store.state, page.store.state.draft.point);
  return keepBody(page, (round, draft) => defined(readingBody(point, draft, round, draft.at ?? stamp())));
}

export const keepNotTaken = (page, reason) => keepBody(page, (round, { point }) => ({ round, point, not_taken: reason }));

async function keepBody(page, bodyIn) {
  const { state } = page.store;
  const { session, call, draft } = state;
  const round = await roundFor(page, state, draft.label);
  if (round === null) return;
  const body = bodyIn(round, draft);
  const entry = draft.base ? correction(session, call, draft, body) : newEntry(session, "reading", call.id, body);
  if (!(await keepEntries(page, [entry]))) return;
  forget("draft", (held) => isSameField(held, draft));
  if (page.store.state.route === state.route) showKept(page, entry, draft);
  judgeEntries(page, [entry]);
}

function showKept({ store }, entry, draft) {
  store.dispatch({ type: "reading-kept", id: entry.id, at: entry.made_at, point: draft.point });
  if (draft.only) location.hash = toStarts(draft.call, draft.label);
}

/** Take back what was just kept, by a retraction that the log shows; the digits stand in the field again, of a correction as one. */
export async function undoKept(page) {
  const { kept, call, route } = page.store.state;
  const reading = readingsTaken(call, route.label, kept.point).find((one) => one.rows.some((row) => row.id === kept.id));
  if (!reading || !(await keepInCall(page, "retraction", { of: kept.id, why: "undone" }))) return;
  if (page.store.state.route !== route) return;
  const point = pointOf(page.store.state, kept.point);
  const draft = newDraft(point, { call: call.id, label: route.label }, null, { id: reading.id, body: reading.body });
  page.store.dispatch({ type: "draft-opened", draft: { ...draft, base: kept.id === reading.id ? null : reading.id } });
  draftChanged(page);
}

function correction(session, call, draft, body) {
  const before = readingsTaken(call, draft.label, draft.point).find((reading) => reading.id === draft.base);
  return newEntry(session, "reading", call.id, changedMembers(before.body, body), [before.rows.at(-1).id]);
}
