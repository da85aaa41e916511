// One gate: open or not yet, what shuts it, each need with the reading that meets it or the step that would.
import { html, nothing } from "../vendor/lit-html/lit-html.js";
import words from "../words/index.js";
import { readingText } from "../state/format.js";
import { thingsOf } from "../state/round.js";
import { toReading, toSheet, toStep } from "../state/route.js";

const say = words.job.gate;
const AT_ONCE = 3;
const STEP_OF = { what_opened: "alarm", valves_stated: "make_safe", terminal_cover_on: "gates", start_wait: "start", cause_named: "decision", watch_date: "decision", closed_out: "repair", approver: "decision", trip_test: "alarm" };

export function gateCard(name, state) {
  const { call, engine } = state;
  const gate = call.result?.gates[name];
  if (!gate) return nothing;
  const title = engine.words.gates.find((one) => one.gate === name)?.text ?? name;
  return html`<article class="panel gate is-${gate.open ? "open" : "shut"}" data-gate=${name}>
    <header>${gate.open ? OPEN : SHUT}<h3>${title}</h3><span class="soft">${gate.open ? words.gate.open : words.gate.shut}</span></header>
    <ul class="needs">
      ${gate.blocks.map((block) => blockLine(block, name, call))}
      ${gate.unmet.slice(0, AT_ONCE).map((need) => needLine(need, name, call))}
      ${gate.started_against.map((one) => html`<li class="need"><span>${one.text}</span></li>`)}
      ${gate.overrides.map((one) => html`<li class="need"><span>${one.text}</span></li>`)}
    </ul>
    ${gate.unmet.length > AT_ONCE ? html`<details class="soft"><summary>${say.more(gate.unmet.length - AT_ONCE)}</summary><ul class="needs">${gate.unmet.slice(AT_ONCE).map((need) => needLine(need, name, call))}</ul></details>` : nothing}
    ${gate.met.length ? html`<details class="soft"><summary>${say.met(gate.met.length)}</summary><ul class="needs">${gate.met.map((need) => metLine(need, call))}</ul></details>` : nothing}
  </article>`;
}

const blockLine = (block, gate, call) => html`<li class="need is-block"><span>${block.text}</span>${pass(block.block, gate, call, block.overridable)}</li>`;

function needLine(need, gate, call) {
  const where = need.point ? toReading(call.id, "as_found", need.point) : toStep(call.id, STEP_OF[need.need] ?? "gates");
  return html`<li class="need"><a href=${placeOf(need, gate, call, where)}>${need.text}</a>${pass(need.need, gate, call, need.overridable)}</li>`;
}

/** What proves it as left is read in the as-left round. */
const placeOf = (need, gate, call, where) => (need.point && gate === "return_to_service" ? toReading(call.id, "as_left", need.point) : where);

const pass = (need, gate, call, overridable) => html`<a class="quiet-button" href=${toSheet(call.id, "override", `${gate}~${need}`)}>${overridable ? say.pass : say.against}</a>`;

function metLine(need, call) {
  const reading = thingsOf(call).get(need.met_by);
  const round = reading && thingsOf(call).get(reading.body.round);
  const place = round ? toReading(call.id, round.body.label, reading.body.point) : null;
  return html`<li class="need"><span>${need.text}</span>${place ? html`<a href=${place}>${readingText(reading.body, words)}</a>` : nothing}</li>`;
}

const OPEN = html`<svg class="shape" viewBox="0 0 24 24" aria-hidden="true"><path class="gate-post" d="M4 4v16M20 4v16"/><path class="gate-bar" d="M4 16L9 8"/></svg>`;
const SHUT = html`<svg class="shape" viewBox="0 0 24 24" aria-hidden="true"><path class="gate-post" d="M4 4v16M20 4v16"/><path class="gate-bar" d="M4 12h16"/></svg>`;
