// Reads the log from the server, page by page; each page and its cursor are kept together.
import { readFacts, readMeta, writeFacts, writeMeta } from "../storage/meta.js";
import { callsLacked, dropUnseen, keepCall, keepMachines, keepPage } from "../storage/pulled.js";
import { sendAllAgain } from "../storage/log.js";
import { secondsAhead } from "./clock.js";
import { ask, Refusal } from "./http.js";

/** @typedef {import("../storage/pulled.js").Asked} Asked */

const PAGE = 1000;

/**
 * Pull until the server has no more. Resolves with what changed.
 * @param {Session} session
 */
export async function pullNews(session) {
  const news = { calls: new Set(), count: 0, ahead: null };
  for (;;) {
    const page = await pullOnce(session);
    if (!page) continue;
    news.ahead = page.ahead;
    news.count += page.items.length;
    page.items.forEach((item) => news.calls.add(item.call));
    if (page.more) continue;
    await finishReading();
    return news;
  }
}

async function pullOnce(session) {
  const asked = await whereWeAre();
  const askedAt = Date.now();
  try {
    const page = await ask(`/entries?${queryOf(asked)}`, { token: session.token });
    if (asked.epoch && asked.epoch !== page.epoch) return another(session, page.epoch);
    if (asked.cursor === 0 && asked.scope && asked.scope !== page.scope) return fromTheBeginning(asked.seen + 1);
    for (const call of await callsLacked(page.items, asked.seen)) await pullCall(session, call, asked.seen);
    if (!(await keepPage(page.items, page, asked, session.device))) return null;
    return { ...page, ahead: secondsAhead(page.server_time, askedAt, Date.now()) };
  } catch (error) {
    if (error instanceof Refusal && error.code === "scope_changed") return fromTheBeginning(asked.seen + 1);
    if (error instanceof Refusal && error.code === "epoch_changed") return another(session, error.problem.epoch);
    throw error;
  }
}

/** How far this phone has read, in which reading from the beginning, of which log and scope. @returns {Promise<Asked>} */
async function whereWeAre() {
  const [cursor = 0, seen = 1, epoch = null, scope = null] = await readFacts(["cursor", "seen", "epoch", "scope"]);
  return { cursor, seen, epoch, scope };
}

function queryOf({ cursor, scope, epoch }) {
  const query = new URLSearchParams({ after: String(cursor), limit: String(PAGE) });
  if (scope && cursor) query.set("scope", scope);
  if (epoch) query.set("epoch", epoch);
  return query;
}

/** The server went back in time, or is another: it is offered all there is, and read anew. @returns {Promise<null>} */
async function another(session, epoch) {
  await sendAllAgain(session.device, epoch);
  return null;
}

/** What left the scope goes when this reading is finished. @returns {Promise<null>} */
async function fromTheBeginning(seen) {
  await writeFacts({ seen, cursor: 0, scope: null, rereading: true });
  return null;
}

async function finishReading() {
  if (!(await readMeta("rereading"))) return;
  await dropUnseen(await readMeta("seen"));
  await writeMeta("rereading", false);
}

/** Everything of one call, because an entry came of a call this phone lacks; nothing when it may not be seen. */
async function pullCall(session, call, seen) {
  for (let after = 0, more = true; more; ) {
    const query = new URLSearchParams({ call, after: String(after), limit: String(PAGE) });
    const page = await ask(`/entries?${query}`, { token: session.token }).catch(notThere);
    await keepCall(page, seen);
    ({ cursor: after, more } = page);
  }
}

function notThere(error) {
  if (!(error instanceof Refusal) || error.code !== "not_found") throw error;
  return { items: [], cursor: 0, more: false };
}

/** Plates and the last rounds of every machine this person may see: five to judge by, beside those of the call in hand. */
export async function pullMachines(session) {
  let next = null;
  do {
    const query = new URLSearchParams({ history: "8", limit: "500", ...(next && { next }) });
    const page = await ask(`/machines?${query}`, { token: session.token });
    await keepMachines(page.items);
    next = page.next;
  } while (next);
}
