// As left beside as found: every point read when it was found, with its number then and now.
import { html, nothing } from "../vendor/lit-html/lit-html.js";
import words from "../words/index.js";
import { badge } from "../components/badge.js";
import { figure, readingText, unitText } from "../state/format.js";
import { findingsOn, readingsOf, worst } from "../state/round.js";
import { toReading } from "../state/route.js";

const say = words.job.asLeft;

export function comparisonStep({ call, engine }) {
  const found = engine.words.points.filter((point) => point.checks.length && ["as_found", "as_left"].some((label) => readingsOf(call, label, point.name).some(({ body }) => !body.not_taken)));
  return html`${judged(call, engine.words)}
    <table class="beside-table"><thead><tr><th scope="col">${say.point}</th><th scope="col">${words.label.as_found}</th><th scope="col">${words.label.as_left}</th></tr></thead>
    <tbody>${found.map((point) => html`<tr><th scope="row"><a href=${toReading(call.id, "as_left", point.name)}>${point.title}</a></th><td>${cell(call, "as_found", point)}</td><td>${cell(call, "as_left", point)}</td></tr>`)}</tbody></table>`;
}

function cell(call, label, point) {
  const reading = readingsOf(call, label, point.name).at(-1);
  if (!reading) return html`<span class="soft">${say.unread}</span>`;
  return html`${badge(worst(findingsOn(call.result, reading)), words, false)} ${reading.body.not_taken ? words.call.notTaken : readingText(reading.body, words)}`;
}

function judged({ result }, vocabulary) {
  const rows = result?.comparison ?? [];
  if (rows.length === 0) return nothing;
  const title = (check) => vocabulary.checks.find((one) => one.check === check)?.title ?? check;
  return html`<ul class="events">${rows.map((row) => html`<li class="event"><b>${title(row.check)}</b><span class="soft">${figure(row.as_found)} → ${figure(row.as_left)} ${unitText(row.unit, words)}</span></li>`)}</ul>`;
}
