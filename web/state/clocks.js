// Clocks of a call: those its readings started, by the engine, and those a technician started by hand.

const MINUTE = 60_000;
/** What a technician times, in milliseconds. */
export const LENGTHS = { insulation_minute: MINUTE, oil_timing: 2 * MINUTE, next_start_allowed: 5 * MINUTE, cooling: 60 * MINUTE };
const SHORT = new Set(Object.keys(LENGTHS));
const STAYS_OVER = 15 * MINUTE;

/**
 * The tiles of a call, the next due first: the phone's own clocks, then the engine's short ones.
 * An engine's clock that ran out is shown a quarter of an hour longer; one's own until it is put away.
 * @param {{timers: Timer[], call: any, clock: {now: number}}} state
 */
export function tilesOf({ timers, call, clock }) {
  const own = timers.filter((timer) => timer.call === call.id).map((timer) => ({ ...timer, mine: true }));
  const told = (call.result?.clocks ?? []).filter(({ what }) => SHORT.has(what)).map(({ what, due, because }) => ({ id: `${what} ${due}`, what, due: Date.parse(due), because, mine: false }));
  const shown = told.filter((tile) => clock.now - tile.due < STAYS_OVER && !own.some((one) => one.what === tile.what));
  return [...own, ...shown].sort((a, b) => a.due - b.due);
}

/** What still runs: every clock a technician started, in whatever call, and the short ones of the open call. */
export const runningOf = (state, now) => [...state.timers.map((timer) => ({ ...timer, mine: true })), ...(state.call ? tilesOf(state).filter((tile) => !tile.mine) : [])].filter(({ due }) => due > now);

/** The later dates the engine names: when to look again. */
export const laterOf = (call, now) =>
  (call.result?.clocks ?? []).filter(({ what, due }) => !SHORT.has(what) && Date.parse(due) > now);

/** Time left as minutes and seconds, or how long it is over. */
export function leftOf(due, now) {
  const seconds = Math.ceil((due - now) / 1000);
  const size = Math.abs(seconds);
  const text = size >= 3600 ? `${Math.floor(size / 3600)}:${pad(Math.floor((size % 3600) / 60))}:${pad(size % 60)}` : `${Math.floor(size / 60)}:${pad(size % 60)}`;
  return { over: seconds <= 0, text };
}

const pad = (number) => String(number).padStart(2, "0");

/** The share of a clock's time that has passed, 0 to 1. */
export const passedOf = ({ began, due }, now) => (began ? Math.min(1, Math.max(0, (now - began) / (due - began))) : 0);

/** Clocks that ran out since anybody was told. */
export const newlyDue = (timers, now) => timers.filter((timer) => !timer.told && timer.due <= now);

/** Which clock helps while a point is read. */
export const CLOCK_OF = { insulation_resistance: "insulation_minute", cable_insulation_resistance: "insulation_minute", trip_delay: "oil_timing", pump_pressure: "oil_timing", start_current: "next_start_allowed", protector_resistance: "cooling" };
