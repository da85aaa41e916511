// What the office would not take: with its reason, its content, and a way to send it again.
import { html } from "../vendor/lit-html/lit-html.js";
import words from "../words/index.js";
import { dayText } from "../state/format.js";

const say = words.refused;

export const refusedScreen = (state, act) => html`<main class="screen">
  <header class="topline"><a class="back" href="#/" aria-label=${words.back}>‹</a><h1>${say.title}</h1></header>
  <p class="soft">${say.why}</p>
  ${state.refused.map((refused) => refusedCard(refused, act))}
</main>`;

const refusedCard = ({ id, code, detail, remedy, entry }, act) => html`<article class="panel">
  <h2>${entry.kind} <span class="soft">${dayText(entry.made_at, words)}</span></h2>
  <p>${detail} <code>${code}</code></p>
  <p class="soft"><b>${say.remedy}</b> ${remedy}</p>
  <pre class="content">${JSON.stringify(entry.body, null, 2)}</pre>
  <button class="small-button" @click=${() => act.sendAgain(id)}>${say.again}</button>
</article>`;
