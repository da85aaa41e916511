// Reads the log from the server, page by page; each page and its cursor are kept together.
import { readMeta, writeMeta } from "../storage/meta.js";
import { callsLacked, dropUnseen, keepCall, keepMachines, keepPage } from "../storage/pulled.js";
import { sendAllAgain } from "../storage/log.js";
import { secondsAhead } from "./clock.js";
import { ask, Refusal } from "./http.js";

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
  const [cursor = 0, seen = 1, scope] = await Promise.all(["cursor", "seen", "scope"].map(readMeta));
  const askedAt = Date.now();
  try {
    const query = new URLSearchParams({ after: String(cursor), limit: String(PAGE) });
    if (scope && cursor) query.set("scope", scope);
    const epoch = await readMeta("epoch");
    if (epoch) query.set("epoch", epoch);
    const page = await ask(`/entries?${query}`, { token: session.token });
    if (await serverWentBack(session, page.epoch)) return null;
    for (const call of await callsLacked(page.items)) await pullCall(session, call, seen);
    if (!(await keepPage(page.items, page, seen, session.device, cursor))) return null;
    return { ...page, ahead: secondsAhead(page.server_time, askedAt, Date.now()) };
  } catch (error) {
    if (error instanceof Refusal && error.code === "scope_changed") return fromTheBeginning(seen + 1);
    if (error instanceof Refusal && error.code === "epoch_changed") return sendAllAgain(session.device, error.problem.epoch);
    throw error;
  }
}

async function serverWentBack(session, epoch) {
  const known = await readMeta("epoch");
  if (!known || known === epoch) return false;
  await sendAllAgain(session.device, epoch);
  return true;
}

async function fromTheBeginning(seen) {
  await writeMeta("seen", seen);
  await writeMeta("cursor", 0);
  await writeMeta("scope", null);
  await writeMeta("rereading", true);
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
    await keepCall(page.items, seen);
    ({ cursor: after, more } = page);
  }
}

function notThere(error) {
  if (!(error instanceof Refusal) || error.code !== "not_found") throw error;
  return { items: [], cursor: 0, more: false };
}

/** Plates and the last visits of every machine this person may see. */
export async function pullMachines(session) {
  let next = null;
  do {
    const query = new URLSearchParams({ history: "5", limit: "500", ...(next && { next }) });
    const page = await ask(`/machines?${query}`, { token: session.token });
    await keepMachines(page.items);
    next = page.next;
  } while (next);
}
