// The alarm as found: which device opened, in what order, when, who reset it, and whether the motor ran.
import { html, nothing } from "../vendor/lit-html/lit-html.js";
import words from "../words/index.js";
import { eventsOf } from "../state/job.js";
import { dayText } from "../state/format.js";
import { toSheet } from "../state/route.js";
import { cameraButton, photosShowing } from "./photos.js";
import { signToggle } from "./signs.js";

const say = words.job.alarm;
const ASKED = ["reset_before_arrival", "zero_current_before_alarm", "breaker_tripped", "burnt_smell"];

export function alarmStep(state, act) {
  const { call, engine } = state;
  const events = [...eventsOf(call)].sort((a, b) => Date.parse(a.body.at ?? 0) - Date.parse(b.body.at ?? 0));
  const signs = engine.words.signs.filter(({ sign }) => ASKED.includes(sign));
  return html`
    ${call.reported ? html`<p class="panel"><b>${say.reported}</b> ${call.reported}</p>` : nothing}
    ${events.length ? html`<ol class="events">${events.map(({ body }) => eventLine(body, engine.words))}</ol>` : html`<p class="notice is-alarm">${say.before}</p>`}
    ${photosShowing(state, "alarm")}
    <div class="button-row">${cameraButton(act, { shows: "alarm" })}<a class="small-button" href=${toSheet(call.id, "event", "trip")}>${events.length ? say.another : say.opened}</a>
      <a class="small-button" href=${toSheet(call.id, "event", "reset")}>${say.reset}</a></div>
    <div class="signs">${signs.map((sign) => signToggle(sign, state, act))}</div>`;
}

function eventLine(body, vocabulary) {
  const device = vocabulary.devices.find((one) => one.device === body.device)?.text ?? body.device;
  const ran = body.motor_ran === true ? say.ran : body.motor_ran === false ? say.stood : "";
  const more = [body.at ? dayText(body.at, words) : say.noTime, ran, body.by, body.text].filter(Boolean).join(" · ");
  return html`<li class="event"><b>${device}</b> ${words.sheet.option[body.what]}<span class="soft">${more}</span></li>`;
}
