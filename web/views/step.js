// One step of the job: what it asks, what it says of itself, and the way to the next step.
import { html, nothing } from "../vendor/lit-html/lit-html.js";
import words from "../words/index.js";
import { choice } from "../components/choice.js";
import { pointsOf, standOf, stepsOf } from "../state/job.js";
import { LABELS } from "../state/round.js";
import { toCall, toStep } from "../state/route.js";
import { clockTiles } from "./clocks.js";
import { labelOf } from "./measure.js";
import { openItems } from "./open-items.js";
import { photosLink } from "./photos.js";
import { pointRow } from "./point-row.js";
import { alarmStep } from "./step-alarm.js";
import { comparisonStep } from "./step-as-left.js";
import { decisionStep } from "./step-decision.js";
import { gatesStep } from "./step-gates.js";
import { handOverStep } from "./step-hand-over.js";
import { machineStep } from "./step-machine.js";
import { makeSafeStep } from "./step-make-safe.js";
import { repairStep } from "./step-repair.js";
import { startStep } from "./step-start.js";

const say = words.job;
const OWN = { alarm: alarmStep, machine: machineStep, make_safe: makeSafeStep, start: startStep, repair: repairStep, as_left: comparisonStep, gates: gatesStep, decision: decisionStep, hand_over: handOverStep };

export function stepScreen(state, act) {
  const { call, route, engine } = state;
  if (!call || !engine.words) return html`<main class="screen" aria-busy="true"></main>`;
  const { step } = route;
  const label = labelOf(state);
  return html`<main class="screen has-foot">
    <header class="topline"><a class="back" href=${toCall(call.id)} aria-label=${say.map}>‹</a>
      <h1>${say.step[step]}</h1><span class="soft">${call.tag}</span>${photosLink(call)}</header>
    ${clockTiles(state, act)}
    ${say.hint[step] ? html`<p class="soft">${say.hint[step]}</p>` : nothing}
    ${step === "repair" ? nothing : openItems(call)}
    ${(OWN[step] ?? (() => nothing))(state, act)}
    ${pointsPart(state, act, step, label)}
    ${state.skippingStep === step ? skipReasons(state, act, step) : leaveOut(state, act, step, label)}
    ${nextStep(call, step)}
  </main>`;
}

function pointsPart(state, act, step, label) {
  const { asked, moot } = pointsOf(step, state, label);
  if (asked.length + moot.length === 0) return nothing;
  const listed = asked.filter((point) => point.checks.length || state.shown.has("points"));
  return html`${listed.length ? choice({ title: words.entry.round, values: LABELS, chosen: label, textOf: (one) => words.label[one], choose: act.chooseLabel, hideTitle: true }) : nothing}
    <section class="shelf" aria-label=${say.step[step]}>${listed.map((point) => pointRow(point, state, label))}</section>
    <button class="quiet-button" @click=${() => act.fold("points")}>${state.shown.has("points") ? words.call.fewer : words.call.all}</button>
    ${moot.length ? html`<details class="soft"><summary>${say.moot(moot.length)}</summary><ul>${moot.map(({ point, why }) => html`<li>${point.title}: ${words.moot[why]}</li>`)}</ul></details>` : nothing}`;
}

function leaveOut(state, act, step, label) {
  const how = standOf(step, state, label);
  if (how.stand === "skipped") return html`<p class="panel">${say.skipped(state.call.extra.skipped[step].reason)} <button class="small-button" @click=${() => act.takeUp(step)}>${say.takeUp}</button></p>`;
  if (how.stand === "done" || step === "hand_over") return nothing;
  return html`<button class="quiet-button" @click=${() => act.askSkipStep(step)}>${say.skip}</button>`;
}

function skipReasons(state, act, step) {
  const other = (event) => {
    event.preventDefault();
    act.skipStep(step, String(new FormData(event.target).get("reason")).trim());
  };
  return html`<section class="stack" aria-label=${say.skip}><h2>${say.skip}</h2>
    ${state.engine.words.not_taken_reasons.map((reason) => html`<button type="button" class="sign" @click=${() => act.skipStep(step, reason.text ?? reason)}>${reason.text ?? reason}</button>`)}
    <form class="stack" @submit=${other}><label class="text-field">${words.entry.other}<input name="reason" required maxlength="200" autocomplete="off"></label><button class="small-button">${words.entry.keepReason}</button></form>
    <button class="quiet-button" @click=${() => act.askSkipStep("")}>${words.back}</button></section>`;
}

function nextStep(call, step) {
  const steps = stepsOf(call);
  const next = steps[steps.indexOf(step) + 1];
  if (!next) return nothing;
  return html`<footer class="foot"><a class="big-button is-quiet" href=${toStep(call.id, next)}>${say.next(say.step[next])}</a></footer>`;
}
