// The machine: its plate, what of it is unknown, and the last numbers read on it. Nothing here is asked twice.
import { html, nothing } from "../vendor/lit-html/lit-html.js";
import words from "../words/index.js";
import { dateText, readingText } from "../state/format.js";
import { lastVisit } from "../state/round.js";
import { toSheet } from "../state/route.js";
import { clashCards } from "./clashes.js";
import { cameraButton, photosShowing } from "./photos.js";
import { plateFacts } from "./plate.js";

const say = words.job.machine;
const BASELINE = ["running_current", "line_voltage", "insulation_resistance", "winding_resistance", "pump_pressure", "crankcase_pressure", "discharge_temperature", "suction_temperature", "pole_drop", "oil_level"];

export function machineStep(state, act) {
  const { call } = state;
  const done = Boolean(call.extra?.done?.machine);
  return html`
    ${call.plate.confirmed ? nothing : html`<p class="soft">${say.unconfirmed}</p>`}
    <section class="panel">${plateFacts(call.plate)} ${photosShowing(state, "plate")}
      <div class="button-row">${cameraButton(act, { shows: "plate", of: call.machine })}<a class="small-button" href=${toSheet(call.id, "machine", "plate")}>${say.enter}</a>
      <button class="small-button" aria-pressed=${String(done)} @click=${() => act.mark("machine", !done)}>${done ? say.checked : say.right}</button></div></section>
    ${clashCards("machine", call.plate, act)} ${clashCards("site", state.register.sites.find((one) => one.id === call.plate.site), act)}
    ${history(state)}`;
}

function history({ call, engine }) {
  const found = BASELINE.map((point) => ({ point, last: lastVisit(call.history, point) })).filter(({ last }) => last);
  if (found.length === 0) return html`<p class="soft">${say.noHistory}</p>`;
  const title = (name) => engine.words.points.find((point) => point.name === name)?.title ?? name;
  return html`<h2 class="list-title">${say.last}</h2><dl class="last-list">${found.map(({ point, last }) => html`<div><dt>${title(point)}<span class="soft">${dateText(last.at)}</span></dt><dd>${readingText(last.reading, words)}</dd></div>`)}</dl>`;
}
