// Keeps phone and server in step: at start, on regained line, on becoming visible, after each kept entry, by timer.
import { photosLacked } from "../storage/photos.js";
import { pauseAfter } from "./pause.js";
import { NoLine, Refusal } from "./http.js";
import { pullMachines, pullNews } from "./puller.js";
import { sendPhotos } from "./photos.js";
import { sendWaiting } from "./sender.js";

const LOCK = "rackside-line";
/** How long a tab waits for another one's exchange: one that sleeps may hold the lock for ever. */
const TURN = 30_000;

/**
 * @param {{session: () => Session | null, isMine: (mark: any, session: Session) => boolean, tell: (event: any) => void}} page
 */
export function createLine({ session, isMine, tell }) {
  let failures = 0;
  let timer = 0;
  let waited = true;
  let running = false;
  let again = false;

  /** Send, then read. Whether the sign-in still holds is the server's to say: this phone's clock may be a year out. */
  async function exchange() {
    const who = session();
    if (!who) return;
    tell({ type: "line-started" });
    try {
      const { trouble, ...news } = await sendAndPull(who, isMine, tell);
      tell({ type: "line-done", ...news, ...reasonOf(trouble) });
      failures = trouble ? failures + Number(waited) : 0;
    } catch (error) {
      failures += Number(waited);
      tell({ type: "line-failed", ...reasonOf(error) });
    }
  }

  /** Try now. Only a try that the timer made lengthens the pause: keeping ten entries is not ten failures. */
  async function poke(byTimer = false) {
    again = true;
    if (running) return;
    running = true;
    waited = byTimer;
    try {
      while (again) {
        again = false;
        await alone(exchange);
      }
    } finally {
      running = false;
      clearTimeout(timer);
      timer = setTimeout(() => poke(true), pauseAfter(failures));
    }
  }

  function start() {
    addEventListener("online", () => poke());
    document.addEventListener("visibilitychange", () => document.visibilityState === "visible" && poke());
    return poke(true);
  }

  return { start, poke };
}

/** One sender over all tabs of this phone, while they take turns; without the lock the server still copes. */
async function alone(work) {
  if (!navigator.locks) return work();
  return navigator.locks.request(LOCK, { signal: AbortSignal.timeout(TURN) }, work).catch((error) => {
    if (error?.name !== "TimeoutError" && error?.name !== "AbortError") throw error;
    return work();
  });
}

async function sendAndPull(who, isMine, tell) {
  const sent = await sendWaiting(who, isMine, (count) => tell({ type: "sent", count }));
  let news;
  try {
    news = await pullNews(who);
    if (news.count > 0) await pullMachines(who);
    tell({ type: "sent", count: 0 });
  } finally {
    await sendPictures(who, sent.wanted, tell);
  }
  return { ahead: news.ahead ?? sent.ahead, calls: [...news.calls], trouble: sent.trouble };
}

/** Pictures go whether or not there was news: what only this phone holds does not wait for what the server holds. */
async function sendPictures(who, wanted, tell) {
  const lost = await photosLacked(wanted);
  if (lost.length) tell({ type: "photos-lost", lost });
  await sendPhotos(who, (photo) => tell({ type: "photo-left", ...photo }));
}

function reasonOf(error) {
  if (!error) return { reason: "", detail: "" };
  if (error instanceof NoLine) return { reason: "no-line", detail: "" };
  if (error instanceof Refusal && error.status === 401) return { reason: "password", detail: error.message };
  if (error?.name === "QuotaExceededError") return { reason: "full", detail: "" };
  return { reason: "trouble", detail: error.message };
}
