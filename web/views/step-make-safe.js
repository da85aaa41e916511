// Making it safe: out of staging, locked and tried, absence tested, stored energy waited for, valves written down.
import { html, nothing } from "../vendor/lit-html/lit-html.js";
import words from "../words/index.js";
import { SAFE } from "../state/job.js";
import { timeText } from "../state/format.js";
import { signNote, signsOf } from "../state/round.js";
import { toSheet } from "../state/route.js";

const say = words.job.safe;

export function makeSafeStep(state, act) {
  const { call } = state;
  const done = call.extra?.done ?? {};
  return html`<div class="signs">${SAFE.map((mark) => html`<button type="button" class="sign ${done[mark] ? "is-there" : ""}" aria-pressed=${String(Boolean(done[mark]))} @click=${() => act.mark(mark, !done[mark])}>
      <span>${say.step[mark]}</span><span class="sign-standing">${done[mark] ? timeText(done[mark]) : say.toDo}</span></button>`)}</div>
    <p class="soft">${say.separate}</p>${valves(call, act)}`;
}

function valves(call, act) {
  const written = signsOf(call).valves_stated ? signNote(call, "valves_stated") : "";
  const keep = (event) => {
    event.preventDefault();
    act.stateValves(String(new FormData(event.target).get("valves")).trim());
  };
  return html`<form class="stack" @submit=${keep}><label class="text-field">${say.valves}<textarea name="valves" rows="2" required placeholder=${say.valvesLike} .value=${written}></textarea></label>
    <div class="button-row"><button class="small-button">${written ? say.valvesAgain : say.valvesKeep}</button>
    <a class="small-button" href=${toSheet(call.id, "action", "valve_moved")}>${say.valveMoved}</a></div></form>${nothing}`;
}
