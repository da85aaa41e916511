// The machine's plate, folded away until asked for.
import { html } from "../vendor/lit-html/lit-html.js";
import words from "../words/index.js";
import { figure, unitText } from "../state/format.js";

/** What the plate says, in a line that folds out. */
export function plateCard(machine, shown, act) {
  const facts = Object.entries(words.plate).filter(([key]) => machine[key] !== undefined && machine[key] !== null);
  const text = ([key, [title, unit]]) => html`<div><dt>${title}</dt><dd>${valueText(machine[key], unit)}</dd></div>`;
  return html`<details class="panel plate" ?open=${shown}><summary @click=${(event) => toggle(event, act)}>${words.call.plate}
      <span class="soft">${[machine.model, machine.refrigerant].filter(Boolean).join(" · ")}</span></summary>
    <dl class="facts">${facts.map(text)}</dl>
  </details>`;
}

function toggle(event, act) {
  event.preventDefault();
  act.fold("plate");
}

function valueText(value, unit) {
  const text = Array.isArray(value) ? value.map(figure).join(" / ") : figure(value);
  return unit ? `${text} ${unitText(unit, words)}` : text;
}
