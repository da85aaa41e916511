// One reading under the thumb: caution first, then the rail moving as digits land, then what was found.
import { html, nothing } from "../vendor/lit-html/lit-html.js";
import words from "../words/index.js";
import { cautionOf, stageOf } from "../state/caution.js";
import { toCall } from "../state/route.js";
import { clockTiles } from "./clocks.js";
import { keptPart } from "./reading-kept.js";
import { skipPart } from "./reading-skip.js";
import { typingPart } from "./reading-typing.js";

export function readingScreen(state, act) {
  const { route, call, engine } = state;
  const point = engine.words?.points.find((one) => one.name === route.point);
  if (!call || !point || (!state.draft && !state.kept)) return html`<main class="screen" aria-busy="true"></main>`;
  return html`<main class="screen reading">
    <header class="topline"><a class="back" href=${toCall(call.id)} aria-label=${words.entry.round}>‹</a>
      <h1>${point.title}</h1><span class="soft">${call.tag} · ${words.label[route.label]}</span>
    </header>
    ${clockTiles(state, act)}
    ${PARTS[stageOf(state, point)](state, act, point)}
  </main>`;
}

const PARTS = { kept: keptPart, skip: skipPart, caution: cautionPart, typing: typingPart };

function cautionPart(state, act, point) {
  const caution = cautionOf(point, state.draft.state, state.engine.words);
  return html`<section class="caution" role="alert" aria-label=${words.entry.caution}>
  <svg class="shape" viewBox="0 0 24 24" aria-hidden="true"><path d="M12 3l9.5 17h-19z"/><path class="caution-sign" d="M12 9.5v5M12 17.3v.2"/></svg>
  <h2>${words.entry.caution}</h2>
  ${caution.texts.map((text) => html`<p>${text}</p>`)}
  ${point.states.length > 1 ? html`<p class="soft">${words.entry.state}: ${words.state[state.draft.state]}</p>` : nothing}
  <button class="big-button" @click=${() => act.acknowledge(caution.step)}>${words.entry.acknowledge}</button>
</section>`;
}
