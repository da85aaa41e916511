// The decision: its cause from what the readings point to, why, and until when it is watched.
import { html, nothing } from "../vendor/lit-html/lit-html.js";
import words from "../words/index.js";
import { choice } from "../components/choice.js";
import { dayText } from "../state/format.js";
import { standing } from "../state/fold.js";
import { thingsOf } from "../state/round.js";
import { causesShown } from "./causes.js";

const say = words.close;

export function decisionStep(state, act) {
  const { closing, call, engine } = state;
  const set = (key) => (event) => act.closing({ [key]: event.target.value });
  const kept = standing(thingsOf(call), "decision").at(-1);
  return html`
    ${kept ? html`<p class="panel"><b>${say.kept} ${say.decisions[kept.body.decision]}</b> ${causeText(kept.body.cause, engine.words)}${kept.body.watch_until ? html` · ${say.watchedUntil(dayText(kept.body.watch_until, words))}` : nothing}</p>` : nothing}
    ${causesShown(call.result, closing.cause, (cause) => act.closing({ cause }))}
    <section class="panel stack"><h2>${say.decision}</h2>
      ${choice({ title: say.decision, values: engine.words.decisions, chosen: closing.decision, textOf: (one) => say.decisions[one], choose: (decision) => act.closing({ decision }), hideTitle: true })}
      <label class="text-field">${say.cause}<select .value=${closing.cause} @change=${set("cause")}>
        <option value="">${say.pick}</option>${engine.words.causes.map((one) => html`<option value=${one.cause} ?selected=${one.cause === closing.cause}>${one.text}</option>`)}</select></label>
      <label class="text-field">${say.reason}<textarea rows="2" .value=${closing.reason} @input=${set("reason")}></textarea></label>
      ${closing.decision === "condemn" ? html`<label class="text-field">${say.approver}<input autocomplete="off" .value=${closing.approver} @input=${set("approver")}></label>` : nothing}
      <h3>${say.watch}</h3>
      ${choice({ title: say.watch, values: ["1", "7", "14", "30"], chosen: closing.watch, textOf: say.days, choose: (watch) => act.closing({ watch: closing.watch === watch ? "" : watch }), hideTitle: true })}
      <button class="big-button" ?disabled=${!closing.decision} @click=${act.keepDecision}>${say.keep}</button>
    </section>`;
}

const causeText = (cause, vocabulary) => vocabulary.causes.find((one) => one.cause === cause)?.text ?? "";
