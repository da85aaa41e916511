// Clocks of a call and of a technician: a screen that stays on while one runs, a sound when it is over, both only while the page is seen.
import { newId } from "../state/entries.js";
import { LENGTHS, newlyDue, runningOf, tilesOf } from "../state/clocks.js";
import { readMeta, writeMeta } from "../storage/meta.js";
import { tellNotKept } from "./keep.js";

const SECOND = 1000;
let lock = /** @type {any} */ (null);
let asking = false;
let beaten = Date.now();
let sound = /** @type {AudioContext | null} */ (null);

export const clockActs = (page) => ({
  startClock: (what) => startClock(page, what),
  putClockAway: (id) => changeTimers(page, (timers) => timers.filter((timer) => timer.id !== id)),
});

/** Clocks that ran while the page was away go on with their true time; then one beat a second while any is shown. */
export async function startClocks(page) {
  const timers = (await readMeta("timers")) ?? [];
  page.store.dispatch({ type: "timers-changed", timers, now: Date.now() });
  setInterval(() => beat(page), SECOND);
  document.addEventListener("visibilitychange", () => document.visibilityState === "visible" && beat(page));
  for (const touch of ["pointerdown", "keydown"]) document.addEventListener(touch, () => wakeSound(page), { capture: true, once: true });
}

/** No browser lets a page sound before somebody touched it: after a reload the first touch makes it able to. */
function wakeSound({ store }) {
  sound ??= globalThis.AudioContext ? new AudioContext() : null;
  if (!store.state.clock.audible) store.dispatch({ type: "sound-woken" });
}

function startClock(page, what) {
  const now = Date.now();
  const timer = { id: newId(), call: page.store.state.call.id, what, began: now, due: now + LENGTHS[what] };
  return changeTimers(page, (timers) => [...timers.filter((one) => one.call !== timer.call || one.what !== what), timer]);
}

let changing = Promise.resolve();

/** One change after another; a clock is kept before it is shown, so that a reload finds it. */
async function changeTimers(page, change) {
  changing = changing.then(() => keepTimers(page, change(page.store.state.timers)));
  await changing;
  await holdScreen(page);
}

async function keepTimers({ store }, timers) {
  await writeMeta("timers", timers).catch((error) => tellNotKept(store, error));
  store.dispatch({ type: "timers-changed", timers, now: Date.now() });
}

async function beat(page) {
  const { store } = page;
  const now = Date.now();
  if (document.visibilityState !== "visible") return;
  const ran = runningOf(store.state, beaten);
  beaten = now;
  const shown = store.state.route.name === "starts" || store.state.timers.length || (store.state.call && tilesOf(store.state).length);
  if (shown) store.dispatch({ type: "ticked", now });
  await holdScreen(page);
  const due = newlyDue(store.state.timers, now);
  if (due.length || ran.some((tile) => !tile.mine && tile.due <= now)) signal();
  if (due.length) await changeTimers(page, (timers) => timers.map((timer) => (due.some(({ id }) => id === timer.id) ? { ...timer, told: true } : timer)));
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

/** The screen stays on while a clock runs and the page is seen; the browser may still say no, and is asked again when the page comes back. */
async function holdScreen({ store }) {
  const running = runningOf(store.state, Date.now()).length > 0;
  if (running && !lock && !asking) await askForLock(store);
  if (!running && lock) await lock.release();
  if (store.state.clock.awake !== Boolean(lock)) store.dispatch({ type: "wake-lock", awake: Boolean(lock) });
}

async function askForLock(store) {
  asking = true;
  lock = (await navigator.wakeLock?.request("screen").catch(() => null)) ?? null;
  asking = false;
  lock?.addEventListener("release", () => forget(store));
}

function forget(store) {
  lock = null;
  store.dispatch({ type: "wake-lock", awake: false });
}
