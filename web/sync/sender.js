// Sends what waits in the outbox, in batches, in the order it was made; only an explicit answer takes an entry out.
import { readMeta } from "../storage/meta.js";
import { sendAllAgain, settle, waiting } from "../storage/log.js";
import { secondsAhead } from "./clock.js";
import { ask, NoLine, Refusal } from "./http.js";

const BATCH = 500;
const BYTES = 512 * 1024;
const TOO_LARGE = 413;

/** How many entries go at once: half as many after each batch that did not come through, so that a bad line carries some and what a server fails on holds up less. */
let most = BATCH;

/**
 * Send until nothing waits. Resolves with what was learned on the way: the clock, and the photos that the server lacks.
 * @param {Session} session
 * @param {(mark: any, session: Session) => boolean} isMine which of the waiting entries this sign-in may send
 * @param {(count: number) => void} onSent after each batch answered
 */
export async function sendWaiting(session, isMine, onSent) {
  let ahead = null;
  const wanted = new Set();
  for (;;) {
    const entries = fitting(await waiting((mark) => isMine(mark, session), most));
    if (entries.length === 0) return { ahead, wanted: [...wanted] };
    const answer = await pushOnce(session, entries);
    if (!answer) continue;
    const left = await settle(answer.results, answer.epoch);
    if (left === null) continue;
    ahead = answer.ahead;
    answer.photos_wanted.forEach((sha256) => wanted.add(sha256));
    most = Math.min(BATCH, most * 2);
    if (left === 0) throw new Error("The server answered for none of the entries.");
    onSent(left);
  }
}

/** As many of these as one request may carry, at least one. */
function fitting(entries) {
  let bytes = 0;
  return entries.filter((entry, place) => {
    bytes += JSON.stringify(entry).length;
    return place === 0 || bytes <= BYTES;
  });
}

async function pushOnce(session, entries) {
  const epoch = await readMeta("epoch");
  const askedAt = Date.now();
  try {
    const answer = await ask("/entries", { method: "POST", token: session.token, body: { device: session.device, epoch: epoch ?? null, entries } });
    return { ...answer, ahead: secondsAhead(answer.server_time, askedAt, Date.now()) };
  } catch (error) {
    if (error instanceof NoLine || error.status === TOO_LARGE || error.status >= 500) most = Math.max(1, Math.floor(entries.length / 2));
    if (error.status === TOO_LARGE && entries.length > 1) return null;
    if (!(error instanceof Refusal) || error.code !== "epoch_changed") throw error;
    await sendAllAgain(session.device, error.problem.epoch);
    return null;
  }
}
