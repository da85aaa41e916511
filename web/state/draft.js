// The reading being typed: which fields it has, where the thumb is, and the entry body it becomes.
import { choicesOf, isCarried, measuredOf } from "./conditions.js";
import { isComplete, press, settled } from "./digits.js";
import { returned } from "./next-leg.js";

const WINDING = "winding_temperature";
const CHAIN = ["fuse", "switch", "controller relay", "high pressure", "low pressure", "oil control", "module", "overload", "coil"];

/**
 * @param {Point} point
 * @param {{call: string, label: string}} place
 * @param {any} carried body of the last reading whose state, unit, meter and choices still hold
 * @param {{id: string, body: any} | null} corrected the reading this one corrects
 * @returns {Draft}
 */
export function newDraft(point, place, carried, corrected = null) {
  const known = corrected?.body ?? carried ?? {};
  const draft = {
    ...place,
    point: point.name,
    base: corrected?.id ?? null,
    unit: pick(known.point === point.name ? known.unit : null, point.units),
    state: pick(corrected || !lockedOut(point) ? known.state : "isolated", point.states, "stopped"),
    warmth: corrected?.body.winding_temperature_unit ?? point.warmth ?? "F",
    meter: typeof known.meter === "string" ? known.meter : "",
    choices: chosenIn(point, known, corrected ? () => true : (name) => isCarried(name, known.point === point.name)),
    texts: corrected ? textsOf(point, corrected.body) : {},
    ...(known.neighbour && corrected && { neighbour: known.neighbour }),
    active: "",
  };
  return { ...draft, active: fieldsOf(point, draft)[0]?.key ?? "" };
}

/** What belongs to the tests locked out is not read running because the reading before it was. */
const lockedOut = (point) => point.group === "isolated" && point.states.includes("isolated");

/** Whether two drafts are of the same field of the same call, whatever is typed there. */
export const isSameField = (one, other) => ["call", "label", "point", "base", "only"].every((key) => one[key] === other[key]);

const pick = (wanted, allowed, usual = "") => [wanted, usual].find((one) => allowed.includes(one)) ?? allowed[0] ?? "";

const chosenIn = (point, body, holds) =>
  Object.fromEntries(choicesOf(point.name).filter(({ name }) => body[name] !== undefined && holds(name)).map(({ name }) => [name, body[name]]));

function textsOf(point, body) {
  const texts = { ...body.legs };
  for (const contact of body.contacts ?? []) texts[contact.name] = String(contact.volts ?? "");
  for (const key of ["value", "known_source_before", "known_source_after"]) if (body[key] !== undefined) texts[key] = String(body[key]);
  for (const { key } of measuredOf(point.name)) if (body[key] !== undefined) texts[key] = String(body[key]);
  return texts;
}

/** One leg of a reading that is taken leg by leg: what the others caught stands beside it, each in a start of its own. */
export function legDraft(point, place, carried, reading, leg, at) {
  const draft = newDraft(point, place, carried, reading && { id: reading.id, body: reading.body });
  return { ...draft, only: leg, active: leg, at, choices: { ...draft.choices, same_start: false } };
}

/**
 * The fields in the order they are asked.
 * @param {Point} point @param {{unit: string, warmth?: string, only?: string}} draft
 * @returns {Field[]}
 */
export function fieldsOf(point, draft) {
  const measured = measuredOf(point.name).map(({ key, unit }) => ({ key, unit: key === WINDING ? draft.warmth : unit || draft.unit, optional: true, condition: true }));
  return [...mainFields(point, draft.unit).filter(({ key }) => !draft.only || key === draft.only), ...measured];
}

/** @returns {Field[]} */
function mainFields(point, unit) {
  if (point.kind === "word") return [];
  if (point.kind === "value") return [{ key: "value", unit }];
  if (point.kind === "chain") return CHAIN.map((key) => ({ key, unit, optional: true }));
  const legs = point.keys.map((key) => ({ key, unit }));
  if (point.kind === "legs") return legs;
  return [{ key: "known_source_before", unit }, ...legs, { key: "known_source_after", unit }];
}

