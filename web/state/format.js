// Numbers, units and times as the screens show them. Readings themselves are shown as they were typed.

/** Three figures or all whole digits, no trailing zeros. */
export function figure(value) {
  if (typeof value !== "number") return String(value ?? "");
  const size = Math.abs(value);
  const decimals = size >= 100 || size === 0 ? 0 : Math.min(6, 2 - Math.floor(Math.log10(size)));
  return String(Number(value.toFixed(decimals)));
}

export const unitText = (unit, words) => words.unit[unit] ?? unit;

/** The band a verdict of pass allows, in words, from a finding's limits; "" when there is none. */
export function bandText(finding, words) {
  const inner = (side) => finding.limits.filter((limit) => typeof limit[side] === "number");
  const above = closest(inner("above"), "above", Math.min);
  const below = closest(inner("below"), "below", Math.max);
  const unit = unitText(finding.unit, words);
  const spread = finding.legs.some((leg) => leg.judged === undefined && leg.deviation_unit === finding.unit && leg.deviation !== undefined);
  if (above !== null && below !== null) return `${words.band.between(figure(below), figure(above))} ${unit}`;
  if (above !== null) return `${words.band[spread ? "within" : "upTo"](figure(above))} ${unit}`;
  return below !== null ? `${words.band.from(figure(below))} ${unit}` : "";
}

function closest(limits, side, pick) {
  const watch = limits.filter((limit) => limit.verdict === "watch");
  const wanted = (watch.length ? watch : limits).map((limit) => limit[side]);
  return wanted.length ? pick(...wanted) : null;
}

/** What a reading says, as typed: "478 / 480 / 479 V", "OL", "amber". */
export function readingText(body, words) {
  const unit = body.unit ? " " + unitText(body.unit, words) : "";
  if (body.legs) return Object.values(body.legs).join(" / ") + unit;
  if (body.contacts) return body.contacts.map((contact) => `${contact.name} ${contact.volts}`).join(", ") + unit;
  return body.value === undefined ? "" : wordText(body.value, words) + unit;
}

/** Whether a moment can be told: not every entry of other software has one. */
const isTime = (moment) => !Number.isNaN(new Date(moment).getTime());

/** A word that was chosen, "amber", as this phone's language has it; what was typed stands as it is. */
export const wordText = (word, words) => words.word?.[word] ?? word;

export function timeText(moment) {
  if (!isTime(moment)) return "";
  const date = new Date(moment);
  return [date.getHours(), date.getMinutes()].map((number) => String(number).padStart(2, "0")).join(":");
}

export function dayText(moment, words, now = new Date()) {
  if (!isTime(moment)) return "";
  const date = new Date(moment);
  if (date.toDateString() === now.toDateString()) return words.today(timeText(moment));
  return `${dateText(moment)}, ${timeText(moment)}`;
}

/** The day alone; the year only when it is another one. */
export function dateText(moment, now = new Date()) {
  if (!isTime(moment)) return "";
  const date = new Date(moment);
  const year = date.getFullYear() === now.getFullYear() ? undefined : "numeric";
  return calendar(globalThis.document?.documentElement.lang ?? "", year).format(date);
}

const calendars = new Map();

/** A writer of days, made once for a language: making one takes longer than a hundred uses. */
function calendar(language, year) {
  const name = `${language} ${year}`;
  if (!calendars.has(name)) calendars.set(name, new Intl.DateTimeFormat(language || [], { day: "numeric", month: "short", year }));
  return calendars.get(name);
}

/** For ears: each leg with its value and verdict, then the band. */
export function railLabel(finding, title, words) {
  const legs = finding.legs.map((leg) => `${leg.leg} ${figure(leg.value)} ${unitText(leg.unit, words)}, ${words.verdict[leg.verdict ?? finding.verdict]}`);
  const value = legs.length ? legs : [`${figure(finding.value)} ${unitText(finding.unit, words)}, ${words.verdict[finding.verdict]}`];
  const band = bandText(finding, words);
  return [title, ...value, band && `${words.entry.allowed} ${band}`].filter(Boolean).join("; ");
}
