// What the machine's plate says, and what of it nobody has entered yet.
import { html } from "../vendor/lit-html/lit-html.js";
import words from "../words/index.js";
import { figure, unitText } from "../state/format.js";

export function plateFacts(machine) {
  const fact = ([key, [title, unit]]) => html`<div><dt>${title}</dt><dd>${known(machine[key]) ? valueText(machine[key], unit) : html`<span class="unknown">${words.job.machine.unknown}</span>`}</dd></div>`;
  return html`<dl class="facts">${Object.entries(words.plate).map(fact)}</dl>`;
}

export const plateCard = (machine) => html`<section class="panel" aria-label=${words.call.plate}>${plateFacts(machine)}</section>`;

/** One fact by the name of its member, as it is shown beside another version of it. */
export const factText = (key, value) => (known(value) ? valueText(value, words.plate[key]?.[1] ?? "") : words.job.machine.unknown);

const known = (value) => value !== undefined && value !== null && value !== "";

function valueText(value, unit) {
  if (typeof value === "object" && !Array.isArray(value)) return Object.values(value).filter(known).map((part) => valueText(part, "")).join(" ");
  const text = Array.isArray(value) ? value.map(figure).join(" / ") : typeof value === "number" ? String(value) : words.sheet.option[value] ?? value;
  return unit ? `${text} ${unitText(unit, words)}` : text;
}
