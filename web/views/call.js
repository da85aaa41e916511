// One call: its machine on top, four tabs under the thumb.
import { html, nothing } from "../vendor/lit-html/lit-html.js";
import words from "../words/index.js";
import { toCall, toStep } from "../state/route.js";
import { clockShelf, clockTiles } from "./clocks.js";
import { closeTab } from "./close.js";
import { clockLine } from "./line.js";
import { findingsTab } from "./findings.js";
import { measureTab } from "./measure.js";
import { photosLink } from "./photos.js";
import { sharePart } from "./share.js";
import { signsTab } from "./signs.js";

const TABS = { measure: measureTab, signs: signsTab, findings: findingsTab, close: closeTab };

export function callScreen(state, act) {
  const { call, route, engine } = state;
  if (!call || !engine.words) return html`<main class="screen" aria-busy="true"></main>`;
  const complaint = engine.words.complaints.find((one) => one.complaint === call.complaint)?.text ?? call.complaint;
  return html`<main class="screen has-tabs">
    <header class="topline"><a class="back" href="#/" aria-label=${words.call.back}>‹</a>
      <h1><span class="tag">${call.tag}</span> ${complaint}</h1>${photosLink(call)}
    </header>
    ${clockLine(state)} ${clockTiles(state, act)}
    ${call.note ? html`<aside class="notice is-alarm" role="status"><b>${words.call.returned}</b> ${call.note}</aside>` : nothing}
    <a class="plate-line" href=${toStep(call.id, "machine")}>${plateLine(call.plate)}</a>
    ${TABS[route.tab](state, act)}
    ${route.tab === "measure" ? clockShelf(state, act) : nothing} ${route.tab === "findings" ? sharePart(state, act) : nothing}
    <nav class="tabs" aria-label=${complaint}>${Object.keys(TABS).map((tab) => html`<a href=${toCall(call.id, tab)} aria-current=${tab === route.tab ? "page" : "false"}>${words.call.tabs[tab]}</a>`)}</nav>
  </main>`;
}

/** The plate in a line; the whole of it is a tap away. */
function plateLine(plate) {
  const amps = plate.rated_load_current ? `${plate.rated_load_current} A` : "";
  const volts = plate.rated_voltage ? `${[plate.rated_voltage].flat().join("/")} V` : "";
  const facts = [plate.model, plate.refrigerant, volts, amps, plate.clashes?.length ? words.clash.short : ""].filter(Boolean);
  return facts.length ? facts.join(" · ") : words.job.machine.enter;
}
