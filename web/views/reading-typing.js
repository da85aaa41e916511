// Typing a reading: state, unit and meter on top, rail beside its legs, the verdict, the pad.
import { html, nothing } from "../vendor/lit-html/lit-html.js";
import words from "../words/index.js";
import { badge } from "../components/badge.js";
import { choice } from "../components/choice.js";
import { pad } from "../components/pad.js";
import { emptyRail, rail } from "../components/rail.js";
import { choicesOf } from "../state/conditions.js";
import { machinesBeside } from "../state/beside.js";
import { isComplete } from "../state/digits.js";
import { fieldsOf, hasDigits, isReady } from "../state/draft.js";
import { bandText, dateText, railLabel, readingText, timeText, unitText, wordText } from "../state/format.js";
import { toSheet } from "../state/route.js";
import { lastVisit, pictured, readingsTaken, worstFirst } from "../state/round.js";
import { clockButton } from "./clocks.js";

const say = words.entry;
const ADD = "+";

export function typingPart(state, act, point) {
  const { draft } = state;
  const fields = fieldsOf(point, draft);
  return html`
    <div class="reading-scroll">
      ${draft.base && !draft.only ? correcting(state, point) : nothing}
      ${draft.neighbour ? besideChoice(state, act) : nothing} ${setting(state, act, point)} ${clockButton(state, act, point.name)}
      ${point.kind === "word" ? wordChoice(point, draft, act) : stage(state, act, point, fields)}
      <p class="unseen" role="status">${draft.left ? say.nowLeg(draft.active) : ""}</p>
      ${beside(state, point)} ${verdictLine(state, point)}
      ${choicesOf(point.name).filter(({ name }) => !draft.only || name !== "same_start").map((one) => conditionChoice(one, draft, act))}
      ${draft.only || draft.neighbour ? nothing : html`<button class="quiet-button is-left" type="button" @click=${() => act.skip(true)}>${say.notTaken}</button>`}
    </div>
    ${point.kind === "word" ? wordFoot(state, act, point) : padOf(state, act, point)}`;
}

/** On which machine beside it is read; those of the same kind come first and are marked so. */
function besideChoice(state, act) {
  const others = machinesBeside(state);
  const text = (tag) => `${tag}${others.find((one) => one.tag === tag)?.like ? ` ${say.like}` : ""}`;
  return html`<div class="setting">${select(say.readOn, others.map(({ tag }) => tag), state.draft.neighbour.tag, text, (tag) => act.change({ neighbour: others.find((one) => one.tag === tag) }))}</div><p class="soft">${say.besideWhy}</p>`;
}

/** What is being corrected, as it stands in the log, with who wrote it and when. */
function correcting({ call, draft }, point) {
  const reading = readingsTaken(call, draft.label, point.name).find((one) => one.id === draft.base);
  const last = reading?.rows.at(-1).entry;
  return html`<p class="strip"><span>${say.corrects} ${last ? html`<span class="soft"><s>${readingText(reading.body, words)}</s> ${say.writtenBy(last.author, timeText(last.made_at))}</span>` : nothing}</span></p>`;
}

/** The rail beside its legs; what was measured beside them stands in a row below. */
function stage(state, act, point, fields) {
  const [main, beside] = [false, true].map((condition) => fields.filter((field) => Boolean(field.condition) === condition));
  const button = (field) => fieldButton(field, state, act);
  return html`<div class="stage ${main.length > 3 ? "is-many" : ""}">${picture(state, point)}<div class="fields">${main.map(button)}</div></div>
    ${beside.length ? html`<div class="fields is-beside">${beside.map(button)}</div>` : nothing}`;
}

function setting({ draft, register, call }, act, point) {
  const chooseMeter = (id) => (id === ADD ? (location.hash = toSheet(call.id, "meter")) : act.change({ meter: id }));
  return html`<div class="setting">
    ${stateChoice(point, draft, act)}
    ${point.units.length ? select(say.unit, point.units, draft.unit, (one) => unitText(one, words), (unit) => act.change({ unit }), hasDigits(draft)) : nothing}
    ${point.kind === "word" ? nothing : select(say.meter, ["", ...register.meters.map((meter) => meter.id), ADD], draft.meter, (id) => (id === ADD ? say.addMeter : meterName(register, id)), chooseMeter)}
  </div>`;
}

/** One state is told, two are a tap apart, more are chosen from a list. */
function stateChoice({ states }, draft, act) {
  if (states.length === 1) return html`<span class="fixed">${words.state[states[0]]}</span>`;
  const text = (one) => words.state[one] ?? one;
  if (states.length > 2) return select(say.state, states, draft.state, text, (state) => act.change({ state }));
  return html`<div class="pair" role="group" aria-label=${say.state}>${states.map((one) => html`<button type="button" class="half" aria-pressed=${String(one === draft.state)} @click=${() => act.change({ state: one })}>${words.shortState[one] ?? text(one)}</button>`)}</div>`;
}

