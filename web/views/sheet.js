// A sheet: whatever is written down besides readings, a few taps and words, one screen.
import { html, nothing } from "../vendor/lit-html/lit-html.js";
import words from "../words/index.js";
import { choice } from "../components/choice.js";
import { unitText } from "../state/format.js";
import { toCall } from "../state/route.js";
import { faultsOf, fieldsShown, isAsked } from "../state/sheets.js";
import { plateBeside } from "./photos.js";

const say = words.sheet;

export function sheetScreen(state, act) {
  const { sheet, route, engine } = state;
  if (!sheet || !engine.words) return html`<main class="screen" aria-busy="true"></main>`;
  const faults = sheet.tried ? faultsOf(sheet.name, sheet.values) : [];
  return html`<main class="screen has-foot">
    <header class="topline"><a class="back" href=${route.call ? toCall(route.call) : "#/new"} aria-label=${words.back} @click=${goBack}>‹</a><h1>${say.title[sheet.corrects ? "plate" : sheet.name]}</h1></header>
    ${say.why[sheet.name] ? html`<p class="soft">${say.why[sheet.name]}</p>` : nothing}
    ${sheet.corrects ? plateBeside(state, act) : nothing}
    ${sheet.about ? html`<p class="panel">${sheet.about}</p>` : nothing}
    ${fieldsShown(sheet.name, sheet.values).map((field) => oneField(field, sheet, engine.words, act, faults.includes(field.name)))}
    <footer class="foot">${faults.length ? html`<p class="trouble" role="alert">${say.missing(faults.map((name) => say.field[name] ?? name))}</p>` : nothing}
      <button class="big-button" @click=${act.keepSheet}>${say.keep}</button></footer>
  </main>`;
}

function goBack(event) {
  event.preventDefault();
  history.back();
}

function oneField(field, sheet, vocabulary, act, wrong) {
  return field.choices ? choiceField(field, sheet, vocabulary, act) : typedField(field, sheet, act, wrong);
}

function choiceField(field, { name, values }, vocabulary, act) {
  const options = field.choices(vocabulary);
  const text = (value) => options.find((one) => one.value === value)?.text || say.option[String(value)] || String(value);
  const label = labelOf(name, field.name);
  const choose = (value) => act.sheetChange({ [field.name]: values[field.name] === value ? undefined : value });
  return html`<section class="question"><h2 class="list-title">${label}</h2>
    ${choice({ title: label, values: options.map(({ value }) => value), chosen: values[field.name], textOf: text, choose, hideTitle: true })}</section>`;
}

function typedField(field, { name, values }, act, wrong) {
  const type = field.time ? "time" : "text";
  const set = (event) => act.sheetChange({ [field.name]: event.target.value });
  return html`<label class="text-field"><span>${labelOf(name, field.name)}${field.unit ? `, ${unitText(field.unit, words)}` : ""}${isAsked(field, values) ? "" : ` (${say.optional})`}</span>
      <input name=${field.name} type=${type} inputmode=${field.number ? "decimal" : "text"} autocomplete="off" aria-invalid=${String(wrong)} .value=${values[field.name] ?? ""} @input=${set}></label>
    ${field.suggest ? suggestions(field, act) : nothing}`;
}

const suggestions = (field, act) => html`<div class="chips">${say.suggest[field.suggest].map((text) => html`<button type="button" class="chip" @click=${() => act.sheetChange({ [field.name]: text })}>${text}</button>`)}</div>`;

const labelOf = (sheet, name) => say.fieldOf[sheet]?.[name] ?? say.field[name] ?? words.plate[name]?.[0] ?? name;
