// Sends what waits in the outbox, in batches, in the order it was made; only an explicit answer takes an entry out.
import { readMeta } from "../storage/meta.js";
import { sendAllAgain, settle, waiting } from "../storage/log.js";
import { secondsAhead } from "./clock.js";
import { ask, Refusal } from "./http.js";

const BATCH = 500;

/**
 * Send until nothing waits. Resolves with what was learned on the way.
 * @param {Session} session
 * @param {(mark: any, session: Session) => boolean} isMine which of the waiting entries this sign-in may send
 * @param {(count: number) => void} onSent after each batch answered
 */
export async function sendWaiting(session, isMine, onSent) {
  let ahead = null;
  for (;;) {
    const entries = await waiting((mark) => isMine(mark, session), BATCH);
    if (entries.length === 0) return { ahead };
    const answer = await pushOnce(session, entries);
    if (!answer) continue;
    ahead = answer.ahead;
    const left = await settle(answer.results);
    if (left === 0) throw new Error("The server answered for none of the entries.");
    onSent(left);
  }
}

async function pushOnce(session, entries) {
  const epoch = await readMeta("epoch");
  const askedAt = Date.now();
  try {
    const answer = await ask("/entries", { method: "POST", token: session.token, body: { device: session.device, epoch: epoch ?? null, entries } });
    return { ...answer, ahead: secondsAhead(answer.server_time, askedAt, Date.now()) };
  } catch (error) {
    if (!(error instanceof Refusal) || error.code !== "epoch_changed") throw error;
    await sendAllAgain(session.device, error.problem.epoch);
    return null;
  }
}
