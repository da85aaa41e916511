// What it points to: the engine's causes in the engine's order, with the facts for and against each.
import { html, nothing } from "../vendor/lit-html/lit-html.js";
import words from "../words/index.js";

const say = words.findings;

/** @param {Result | null} result @param {string} [chosen] @param {((cause: string) => void) | null} [choose] */
export function causesShown(result, chosen = "", choose = null) {
  const shown = (result?.causes ?? []).filter((cause) => say.word[cause.word] && cause.cause !== "unknown").slice(0, 5);
  const ruled = (result?.causes ?? []).filter((cause) => !say.word[cause.word] && cause.against.length > 0).slice(0, 6);
  if (shown.length + ruled.length === 0) return nothing;
  return html`<h2 class="list-title">${say.causes}</h2>
    ${result.weighing ? html`<p class="soft">${result.weighing.text}</p>` : nothing}
    ${shown.map((cause) => causeCard(cause, chosen, choose))}
    ${ruled.length ? html`<details class="soft"><summary>${say.notShown(ruled.length)}</summary><ul>${ruled.map((cause) => html`<li><b>${cause.text}</b> ${cause.against.map((fact) => fact.text).join(" ")}</li>`)}</ul></details>` : nothing}`;
}

function causeCard(cause, chosen, choose) {
  return html`<article class="panel cause" data-cause=${cause.cause}>
    <header><h3>${cause.text}</h3><span class="word is-${cause.word}">${say.word[cause.word]}</span></header>
    ${facts(say.for, cause.for)} ${facts(say.against, cause.against)}
    ${choose ? html`<button type="button" class="chip" aria-pressed=${String(chosen === cause.cause)} @click=${() => choose(cause.cause)}>${say.thisOne}</button>` : nothing}
  </article>`;
}

const facts = (title, list) => (list.length ? html`<p class="soft fact-title">${title}</p><ul class="fact-list">${list.map((fact) => html`<li>${fact.text}</li>`)}</ul>` : nothing);
