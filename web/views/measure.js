// The job: the one thing to do now, what stands open, and the map of the whole, to jump anywhere.
import { html, nothing } from "../vendor/lit-html/lit-html.js";
import words from "../words/index.js";
import { choice } from "../components/choice.js";
import { progress } from "../components/progress.js";
import { laneOf, nextPoints, standOf, stepInHand, stepsOf, usualLabel } from "../state/job.js";
import { LABELS } from "../state/round.js";
import { toReading, toSheet, toStep } from "../state/route.js";
import { openItems } from "./open-items.js";

const say = words.job;

export function measureTab(state, act) {
  const { call } = state;
  const label = labelOf(state);
  const now = stepInHand(state, label);
  return html`
    ${nowCards(state, label, now)} ${now === "alarm" ? nothing : lookFor(state, act)}
    ${openItems(call)}
    <section class="map" aria-label=${say.map}>
      <h2 class="list-title">${say.map}</h2>
      <p class="lane">${say.lane[laneOf(call).lane](say.laneBy[laneOf(call).by])}</p>
      ${stepsOf(call).map((step) => stepRow(step, state, label, now))}
    </section>`;
}

export const labelOf = (state) => LABELS.find((label) => state.shown.has("label:" + label)) ?? usualLabel(state.call);

function nowCards(state, label, now) {
  const { call } = state;
  if (now === "alarm") return html`<a class="card next-card" href=${toSheet(call.id, "event", "trip")}><b>${say.first}</b><span class="soft">${say.firstWhy}</span></a>`;
  if (!call.result && call.judging) return html`<p class="card next-card" aria-busy="true"><b>${words.call.next} …</b></p>`;
  if (!call.result?.next_tests?.length && ["as_left", "decision", "hand_over"].includes(now)) return html`<a class="card next-card" href=${toStep(call.id, now)}><b>${words.call.next} ${say.step[now]}</b></a>`;
  return nextCards(state, label);
}

function nextCards(state, label) {
  const next = nextPoints(state, label);
  const title = (name) => state.engine.words.points.find((point) => point.name === name)?.title ?? name;
  return next.map(({ point, because }, i) => html`<a class="card next-card ${i ? "is-second" : ""}" href=${toReading(state.call.id, label, point)}>
    <b>${i ? words.call.or : words.call.next} ${title(point)}</b>${because && !i ? html`<span class="soft">${because}</span>` : nothing}</a>`);
}

/** The one thing to look for that would tell most, answered on the spot. */
function lookFor({ call, engine }, act) {
  const seen = call.result?.look_for?.[0];
  if (!seen) return nothing;
  const text = engine.words.signs.find((sign) => sign.sign === seen.sign)?.text ?? seen.text;
  return choice({ title: html`${words.call.look} <b>${text}</b>`, label: text, values: [true, false], chosen: null, textOf: (there) => (there ? words.signs.yes : words.signs.no), choose: (there) => act.setSign(seen.sign, there) });
}

function stepRow(step, state, label, now) {
  const how = standOf(step, state, label);
  return html`<a class="point-row step-row ${step === now ? "is-now" : ""}" href=${toStep(state.call.id, step)} aria-current=${step === now ? "step" : "false"}>
    ${progress(how)}<span class="point-title">${say.step[step]}</span><span class="soft">${how.of > 1 ? say.count(how.count, how.of) : how.stand === "open" ? "" : say.stand[how.stand]}</span>
  </a>`;
}
