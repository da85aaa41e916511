// Why the page belongs on the home screen, and how it gets there; said before work starts.
import { html, nothing } from "../vendor/lit-html/lit-html.js";
import words from "../words/index.js";

const say = words.install;

export function installCard({ install }, act) {
  if (install.onHome || install.later || (!install.offered && !install.byHand)) return nothing;
  return html`<aside class="panel install"><h2>${say.title}</h2><p>${say.why}</p>
    ${install.offered ? nothing : html`<p><b>${say.byHand}</b></p>`}
    <div class="foot-row">${install.offered ? html`<button class="small-button" @click=${act.install}>${say.go}</button>` : nothing}
      ${install.putOff ? nothing : html`<button class="quiet-button" @click=${act.installLater}>${say.later}</button>`}</div></aside>`;
}
