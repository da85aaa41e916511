// A reading just kept: that it is safe, what was found, and what could be read next.
import { html, nothing } from "../vendor/lit-html/lit-html.js";
import words from "../words/index.js";
import { standMark, standOf } from "../components/stand.js";
import { readingText, timeText } from "../state/format.js";
import { findingsOn, readingsTaken } from "../state/round.js";
import { correctedVersions } from "../state/versions.js";
import { nextPoints, stepInHand } from "../state/job.js";
import { machinesBeside } from "../state/beside.js";
import { subjectOf } from "../state/photos.js";
import { toReading, toStep } from "../state/route.js";
import { clockButton } from "./clocks.js";
import { findingCard } from "./findings.js";
import { photosBeside } from "./photos.js";

const say = words.entry;

export function keptPart(state, act, point) {
  const { call, route, kept, engine } = state;
  const reading = readingsTaken(call, route.label, point.name).find((one) => one.rows.some((row) => row.id === kept.id));
  const stand = standOf(kept.id, state);
  const titles = Object.fromEntries(engine.words.checks.map((check) => [check.check, check.title]));
  return html`<div class="reading-scroll">
      <p class="kept-line" role="status">${standMark(stand, words)}<b>${say.kept(timeText(kept.at))}</b> <span class="soft">${stand === "kept" ? say.notSent : words.stand[stand]}</span></p>
      ${reading ? readingPart(reading, state, titles) : nothing}
      ${reading ? photosBeside(state, act, { shows: subjectOf(point), of: reading.id }) : nothing}
      ${clockButton(state, act, point.name)} ${besideLink(state, point)}
    </div>
    <footer class="foot is-stacked">${nextButton(state, route.label, point)}
      <div class="foot-row"><button class="quiet-button" type="button" @click=${act.undo}>${say.undo}</button>
      <a class="quiet-button" href=${toReading(call.id, route.label, point.name, "again")}>${say.repeat}</a>
      ${reading && !reading.body.not_taken ? html`<a class="quiet-button" href=${toReading(call.id, route.label, point.name, reading.id)}>${say.again}</a>` : nothing}</div>
    </footer>`;
}

/** While it is being judged nothing is said; a reading of another machine is not judged at all. */
function unjudged({ body }, call) {
  if (body.neighbour) return html`<p class="soft">${say.besideWhy}</p>`;
  return call.judging ? nothing : html`<p class="soft">${say.noVerdict}</p>`;
}

/** The same point on the machine beside, in the same minute: what both show is not this machine's alone. */
const besideLink = (state, { name, kind }) =>
  ["legs", "value"].includes(kind) && machinesBeside(state).length ? html`<a class="small-button is-long is-left-end" href=${toReading(state.call.id, state.route.label, name, "beside")}>${say.beside}</a>` : nothing;

function readingPart(reading, { call, route }, titles) {
  const findings = findingsOn(call.result, reading);
  const text = textOf(reading.body);
  return html`<div class="kept-box" data-hold=${reading.body.not_taken ? nothing : toReading(call.id, route.label, reading.body.point, reading.id)}>
      ${reading.body.neighbour ? html`<p class="soft">${say.onBeside(reading.body.neighbour.tag)}</p>` : nothing}
      <p class="kept-figures">${text}</p>${reading.body.not_taken ? nothing : html`<p class="soft" aria-hidden="true">${say.hold}</p>`}${versions(reading)}</div>
    ${findings.length ? findings.map((finding) => findingCard(finding, titles)) : unjudged(reading, call)}`;
}

/** What stood here before, struck through, with who wrote it and when. */
function versions(reading) {
  const before = correctedVersions(reading);
  if (before.length === 0) return nothing;
  return html`<ul class="versions soft">${before.map(({ body, by, at }) => html`<li><s>${textOf(body)}</s> ${say.writtenBy(by, timeText(at))}</li>`)}</ul>`;
}

const textOf = (body) => (body.not_taken ? `${words.call.notTaken}: ${body.not_taken}` : readingText(body, words));

function nextButton(state, label, point) {
  const [next] = nextPoints(state, label, point.name);
  if (!next) return onToStep(state, label);
  const title = state.engine.words.points.find((one) => one.name === next.point)?.title ?? next.point;
  return html`${next.because ? html`<p class="soft because">${next.because}</p>` : nothing}<a class="big-button" href=${toReading(state.call.id, label, next.point)}>${say.next(title)}</a>`;
}

/** Nothing of this step is left to read: on to where the job stands. */
function onToStep(state, label) {
  const step = stepInHand(state, label);
  return html`<a class="big-button" href=${toStep(state.call.id, step)}>${words.job.next(words.job.step[step])}</a>`;
}
