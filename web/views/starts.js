// One leg a start: which leg is next, how many starts this hour has seen, how long to wait, and what the last one caught.
import { html, nothing } from "../vendor/lit-html/lit-html.js";
import words from "../words/index.js";
import { cautionMark, cautionOf } from "../state/caution.js";
import { leftOf } from "../state/clocks.js";
import { timeText, unitText } from "../state/format.js";
import { findingsOn } from "../state/round.js";
import { toLeg, toReading, toStep } from "../state/route.js";
import { legByLeg, nextStart, rateOf, startsThisHour } from "../state/starts.js";
import { cautionPart } from "./caution.js";
import { clockTiles, heardLine } from "./clocks.js";
import { findingCard } from "./findings.js";

const say = words.starts;

export function startsScreen(state, act) {
  const { call, engine, route } = state;
  if (!call || !engine.words) return html`<main class="screen" aria-busy="true"></main>`;
  const point = engine.words.points.find(({ name }) => name === "start_current");
  const { step } = cautionOf(point, "starting", engine.words);
  const heard = state.acknowledged.has(cautionMark(call.id, step));
  return html`<main class="screen has-foot">
    <header class="topline"><a class="back" href=${toStep(call.id, "start")} aria-label=${words.job.step.start}>‹</a><h1>${say.title}</h1><span class="soft">${call.tag} · ${words.label[route.label]}</span></header>
    ${heard ? oneByOne(state, act, point) : cautionPart(state, act, point, "starting")}
  </main>`;
}

function oneByOne(state, act, point) {
  const { call, route, engine } = state;
  const now = state.clock.now || Date.now();
  const stand = legByLeg(call, route.label, now);
  const rate = rateOf(call.plate, engine.words.checks, say.kinds);
  const next = nextStart(call, rate);
  const waits = stand.stage === "start" && next.due > now;
  return html`${clockTiles(state, act, waits ? "next_start_allowed" : "")}
    <ol class="leg-list" aria-label=${point.title}>${point.keys.map((leg) => legRow(leg, stand))}</ol>
    ${rateLine(startsThisHour(call, now), rate)}
    ${STAGES[stand.stage](state, act, stand, next, now)}`;
}

function legRow(leg, { leg: next, amps }) {
  const value = amps?.body.legs?.[leg];
  const row = amps?.rows.find(({ entry }) => entry.body.legs?.[leg]);
  const text = value ? html`<b class="figures">${value} ${unitText(amps.body.unit, words)}</b><span class="soft">${timeText(row.entry.made_at)}</span>` : html`<span class="soft">${leg === next ? say.next : say.open}</span>`;
  return html`<li class="point-row" aria-current=${leg === next ? "step" : "false"}><span class="point-title">${leg}</span>${text}</li>`;
}

/** Starts of the hour as marks, those past the usual rate crossed: count and rate in words beside them. */
function rateLine(count, { usual, most, source }) {
  if (usual === null) return html`<p class="soft">${say.noRate(count)}</p>`;
  const marks = [...Array(Math.max(count, usual)).keys()];
  return html`<div class="rate"><svg class="rate-marks" viewBox="0 0 ${marks.length * 14} 24" aria-hidden="true">${marks.map((i) => rateMark(i, count, usual))}</svg>
    <p>${say.rate(count, usual, most)}${source ? html` <span class="soft">${source}</span>` : nothing}</p></div>`;
}

const rateMark = (i, count, usual) => html`<svg x=${i * 14} width="14" height="24" viewBox="0 0 14 24"><path class=${i < count ? "rate-made" : "rate-free"} d=${i < usual ? "M7 4V20" : "M2 5L12 19M12 5L2 19"}/></svg>`;

const STAGES = { start: toStart, read: toRead, done: allCaught };

function toStart(state, act, { leg, pair }, { due, by }, now) {
  const { call, route } = state;
  const early = (event) => {
    event.preventDefault();
    act.startEarly(route.label, leg, String(new FormData(event.target).get("reason")).trim());
  };
  const volts = pair ? html`<a class="small-button is-long" href=${toLeg(call.id, route.label, "start_voltage", pair)}>${say.volts(pair)}</a>` : nothing;
  if (due <= now) return html`${volts}<section class="panel stack"><h2>${say.clampOn(leg)}</h2><p class="soft">${say.how}</p></section>
    <footer class="foot"><button class="big-button" @click=${() => act.startLeg(route.label, leg)}>${say.now}</button></footer>`;
  return html`${volts}<section class="panel stack" data-clock="next_start_allowed"><h2>${say.clampOn(leg)}</h2>
    <p class="wait"><b class="figures" role="timer" aria-label=${say.waitLabel}>${leftOf(due, now).text}</b> ${say.until[by](timeText(due))}</p>${heardLine(state)}</section>
    <details class="panel"><summary>${say.early}</summary><form class="stack" @submit=${early}><p class="soft">${words.sheet.why.override}</p>
      <label class="text-field">${words.sheet.field.reason}<input name="reason" required maxlength="200" autocomplete="off"></label><button class="small-button">${say.startAnyway}</button></form></details>`;
}

function toRead({ call, route }, act, { leg, start }) {
  return html`<section class="panel stack"><h2>${say.caught(timeText(start.body.at), leg)}</h2></section>
    <div class="button-row"><button class="small-button" @click=${() => act.notCaught(route.label)}>${say.notCaught}</button><button class="small-button" @click=${() => act.stood(route.label)}>${say.stood}</button></div>
    <footer class="foot"><a class="big-button" href=${toLeg(call.id, route.label, "start_current", leg)}>${say.amps(leg)}</a></footer>`;
}

function allCaught({ call, route, engine }, act, { amps, volts, pair }) {
  const titles = Object.fromEntries(engine.words.checks.map((check) => [check.check, check.title]));
  const lacking = Object.keys(volts?.body.legs ?? {}).length < 3;
  return html`<p role="status"><b>${say.done}</b></p>
    ${findingsOn(call.result, amps).map((finding) => findingCard(finding, titles))}
    ${lacking ? html`<a class="small-button is-long" href=${pair ? toLeg(call.id, route.label, "start_voltage", pair) : toReading(call.id, route.label, "start_voltage")}>${pair ? say.volts(pair) : say.allVolts}</a>` : nothing}
    <footer class="foot"><a class="big-button is-quiet" href=${toStep(call.id, "running")}>${words.job.next(words.job.step.running)}</a></footer>`;
}
