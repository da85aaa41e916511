// Not taken, because: always a valid answer; blank and zero are not.
import { html } from "../vendor/lit-html/lit-html.js";
import words from "../words/index.js";

const say = words.entry;

export function skipPart(state, act) {
  const reasons = state.engine.words.not_taken_reasons;
  return html`<section class="stack skip"><h2>${say.notTaken}</h2>
    ${reasons.map((reason) => html`<button type="button" class="sign" @click=${() => act.notTaken(textOf(reason))}>${textOf(reason)}</button>`)}
    <form class="stack" @submit=${(event) => other(event, act)}>
      <label class="text-field">${say.other}<input name="reason" required maxlength="200" autocomplete="off"></label>
      <button class="small-button">${say.keepReason}</button>
    </form>
    <button type="button" class="quiet-button" @click=${() => act.skip(false)}>${words.back}</button>
  </section>`;
}

const textOf = (reason) => reason.text ?? reason;

function other(event, act) {
  event.preventDefault();
  act.notTaken(String(new FormData(event.target).get("reason")).trim());
}
