// The words before a step at live parts: once in a call, each with its own acknowledgement.
import { html, nothing } from "../vendor/lit-html/lit-html.js";
import words from "../words/index.js";
import { cautionOf } from "../state/caution.js";

export function cautionPart(state, act, point, machineState = state.draft.state) {
  const caution = cautionOf(point, machineState, state.engine.words);
  return html`<section class="caution" role="alert" aria-label=${words.entry.caution}>
  <svg class="shape" viewBox="0 0 24 24" aria-hidden="true"><path d="M12 3l9.5 17h-19z"/><path class="caution-sign" d="M12 9.5v5M12 17.3v.2"/></svg>
  <h2>${words.entry.caution}</h2>
  ${caution.texts.map((text) => html`<p>${text}</p>`)}
  ${point.states.length > 1 ? html`<p class="soft">${words.entry.state}: ${words.state[machineState]}</p>` : nothing}
  <button class="big-button" @click=${() => act.acknowledge(caution.step)}>${words.entry.acknowledge}</button>
</section>`;
}
