// Clocks as tiles: what is waited for, the time left or over, and what the phone does while it runs.
import { html, nothing } from "../vendor/lit-html/lit-html.js";
import words from "../words/index.js";
import { dayText, timeText } from "../state/format.js";
import { CLOCK_OF, laterOf, leftOf, LENGTHS, passedOf, tilesOf } from "../state/clocks.js";

const say = words.clocks;
/** How long the end of an engine's clock is called out; one's own is until it is put away. */
const CALLED = 60_000;

/** @param {any} state @param {any} act @param {string} [elsewhere] the clock that this screen shows in its own place, with the line on sound */
export function clockTiles(state, act, elsewhere = "") {
  const tiles = tilesOf(state).filter(({ what }) => what !== elsewhere);
  if (tiles.length === 0) return nothing;
  return html`<section class="clocks" aria-label=${say.title}>${tiles.map((one) => tile(one, state.clock.now, act))} ${elsewhere ? nothing : heardLine(state)}</section>`;
}

/** While a clock runs: whether the screen stays on, and whether anything will be heard. */
export function heardLine(state) {
  if (!tilesOf(state).some(({ due }) => due > state.clock.now)) return nothing;
  return html`<p class="soft ${state.clock.audible ? "" : "is-silent"}">${state.clock.awake ? say.awake : say.mayLock} ${state.clock.audible ? say.heard : say.silent}</p>`;
}

function tile(one, now, act) {
  const { over, text } = leftOf(one.due, now);
  return html`<div class="clock ${over ? "is-over" : ""}" data-clock=${one.what}>
    <svg class="clock-face" viewBox="0 0 40 40" aria-hidden="true"><circle cx="20" cy="20" r="16"/>${over ? RUNG : hand(passedOf(one, now))}</svg>
    <div class="clock-what"><b>${say.what[one.what]}</b><span class="soft">${over ? say.wasDue(timeText(one.due)) : say.due(timeText(one.due))}</span></div>
    <span class="clock-left" role="timer">${over ? say.over(text) : text}</span>
    ${one.mine ? html`<button type="button" class="clock-away" aria-label=${say.putAway(say.what[one.what])} @click=${() => act.putClockAway(one.id)}>×</button>` : nothing}
    ${over && (one.mine || now - one.due < CALLED) ? html`<span class="unseen" role="alert">${say.what[one.what]}: ${say.done}</span>` : nothing}
  </div>`;
}

const RUNG = html`<svg viewBox="0 0 40 40"><path class="clock-hand" d="M13 20l5 5 9-10"/></svg>`;

/** The part that has passed, as an arc from the top. */
function hand(share) {
  const angle = 2 * Math.PI * share;
  const [x, y] = [20 + 16 * Math.sin(angle), 20 - 16 * Math.cos(angle)];
  return html`<svg viewBox="0 0 40 40"><path class="clock-hand" d="M20 4A16 16 0 ${share > 0.5 ? 1 : 0} 1 ${x.toFixed(2)} ${y.toFixed(2)}"/></svg>`;
}

/** A clock to start by hand beside the reading it is for. */
export function clockButton(state, act, point) {
  const what = CLOCK_OF[point];
  if (!what || tilesOf(state).some((tile) => tile.what === what && tile.due > state.clock.now)) return nothing;
  return html`<button type="button" class="small-button" @click=${() => act.startClock(what)}>${say.start[what](LENGTHS[what] / 1000)}</button>`;
}

/** Every clock that can be started by hand, and the later dates the engine names. */
export function clockShelf(state, act) {
  const later = laterOf(state.call, state.clock.now);
  return html`<details class="panel"><summary>${say.more}</summary>
    <div class="chips">${Object.keys(LENGTHS).map((what) => html`<button type="button" class="chip" @click=${() => act.startClock(what)}>${say.start[what](LENGTHS[what] / 1000)}</button>`)}</div>
    ${later.length ? html`<ul>${later.map(({ due, because }) => html`<li>${dayText(due, words)}: ${because}</li>`)}</ul>` : nothing}</details>`;
}
