// One call's rounds as the screens show them: points in the order of work, what was read, what was found.
import { fold, standing } from "./fold.js";

export const LABELS = ["as_found", "interim", "as_left"];
const GROUPS = ["look", "supply", "control", "make_safe", "isolated", "start", "running", "oil", "heat", "repair"];

/** @param {{rows: Row[]}} call */
export const thingsOf = (call) => fold(call.rows);

/** The newest round with a label, or null. */
export const roundOf = (call, label) => standing(thingsOf(call), "round").findLast((round) => round.body.label === label) ?? null;

/** Readings of a point on this machine in the rounds of one label, oldest first. */
export const readingsOf = (call, label, point) => readingsTaken(call, label, point).filter(({ body }) => !body.neighbour);

/** Readings of a point on the machines beside, the newest of each. */
export const readBeside = (call, label, point) =>
  readingsTaken(call, label, point).filter(({ body }, i, all) => body.neighbour && !all.slice(i + 1).some((later) => later.body.neighbour?.tag === body.neighbour.tag));

/** Readings of a point on whatever machine, oldest first. */
export function readingsTaken(call, label, point) {
  const things = thingsOf(call);
  const rounds = new Set(standing(things, "round").filter((round) => round.body.label === label).map((round) => round.id));
  return standing(things, "reading").filter((reading) => rounds.has(reading.body.round) && reading.body.point === point);
}

/**
 * Points in the order of work, one shelf per step.
 * @param {Point[]} points
 * @param {boolean} all also those no check reads
 */
export function shelves(points, all) {
  const wanted = all ? points : points.filter((point) => point.checks.length > 0);
  const found = GROUPS.map((group) => ({ group, points: wanted.filter((point) => point.group === group) }));
  return found.filter(({ points }) => points.length > 0);
}

/** Findings of the result that rest on a reading, the worst first. */
export function findingsOn(result, reading) {
  const ids = new Set(reading.rows.map((row) => row.id));
  const all = (result?.rounds ?? []).flatMap((round) => round.findings);
  return all.filter((finding) => finding.readings.some((id) => ids.has(id))).sort(worstFirst);
}

const WORST = ["fail", "watch", "cannot_tell", "pass"];
export const worstFirst = (a, b) => WORST.indexOf(a.verdict) - WORST.indexOf(b.verdict);

/** The verdict a row of the list shows: the worst of what was found; undefined when nothing judged it. */
export const worst = (findings) => [...findings].sort(worstFirst)[0]?.verdict;

/** A finding to draw: one of this point's own legs before another's, one with numbers before one without, the worst first. */
export const pictured = (findings, keys = []) =>
  [...findings].sort((a, b) => own(b, keys) - own(a, keys) || Number(drawable(b)) - Number(drawable(a)) || worstFirst(a, b))[0] ?? null;

const own = (finding, keys) => Number(finding.legs.some((leg) => keys.includes(leg.leg)));

const drawable = (finding) => finding.legs.length > 0 || finding.value !== null;

/** What the next reading of a point may carry over: the last of this point, else the last reading at all. */
export function carriedOver(call, point) {
  const readings = standing(thingsOf(call), "reading").filter((reading) => !reading.body.not_taken);
  const same = readings.findLast((reading) => reading.body.point === point && !reading.body.neighbour);
  const last = same ?? readings.at(-1);
  return last ? { ...Object.assign({}, ...readings.map(({ body }) => choicesIn(body))), ...last.body } : null;
}

const choicesIn = ({ leads, probe, capture, same_start, load }) =>
  Object.fromEntries(Object.entries({ leads, probe, capture, same_start, load }).filter(([, value]) => value !== undefined));

/** The newest earlier reading of a point, with its date. */
export function lastVisit(history, point) {
  for (const round of [...(history ?? [])].sort((a, b) => Date.parse(b.at) - Date.parse(a.at))) {
    const reading = round.readings.find((one) => one.point === point && !one.not_taken);
    if (reading) return { at: round.at, reading };
  }
  return null;
}

/** Signs as they stand: the latest of each counts. */
export function signsOf(call) {
  const said = standing(thingsOf(call), "sign").map((thing) => [thing.body.sign, thing.body.present]);
  return Object.fromEntries(said);
}

/** The note beside the latest answer to a sign. */
export const signNote = (call, sign) => standing(thingsOf(call), "sign").findLast((thing) => thing.body.sign === sign)?.body.note ?? "";