/** @param {Draft} before @returns {Draft} */
export function typed(before, key) {
  const draft = returned(before, key);
  if (draft !== before && key === "back") return draft;
  const text = press(draft.texts[draft.active] ?? "", key);
  return { ...draft, texts: { ...draft.texts, [draft.active]: text } };
}

/** The next field without a number, else the one after this, else this. Next on a leg that has just come by itself is late, and stays. */
export function nextField(point, draft) {
  if (draft.left && !draft.texts[draft.active]) return draft.active;
  const keys = fieldsOf(point, draft).map((field) => field.key);
  const after = [...keys.slice(keys.indexOf(draft.active) + 1), ...keys.slice(0, keys.indexOf(draft.active))];
  return after.find((key) => !isComplete(draft.texts[key] ?? "")) ?? draft.active;
}

export const hasDigits = (draft) => Boolean(draft) && Object.values(draft.texts).some((text) => text !== "");

/** Whether the number under the thumb has fewer whole digits than any other typed so far. */
export function isShort(point, { texts, active }) {
  const whole = (text) => text.replace(/^[<>+-]*/, "").split(".")[0].length;
  if (!point.keys.includes(active) || texts[active] === "OL") return false;
  const others = point.keys.filter((key) => key !== active && texts[key] && texts[key] !== "OL").map((key) => whole(texts[key]));
  return others.length > 0 && whole(texts[active] ?? "") < Math.min(...others);
}

/** Whether the reading can be kept: a word chosen, or a number in every field that is asked for. */
export function isReady(point, draft) {
  if (point.kind === "word") return Boolean(draft.texts.value);
  const fields = fieldsOf(point, draft);
  const given = fields.filter((field) => draft.texts[field.key]);
  const asked = fields.filter((field) => !field.optional);
  return given.length > 0 && asked.every((field) => draft.texts[field.key]) && given.every((field) => isComplete(draft.texts[field.key]));
}

/**
 * The body of the entry, whole or as far as it is typed.
 * @param {Point} point @param {Draft} draft @param {string} round @param {string} at
 * @returns {Record<string, any>}
 */
export function readingBody(point, draft, round, at) {
  const body = /** @type {Record<string, any>} */ ({ round, point: point.name, ...numbersOf(point, draft), ...measuredIn(point, draft), ...draft.choices });
  if (draft.unit) body.unit = draft.unit;
  if (draft.state) body.state = draft.state;
  if (draft.meter) body.meter = draft.meter;
  if (draft.neighbour) body.neighbour = { ...draft.neighbour, running: draft.state === "running" };
  return { ...body, at };
}

function numbersOf(point, { texts }) {
  if (point.kind === "word") return { value: texts.value };
  if (point.kind === "value") return numbers({ value: texts.value });
  if (point.kind === "chain") return { contacts: CHAIN.filter((name) => texts[name]).map((name) => ({ name, volts: settled(texts[name]), expected: "closed" })) };
  const legs = numbers(Object.fromEntries(point.keys.map((key) => [key, texts[key]])));
  if (point.kind === "legs") return { legs };
  return { legs, ...numbers({ known_source_before: texts.known_source_before, known_source_after: texts.known_source_after }) };
}

function measuredIn(point, { texts, warmth = "F" }) {
  const given = numbers(Object.fromEntries(measuredOf(point.name).map(({ key }) => [key, texts[key]])));
  return given.winding_temperature ? { ...given, winding_temperature_unit: warmth } : given;
}

/** Only what holds a whole number so far; a lone sign or ">" is not yet a reading. */
function numbers(texts) {
  const whole = Object.entries(texts).filter(([, text]) => text && isComplete(text));
  return Object.fromEntries(whole.map(([key, text]) => [key, settled(text)]));
}

/** What a correction must say: only the members that differ; null clears. */
export function changedMembers(before, after) {
  const keys = new Set([...Object.keys(before), ...Object.keys(after)]);
  const changed = [...keys].filter((key) => key !== "at" && JSON.stringify(before[key]) !== JSON.stringify(after[key]));
  return Object.fromEntries(changed.map((key) => [key, after[key] ?? null]));
}
