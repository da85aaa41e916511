// Starts of one call: those on record, how many an hour takes, how long to wait, and which leg the next one is for.
import { eventsOf } from "./job.js";
import { readingsOf, thingsOf } from "./round.js";
import { standing } from "./fold.js";

const MINUTE = 60_000;
const HOUR = 60 * MINUTE;
const WAIT = 5 * MINUTE;
const LEGS = ["L1", "L2", "L3"];
const PAIRS = ["T1-T2", "T2-T3", "T3-T1"];

/** Starts on record in milliseconds, oldest first: written down, or caught by a reading; a minute apart they are one. */
export function startsOf(call) {
  const written = eventsOf(call).filter(({ body }) => body.what === "start" && body.at).map(({ body }) => Date.parse(body.at));
  const caught = standing(thingsOf(call), "reading").filter(({ body }) => body.state === "starting" && body.at && !body.not_taken && !body.neighbour).map(({ body }) => Date.parse(body.at));
  return [...written, ...caught].sort((a, b) => a - b).reduce((all, at) => (at - (all.at(-1) ?? -Infinity) > MINUTE ? [...all, at] : all), /** @type {number[]} */ ([]));
}

/**
 * The most starts an hour that pass, and the most that are not refused: the machine's own, else those of its kind.
 * @param {any} plate @param {any[]} checks of the engine @param {Record<string, string>} kinds as the engine calls them in this language
 */
export function rateOf(plate, checks, kinds) {
  const own = plate.limits?.start_rate;
  if (own) return { usual: number(own.watch?.above), most: number(own.fail?.above), source: own.source };
  const limits = checks.find((one) => one.check === "start_rate")?.limits.filter(({ when }) => when === kinds[kindOf(plate.type ?? "")]) ?? [];
  const above = (verdict) => limits.find((one) => one.verdict === verdict)?.above ?? null;
  return { usual: above("watch"), most: above("fail"), source: "" };
}

const number = (value) => (value === undefined ? null : Number(value));
const kindOf = (type) => (type.includes("screw") ? "screw" : type.startsWith("welded") ? "welded" : "semi-hermetic");

/** Starts in the hour up to now: one's own, and those the controller had counted besides when it was read. */
export const startsThisHour = (call, now) => leavingTimes(call).filter((at) => at > now).length;

/** When each start of the last hour leaves it; a counted one, whose time nobody knows, an hour after it was counted. */
function leavingTimes(call) {
  const own = startsOf(call);
  const counted = ["as_found", "interim", "as_left"].flatMap((label) => readingsOf(call, label, "starts_last_hour")).filter(({ body }) => body.value !== undefined && body.at).at(-1);
  if (!counted) return own.map((at) => at + HOUR);
  const read = Date.parse(counted.body.at);
  const others = Math.max(0, Math.round(Number(counted.body.value)) - own.filter((at) => at <= read && at > read - HOUR).length) || 0;
  return [...own, ...Array(others).fill(read)].map((at) => at + HOUR).sort((a, b) => a - b);
}

/**
 * From when the next start is allowed, and why: the wait after the last one, as the engine says it, or the hour's rate.
 * @returns {{due: number, by: "wait" | "rate"}}
 */
export function nextStart(call, rate) {
  const told = (call.result?.clocks ?? []).filter(({ what }) => what === "next_start_allowed").map(({ due }) => Date.parse(due));
  const last = startsOf(call).at(-1);
  const wait = Math.max(0, ...told, last === undefined ? 0 : last + WAIT);
  const leaving = leavingTimes(call);
  const full = rate.usual === null || leaving.length < rate.usual ? 0 : leaving[leaving.length - rate.usual];
  return full > wait ? { due: full, by: "rate" } : { due: wait, by: "wait" };
}

/** The reading that is taken leg by leg: the newest of this kind while legs are missing, else that newest one. */
export const takenByLegs = (call, label, point) => readingsOf(call, label, point).findLast(({ body }) => body.same_start === false && !body.not_taken) ?? null;

const missingOf = (reading, keys) => keys.find((key) => !reading?.body.legs?.[key]) ?? null;
const since = (reading, at) => Boolean(reading?.rows.some((row) => Date.parse(row.entry.made_at) >= at));

/**
 * Where one leg a start stands: "start" the next one, "read" what the meter caught, or "done". Told by the log alone.
 * A start somebody wrote a note to was not caught, or did not turn.
 */
export function legByLeg(call, label, now) {
  const [amps, volts] = ["start_current", "start_voltage"].map((point) => takenByLegs(call, label, point));
  const start = eventsOf(call).filter(({ body }) => body.what === "start" && body.at).sort((a, b) => Date.parse(a.body.at) - Date.parse(b.body.at)).at(-1) ?? null;
  const at = start ? Date.parse(start.body.at) : 0;
  const leg = missingOf(amps, LEGS);
  const fresh = start !== null && !start.body.text && now - at < HOUR / 2;
  const stage = leg === null ? "done" : fresh && !since(amps, at) ? "read" : "start";
  const pair = fresh && since(amps, at) && !since(volts, at) ? missingOf(volts, PAIRS) : null;
  return { stage, leg, pair, start, amps, volts };
}
