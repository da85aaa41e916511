// A call's text for a customer, on its way out.
import { html, nothing } from "../vendor/lit-html/lit-html.js";
import words from "../words/index.js";

const say = words.share;

export const sharePart = ({ shared }, act) => html`<button type="button" class="small-button" @click=${act.shareCall}>${say.go}</button>
  ${shared?.how === "copied" ? html`<p role="status">${say.copied}</p>` : nothing}
  ${shared?.how === "by-hand" ? html`<label class="text-field">${say.byHand}<textarea rows="10" readonly .value=${shared.text}></textarea></label>` : nothing}`;
