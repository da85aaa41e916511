// What a person saw, heard or read: large toggles, three standings: not looked, there, not there.
import { html } from "../vendor/lit-html/lit-html.js";
import words from "../words/index.js";
import { signsOf } from "../state/round.js";

const say = words.signs;

export function signsTab(state, act) {
  const present = signsOf(state.call);
  return html`<p class="soft">${say.hint}</p>
    <div class="signs">${state.engine.words.signs.map((sign) => signToggle(sign, present[sign.sign], act))}</div>`;
}

function signToggle({ sign, text }, present, act) {
  const standing = present === undefined ? say.unasked : present ? say.yes : say.no;
  const kind = present === undefined ? "" : present ? "is-there" : "is-not-there";
  return html`<button type="button" class="sign ${kind}" aria-pressed=${String(present === true)} @click=${() => act.setSign(sign, present !== true)}>
    <span>${text}</span><span class="sign-standing">${standing}</span></button>`;
}
