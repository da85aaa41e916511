// The round: points in the order of work, each with what was read, its verdict and where its entry is.
import { html, nothing } from "../vendor/lit-html/lit-html.js";
import words from "../words/index.js";
import { badge } from "../components/badge.js";
import { choice } from "../components/choice.js";
import { standMark, standOf } from "../components/stand.js";
import { readingText } from "../state/format.js";
import { countsByLabel, findingsOn, LABELS, nextPoints, readingsOf, shelves, worst } from "../state/round.js";
import { toReading } from "../state/route.js";
import { plateCard } from "./plate.js";

export function measureTab(state, act) {
  const { call, engine, shown, label } = { ...state, label: labelOf(state) };
  const all = shown.has("points");
  const counts = countsByLabel(call);
  return html`
    ${plateCard(call.plate, shown.has("plate"), act)}
    ${choice({ title: words.call.tabs.measure, values: LABELS, chosen: label, textOf: (one) => labelText(one, counts), choose: act.chooseLabel, hideTitle: true })}
    ${nextCards(state, label)} ${lookFor(state, act)}
    ${shelves(engine.words.points, all).map((shelf) => shelfOf(shelf, state, label))}
    <button class="quiet-button" @click=${() => act.fold("points")}>${all ? words.call.fewer : words.call.all}</button>`;
}

export const labelOf = (state) => LABELS.find((label) => state.shown.has("label:" + label)) ?? "as_found";

const labelText = (label, counts) => html`${words.label[label]} ${counts[label] ? html`<span class="count">${counts[label]}</span>` : nothing}`;

function nextCards(state, label) {
  if (!state.call.result && state.call.judging) return html`<p class="card next-card" aria-busy="true"><b>${words.call.next} …</b></p>`;
  const next = nextPoints(state.call, state.engine.words.points, label, "");
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

const shelfOf = ({ group, points }, state, label) => html`<section class="shelf" aria-label=${words.group[group]}>
  <h2 class="list-title">${words.group[group]}</h2>
  ${points.map((point) => pointRow(point, state, label))}
</section>`;

function pointRow(point, state, label) {
  const reading = readingsOf(state.call, label, point.name).at(-1);
  return html`<a class="point-row" href=${toReading(state.call.id, label, point.name)}>
    <span class="point-title">${point.title}</span>
    ${reading ? readSoFar(reading, state) : html`<span class="point-open" aria-hidden="true">+</span>`}
  </a>`;
}

function readSoFar(reading, state) {
  const verdict = worst(findingsOn(state.call.result, reading));
  const text = reading.body.not_taken ? words.call.notTaken : readingText(reading.body, words);
  return html`<span class="point-value">${text}</span>${badge(verdict, words, false)}${standMark(standOf(reading.rows.at(-1).id, state), words)}`;
}
