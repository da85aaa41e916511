// What the office would not take: with its reason, its content, and a way to send it again.
import { html, nothing } from "../vendor/lit-html/lit-html.js";
import words from "../words/index.js";
import { dayText } from "../state/format.js";
import { leavesOf } from "../state/leaves.js";

const say = words.refused;

export const refusedScreen = (state, act) => html`<main class="screen">
  <header class="topline"><a class="back" href="#/" aria-label=${words.back}>‹</a><h1>${say.title}</h1></header>
  <p class="soft">${say.why}</p>
  ${state.refused.map((refused) => refusedCard(refused, act))}
</main>`;

const refusedCard = ({ id, code, detail, remedy, entry, errors = [] }, act) => html`<article class="panel">
  <h2>${entry.kind} <span class="soft">${dayText(entry.made_at, words)}</span></h2>
  <p>${detail} <code>${code}</code></p>
  <p class="soft"><b>${say.remedy}</b> ${remedy}</p>
  <pre class="content">${JSON.stringify(entry.body, null, 2)}</pre>
  <button class="small-button" @click=${() => act.sendAgain(id)}>${say.again}</button>
  <details><summary>${say.correct}</summary><form class="stack" @submit=${(event) => act.sendCorrected(event, id)}>
    ${leavesOf(entry.body).map((leaf) => leafField(leaf, errors))}
    <button class="small-button">${say.sendCorrected}</button>
  </form></details>
</article>`;

function leafField({ pointer, value }, errors) {
  const fault = errors.find((one) => one.pointer === pointer);
  return html`<label class="text-field">${pointer.replace("/body/", "")}<input name=${pointer} autocomplete="off" .value=${String(value ?? "")} aria-invalid=${fault ? "true" : "false"}>
    ${fault ? html`<span class="trouble">${fault.detail}</span>` : nothing}</label>`;
}
