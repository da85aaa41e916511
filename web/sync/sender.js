// Sends what waits in the outbox, in batches, in the order it was made; only an explicit answer takes an entry out.
import { readMeta } from "../storage/meta.js";
import { sendAllAgain, settle, waiting } from "../storage/log.js";
import { secondsAhead } from "./clock.js";
import { ask, NoLine, Refusal } from "./http.js";

const BATCH = 500;
const BYTES = 512 * 1024;
/** Answers to a whole batch that may be for one entry's sake: it is looked for by halves, and gone past when it came alone. */
const FOR_ONES_SAKE = new Set([413, 500]);
/** After more than so many gone past in a row it is the server that fails, not they: it is left in peace for now. */
const SICK = 5;
const NONE = new Set();

/** How many entries go at once: half as many after each batch that did not come through, so that a bad line carries some. */
let most = BATCH;
/** What the server failed on when last asked: the next exchange begins with all others. */
let behind = new Set();

/**
 * Send until nothing waits but what the server fails on even alone, and what leans on that. Resolves with what was learned
 * on the way: the clock, the photos that the server lacks, and the error of what was gone past, or null.
 * @param {Session} session
 * @param {(mark: any, session: Session) => boolean} isMine which of the waiting entries this sign-in may send
 * @param {(count: number) => void} onSent after each batch answered
 */
export async function sendWaiting(session, isMine, onSent) {
  const learned = { ahead: null, wanted: new Set() };
  const past = { failed: new Map(), inRow: 0 };
  const next = (but) => waiting((mark) => isMine(mark, session) && !past.failed.has(mark.id) && !but.has(mark.id), most);
  while (past.inRow <= SICK) {
    const others = await next(behind);
    const entries = fitting(others.length ? others : await next(NONE));
    if (entries.length === 0) break;
    const left = await sendOnce(session, entries, past, learned);
    if (left) onSent(left);
  }
  behind = past.inRow > SICK ? new Set([...behind, ...past.failed.keys()]) : new Set(past.failed.keys());
  return { ahead: learned.ahead, wanted: [...learned.wanted], trouble: [...past.failed.values()][0] ?? null };
}

/** How many of these the server answered for; null when what waits is to be looked at anew. */
async function sendOnce(session, entries, past, learned) {
  const answer = await pushOnce(session, entries, past);
  const left = answer && (await settle(answer.results, answer.epoch));
  if (left === null) return null;
  learned.ahead = answer.ahead;
  answer.photos_wanted.forEach((sha256) => learned.wanted.add(sha256));
  most = Math.min(BATCH, most * 2);
  past.inRow = 0;
  if (left === 0) throw new Error("The server answered for none of the entries.");
  return left;
}

/** As many of these as one request may carry, at least one. */
function fitting(entries) {
  let bytes = 0;
  return entries.filter((entry, place) => {
    bytes += JSON.stringify(entry).length;
    return place === 0 || bytes <= BYTES;
  });
}

/** The server's answer; null when what waits is to be looked at anew. */
async function pushOnce(session, entries, past) {
  const epoch = await readMeta("epoch");
  const askedAt = Date.now();
  try {
    const answer = await ask("/entries", { method: "POST", token: session.token, body: { device: session.device, epoch: epoch ?? null, entries } });
    return { ...answer, ahead: secondsAhead(answer.server_time, askedAt, Date.now()) };
  } catch (error) {
    if (error instanceof NoLine || error.status >= 500 || FOR_ONES_SAKE.has(error.status)) most = Math.max(1, Math.floor(entries.length / 2));
    if (FOR_ONES_SAKE.has(error.status)) goPast(entries, error, past);
    else if (error instanceof Refusal && error.code === "epoch_changed") await sendAllAgain(session.device, error.problem.epoch);
    else throw error;
    return null;
  }
}

function goPast(entries, error, past) {
  if (entries.length > 1) return;
  past.inRow += 1;
  past.failed.set(entries[0].id, error);
}
