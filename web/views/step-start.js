// One witnessed start: the gate first, then the moment, then amps and volts of three legs.
import { html, nothing } from "../vendor/lit-html/lit-html.js";
import words from "../words/index.js";
import { eventsOf } from "../state/job.js";
import { timeText } from "../state/format.js";
import { toReading, toStarts } from "../state/route.js";
import { gateCard } from "./gate-card.js";
import { labelOf } from "./measure.js";

const say = words.job.start;

export function startStep(state, act) {
  const label = labelOf(state);
  const starts = eventsOf(state.call).filter(({ body }) => body.what === "start");
  return html`${gateCard("restart", state)}
    <div class="two-ways"><a class="card" href=${toReading(state.call.id, label, "start_current")}><b>${say.together}</b><span class="soft">${say.togetherHow}</span></a>
      <a class="card" href=${toStarts(state.call.id, label)}><b>${words.starts.title}</b><span class="soft">${say.singlyHow}</span></a></div>
    <div class="button-row"><button class="small-button" @click=${act.started}>${say.now}</button></div>
    ${starts.length ? html`<p class="soft">${starts.map(({ body }) => say.at(timeText(body.at))).join(" · ")}</p>` : nothing}`;
}
