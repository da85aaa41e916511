// One point of a round in a list: its title, what was read, its verdict, and where its entry is.
import { html, nothing } from "../vendor/lit-html/lit-html.js";
import words from "../words/index.js";
import { badge } from "../components/badge.js";
import { standMark, standOf } from "../components/stand.js";
import { readingText } from "../state/format.js";
import { findingsOn, readBeside, readingsOf, worst } from "../state/round.js";
import { toReading } from "../state/route.js";

export function pointRow(point, state, label) {
  const reading = readingsOf(state.call, label, point.name).at(-1);
  const beside = readBeside(state.call, label, point.name);
  const correction = reading && !reading.body.not_taken ? toReading(state.call.id, label, point.name, reading.id) : nothing;
  return html`<a class="point-row" data-hold=${correction} draggable="false" href=${toReading(state.call.id, label, point.name)}>
    <span class="point-title">${point.title}${beside.map(({ body }) => html`<span class="soft"> ${body.neighbour.tag} ${body.not_taken ? words.call.notTaken : readingText(body, words)}</span>`)}</span>
    ${reading ? readSoFar(reading, state) : html`<span class="point-open" aria-hidden="true">+</span>`}
  </a>`;
}

function readSoFar(reading, state) {
  const verdict = worst(findingsOn(state.call.result, reading));
  const text = reading.body.not_taken ? words.call.notTaken : readingText(reading.body, words);
  return html`<span class="point-value">${text}</span>${badge(verdict, words, false)}${standMark(standOf(reading.rows.at(-1).id, state), words)}`;
}
