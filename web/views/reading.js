// One reading under the thumb: caution first, then the rail moving as digits land, then what was found.
import { html } from "../vendor/lit-html/lit-html.js";
import words from "../words/index.js";
import { stageOf } from "../state/caution.js";
import { toCall, toStarts } from "../state/route.js";
import { cautionPart } from "./caution.js";
import { clockTiles } from "./clocks.js";
import { keptPart } from "./reading-kept.js";
import { skipPart } from "./reading-skip.js";
import { typingPart } from "./reading-typing.js";

export function readingScreen(state, act) {
  const { route, call, engine } = state;
  const point = engine.words?.points.find((one) => one.name === route.point);
  if (!call || !point || (!state.draft && !state.kept)) return html`<main class="screen" aria-busy="true"></main>`;
  return html`<main class="screen reading">
    <header class="topline"><a class="back" href=${state.draft?.only ? toStarts(call.id, route.label) : toCall(call.id)} aria-label=${state.draft?.only ? words.starts.title : words.entry.round}>‹</a>
      <h1>${point.title}${state.draft?.only ? ` ${state.draft.only}` : ""}</h1><span class="soft">${call.tag} · ${words.label[route.label]}</span>
    </header>
    ${clockTiles(state, act)}
    ${PARTS[stageOf(state, point)](state, act, point)}
  </main>`;
}

const PARTS = { kept: keptPart, skip: skipPart, caution: cautionPart, typing: typingPart };