const meterName = (register, id) => register.meters.find((meter) => meter.id === id)?.name ?? say.noMeter;

const select = (title, values, chosen, textOf, choose, locked = false) => html`<label class="select"><span aria-hidden="true">${title}</span>
  <select aria-label=${title} ?disabled=${locked} @change=${(event) => choose(event.target.value)}>${values.map((value) => html`<option value=${value} ?selected=${value === chosen}>${textOf(value)}</option>`)}</select></label>`;

function picture(state, point) {
  if (point.kind === "chain" || point.kind === "absence") return nothing;
  const finding = pictured(state.look, point.keys);
  if (finding && (finding.legs.length || finding.value !== null)) return rail(finding, railLabel(finding, point.title, words));
  return emptyRail(point.kind === "legs" ? point.keys : [""], point.title);
}

function fieldButton(field, { draft, sure }, act) {
  const text = draft.texts[field.key] ?? "";
  const active = draft.active === field.key;
  const name = [words.key[field.key] ?? field.key, field.key === "winding_temperature" ? unitText(field.unit, words) : ""].filter(Boolean).join(", ");
  const wrong = text !== "" && !active && !isComplete(text);
  return html`<button type="button" class="field ${field.condition ? "is-condition" : ""} ${wrong ? "is-wrong" : ""} ${active && sure === draft ? "is-sure" : ""}" data-field=${field.key}
    aria-current=${active ? "true" : "false"} @click=${() => act.chooseField(field.key)}>
    <span class="field-name">${name}</span><span class="field-text">${text || (active ? "" : "–")}${active ? html`<i class="caret"></i>` : nothing}</span>
    <span class="field-unit">${field.condition ? "" : unitText(field.unit, words)}</span></button>`;
}

/** The allowed band and the last visit's number, beside today's. */
function beside(state, point) {
  const finding = pictured(state.look, point.keys);
  const band = finding ? bandText(finding, words) : "";
  const last = lastVisit(state.call.history, point.name);
  if (!band && !last) return nothing;
  return html`<p class="beside">${band ? html`<span><b>${say.allowed}</b> ${band}</span>` : nothing}
    ${last ? html`<span><b>${say.last(dateText(last.at))}</b> ${readingText(last.reading, words)}</span>` : nothing}</p>`;
}

/** While legs are missing only what is already certain is said; then everything, the worst first. */
function verdictLine({ look, engine, draft }, point) {
  if (engine.state === "gone") return html`<p class="verdict-line">${say.gone}</p>`;
  const whole = isReady(point, draft);
  const told = look.filter((finding) => finding.verdict !== "cannot_tell");
  const unsure = look.filter((finding) => finding.verdict === "cannot_tell" && !lacksLegs(finding, point));
  const shown = told.length || !whole ? told : unsure.slice(0, 1);
  if (shown.length === 0) return html`<p class="verdict-line soft">${whole || point.kind === "word" ? "" : waitingText(point, draft)}</p>`;
  return html`<div class="verdict-line" aria-live="polite">${[...shown].sort(worstFirst).map((finding) => html`<p>${badge(finding.verdict, words)} ${finding.because}</p>`)}</div>`;
}

function waitingText({ kind, keys }, { texts, only }) {
  const missing = keys.filter((key) => !texts[key]).length;
  if (kind === "value") return say.waitingValue;
  return kind === "legs" && !only && missing < keys.length && missing > 0 ? say.toGo(missing) : say.waiting;
}

const lacksLegs = (finding, point) => finding.missing.some((missing) => missing.startsWith(point.name + " "));

function conditionChoice({ name, values }, draft, act) {
  const texts = words.choice[name];
  const choose = (value) => act.change({ choices: { ...draft.choices, [name]: draft.choices[name] === value ? undefined : value } });
  return choice({ title: texts.title, values, chosen: draft.choices[name], textOf: (value) => texts[String(value)], choose });
}

const wordChoice = (point, draft, act) => html`<div class="chips is-tall">${point.words.map((word) => html`<button type="button" class="chip" aria-pressed=${String(draft.texts.value === word)}
  @click=${() => act.change({ texts: { value: word } })}>${wordText(word, words)}</button>`)}</div>`;

const wordFoot = ({ draft }, act, point) => html`<footer class="foot"><button class="big-button" ?disabled=${!isReady(point, draft)} @click=${act.keepReading}>${draft.base ? say.correct : say.keep}</button></footer>`;

function padOf({ draft }, act, point) {
  const ready = isReady(point, draft);
  const ohms = point.units.some((unit) => unit === "ohm");
  const special = ohms ? "OL" : point.low < 0 ? "±" : "clear";
  const next = ready && !act.hasNext(point, draft) ? null : act.nextField;
  return pad({ special, press: act.press, next, keep: ready ? act.keepReading : null, keepWord: draft.base && !draft.only ? say.correct : say.keep, words });
}
