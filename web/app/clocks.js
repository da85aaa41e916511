// Clocks a technician starts: a due time kept on this phone, a screen that stays on, a sound while the page is seen.
import { newId } from "../state/entries.js";
import { LENGTHS, newlyDue, tilesOf } from "../state/clocks.js";
import { readMeta, writeMeta } from "../storage/meta.js";

const SECOND = 1000;
let lock = /** @type {any} */ (null);
let sound = /** @type {AudioContext | null} */ (null);

export const clockActs = (page) => ({
  startClock: (what) => startClock(page, what),
  putClockAway: (id) => keepTimers(page, page.store.state.timers.filter((timer) => timer.id !== id)),
});

/** Clocks that ran while the page was away go on with their true time; then one beat a second while any is shown. */
export async function startClocks(page) {
  const timers = (await readMeta("timers")) ?? [];
  page.store.dispatch({ type: "timers-changed", timers, now: Date.now() });
  setInterval(() => beat(page), SECOND);
  document.addEventListener("visibilitychange", () => document.visibilityState === "visible" && beat(page));
}

async function startClock(page, what) {
  sound ??= globalThis.AudioContext ? new AudioContext() : null;
  const now = Date.now();
  const timer = { id: newId(), call: page.store.state.call.id, what, began: now, due: now + LENGTHS[what] };
  const others = page.store.state.timers.filter((one) => one.call !== timer.call || one.what !== what);
  await keepTimers(page, [...others, timer]);
}

/** A clock is kept before it is shown, so that a reload finds it. */
async function keepTimers(page, timers) {
  await writeMeta("timers", timers);
  page.store.dispatch({ type: "timers-changed", timers, now: Date.now() });
  await holdScreen(page);
}

async function beat(page) {
  const { store } = page;
  const now = Date.now();
  if (document.visibilityState !== "visible") return;
  if (store.state.timers.length || (store.state.call && tilesOf(store.state).length)) store.dispatch({ type: "ticked", now });
  const due = newlyDue(store.state.timers, now);
  await holdScreen(page);
  if (due.length === 0) return;
  signal();
  await keepTimers(page, store.state.timers.map((timer) => (due.includes(timer) ? { ...timer, told: true } : timer)));
}

function signal() {
  navigator.vibrate?.([300, 120, 300]);
  if (!sound) return;
  for (const start of [0, 0.35, 0.7]) {
    const tone = sound.createOscillator();
    tone.frequency.value = 880;
    tone.connect(sound.destination);
    tone.start(sound.currentTime + start);
    tone.stop(sound.currentTime + start + 0.2);
  }
}

/** The screen stays on while a clock runs and the page is seen; the browser may still say no. */
async function holdScreen({ store }) {
  const running = store.state.timers.some((timer) => timer.due > Date.now());
  if (running && !lock) {
    lock = await navigator.wakeLock?.request("screen").catch(() => null);
    lock?.addEventListener("release", () => forget(store));
  }
  if (!running && lock) await lock.release();
  if (store.state.clock.awake !== Boolean(lock)) store.dispatch({ type: "wake-lock", awake: Boolean(lock) });
}

function forget(store) {
  lock = null;
  store.dispatch({ type: "wake-lock", awake: false });
}
