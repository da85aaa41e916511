// Signs, decision and submission of the open call; with the last two goes what this phone's engine said.
import { pictureOf, wipe } from "../components/ink.js";
import { newEntry, stamp } from "../state/entries.js";
import { actionsOf } from "../state/job.js";
import { keepInCall } from "./call.js";
import { judgeEntries, keepEntries } from "./keep.js";

export const closingActs = (page) => ({
  setSign: (sign, present) => keepInCall(page, "sign", { sign, present }),
  closing: (change) => page.store.dispatch({ type: "closing-changed", change }),
  async keepDecision() {
    await keepInCall(page, "decision", decisionOf(page.store.state));
    await keepJudgement(page);
  },
  wipeInk: (event) => {
    wipe(event.target.form.querySelector("canvas"));
    page.store.dispatch({ type: "closing-changed", change: { drawn: false } });
  },
  sign: (event) => keepSignature(page, event),
  async submit() {
    const { note } = page.store.state.closing;
    await keepJudgement(page);
    await keepInCall(page, "submission", note ? { note } : {});
  },
});

/** Name and role as an entry; the drawing as a photo it names. */
async function keepSignature(page, event) {
  event.preventDefault();
  const { target } = event;
  const canvas = target.querySelector("canvas");
  const form = new FormData(target);
  const body = { who: String(form.get("who")).trim(), ...(form.get("role") && { role: form.get("role") }) };
  if (!(await keepWithDrawing(page, body, await pictureOf(canvas)))) return;
  target.reset();
  wipe(canvas);
  page.store.dispatch({ type: "closing-changed", change: { drawn: false } });
}

async function keepWithDrawing(page, body, picture) {
  const { session, call } = page.store.state;
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

async function keepJudgement(page) {
  const { call, engine } = page.store.state;
  if (!call.result) return;
  const upto = call.rows.map((row) => row.id);
  await keepInCall(page, "judgement", { engine: engine.words.engine, upto, result: call.result });
}
