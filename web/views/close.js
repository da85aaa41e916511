// Handing the call in: decision, cause, a note, and off to the office.
import { html } from "../vendor/lit-html/lit-html.js";
import words from "../words/index.js";
import { choice } from "../components/choice.js";

const say = words.close;

export function closeTab(state, act) {
  const { closing, call, engine } = state;
  const set = (key) => (event) => act.closing({ [key]: event.target.value });
  return html`
    <p>${say.state} <b>${words.callState[call.state]}</b>.</p>
    <section class="panel stack"><h2>${say.decision}</h2>
      ${choice({ title: say.decision, values: engine.words.decisions, chosen: closing.decision, textOf: (one) => say.decisions[one], choose: (decision) => act.closing({ decision }), hideTitle: true })}
      <label class="text-field">${say.cause}<select .value=${closing.cause} @change=${set("cause")}>
        <option value="">${say.pick}</option>${engine.words.causes.map((one) => html`<option value=${one.cause}>${one.text}</option>`)}</select></label>
      <label class="text-field">${say.reason}<textarea rows="2" .value=${closing.reason} @input=${set("reason")}></textarea></label>
      <button class="small-button" ?disabled=${!closing.decision} @click=${act.keepDecision}>${say.keep}</button>
    </section>
    <section class="panel stack"><label class="text-field">${say.note}<textarea rows="3" .value=${closing.note} @input=${set("note")}></textarea></label>
      <button class="big-button" ?disabled=${call.state === "submitted"} @click=${act.submit}>${say.submit}</button>
      ${call.state === "submitted" ? html`<p role="status">${say.submitted}</p>` : ""}
    </section>`;
}
