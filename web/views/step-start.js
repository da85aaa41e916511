// One witnessed start: the gate first, then the moment, then amps and volts of three legs.
import { html, nothing } from "../vendor/lit-html/lit-html.js";
import words from "../words/index.js";
import { eventsOf } from "../state/job.js";
import { timeText } from "../state/format.js";
import { gateCard } from "./gate-card.js";

const say = words.job.start;

export function startStep(state, act) {
  const starts = eventsOf(state.call).filter(({ body }) => body.what === "start");
  return html`${gateCard("restart", state)}
    <p class="soft">${say.how}</p>
    <div class="button-row"><button class="small-button" @click=${act.started}>${say.now}</button></div>
    ${starts.length ? html`<p class="soft">${starts.map(({ body }) => say.at(timeText(body.at))).join(" · ")}</p>` : nothing}`;
}
