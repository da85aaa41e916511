// Signs, decision and submission of the open call; with the last two is kept what this phone's engine said, in one transaction.
import { pictureOf, wipe } from "../components/ink.js";
import { newEntry, stamp } from "../state/entries.js";
import { actionsOf } from "../state/job.js";
import { keepInCall } from "./call.js";
import { judgeEntries, keepEntries } from "./keep.js";
import { oneAtATime } from "./one-at-a-time.js";

export const closingActs = (page) => ({
  setSign: (sign, present) => keepInCall(page, "sign", { sign, present }),
  closing: (change) => page.store.dispatch({ type: "closing-changed", change }),
  keepDecision: oneAtATime(() => keepDecision(page)),
  wipeInk: (event) => {
    wipe(event.target.form.querySelector("canvas"));
    page.store.dispatch({ type: "closing-changed", change: { drawn: false } });
  },
  sign: oneAtATime((event) => keepSignature(page, event)),
  submit: oneAtATime(() => handIn(page)),
});

/** Name and role as an entry; the drawing as a photo it names. */
async function keepSignature(page, event) {
  event.preventDefault();
  const { target } = event;
  const { state } = page.store;
  const canvas = target.querySelector("canvas");
  const form = new FormData(target);
  const body = { who: String(form.get("who")).trim(), ...(form.get("role") && { role: form.get("role") }) };
  if (!(await keepWithDrawing(page, state, body, await pictureOf(canvas))) || page.store.state.route !== state.route) return;
  target.reset();
  wipe(canvas);
  page.store.dispatch({ type: "closing-changed", change: { drawn: false } });
}

async function keepWithDrawing(page, { session, call }, body, picture) {
  const bytes = await picture.arrayBuffer();
  const sha256 = hex(await crypto.subtle.digest("SHA-256", bytes));
  const photo = newEntry(session, "photo", call.id, { sha256, media_type: "image/png", size: bytes.byteLength, shows: "other", caption: body.who, taken_at: stamp() });
  const entries = [photo, newEntry(session, "signature", call.id, { ...body, photo: photo.id })];
  if (!(await keepEntries(page, entries, [{ sha256, media_type: "image/png", bytes, entry: photo.id }]))) return false;
  judgeEntries(page, entries);
  return true;
}

const hex = (buffer) => [...new Uint8Array(buffer)].map((byte) => byte.toString(16).padStart(2, "0")).join("");

const REPAIRED = new Set(["part_fitted", "cleaned", "setting_changed"]);
const DAY = 86_400_000;

/** The decision names its repair, the last one written down, and the day until which it is watched. */
function decisionOf({ closing, call }) {
  const repair = actionsOf(call).findLast(({ body }) => REPAIRED.has(body.kind));
  const { decision, cause, reason, approver, watch } = closing;
  const until = watch && stamp(new Date(Date.now() + Number(watch) * DAY));
  return Object.fromEntries(Object.entries({ decision, cause, reason, approver, repair: repair?.id, watch_until: until }).filter(([, value]) => value));
}

/** Beside the decision stands what the engine had said when it was taken. */
async function keepDecision(page) {
  const { state } = page.store;
  const decision = newEntry(state.session, "decision", state.call.id, decisionOf(state));
  const kept = await keepBeside(page, judgementOf(state), decision);
  if (kept) judgeEntries(page, [decision]);
  return kept;
}

/** Beside the submission, of all that was judged by then; the call may have been left meanwhile. */
async function handIn(page) {
  const { dispatch, state } = page.store;
  const { session, call, closing } = state;
  dispatch({ type: "closing-changed", change: { handing: true } });
  await Promise.race([page.judging, patience()]);
  const since = page.store.state;
  const said = since.call?.id === call.id && since.call.result ? { ...since, session } : state;
  const submission = newEntry(session, "submission", call.id, closing.note ? { note: closing.note } : {});
  await keepBeside(page, judgementOf(said), submission).finally(() => dispatch({ type: "closing-changed", change: { handing: false } }));
}

/** How long handing in waits for an engine that still thinks, in milliseconds; common practice, no source. */
const PATIENCE = 3000;

/** Over as well when the phone is put away: the browser may never come back to this page. */
const patience = () =>
  new Promise((done) => {
    setTimeout(done, PATIENCE);
    document.addEventListener("visibilitychange", done, { once: true });
  });

/** Both in one transaction; where there is room for the person's word only, that one. */
const keepBeside = async (page, judgement, entry) =>
  (await keepEntries(page, [...judgement, entry])) || (judgement.length > 0 && keepEntries(page, [entry]));

/** What the engine said last, with the entries and the earlier rounds it said it of; nothing where it said nothing. */
function judgementOf({ session, call }) {
  const { id, result, upto } = call;
  if (!result) return [];
  const history = call.history.map(({ extra }) => extra?.content_hash ?? null);
  return [newEntry(session, "judgement", id, { engine: result.engine, upto, result, extra: { history } })];
}
