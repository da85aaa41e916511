// What this phone needs before it goes where there is no signal, each with whether it is there.
import { html, nothing } from "../vendor/lit-html/lit-html.js";
import words from "../words/index.js";
import { dayText } from "../state/format.js";
import { isClockOff, readiness } from "../state/readiness.js";
import { readyLine, sendLine } from "./line.js";

const say = words.ready;

export function readyScreen(state, act) {
  const held = readiness(state);
  const mine = state.toSend;
  return html`<main class="screen">
    <header class="topline"><a class="back" href="#/" aria-label=${words.back}>‹</a><h1>${say.title}</h1></header>
    ${readyLine(state)}
    <ul class="needs">${held.needs.map(({ need, met }) => html`<li class=${met ? "is-met" : "is-unmet"}><b>${met ? "✓" : "–"}</b> ${say.need[need]}</li>`)}</ul>
    <section class="panel"><h2>${held.asOf ? say.heldAs(dayText(held.asOf, words)) : say.never}</h2>
      ${held.sites.map((site) => html`<p>${site.name} <span class="soft">${say.holds(1, site.machines).split(", ")[1]}</span></p>`)}
    </section>
    <section class="panel"><h2>${say.sending}</h2>${sendLine(state, act)}<a class="quiet-button" href="#/carry">${say.carry}</a></section>
    <section class="panel"><h2>${say.storage}</h2><p class="soft">${say.persisted[state.storage.persisted]} ${state.space === null ? "" : say.left(state.space)}</p></section>
    <section class="panel"><h2>${say.clock}</h2><p class="soft">${clockText(state.line.ahead)}</p></section>
    <section class="panel"><h2>${state.session.person}</h2>
      ${mine ? html`<p class="soft">${say.signOutKeeps(mine)}</p>` : nothing}
      <button class="small-button" @click=${act.signOut}>${say.signOut}</button>
    </section>
    <div class="foot-row"><a class="quiet-button" href="#/settings">${words.settings.title}</a><a class="quiet-button" href="#/diagnose">${words.diagnose.title}</a></div>
    ${state.engine.startedIn ? html`<p class="soft">${say.startedIn(state.engine.startedIn)}</p>` : nothing}
  </main>`;
}

function clockText(ahead) {
  if (ahead === null) return say.never;
  return isClockOff(ahead) ? say.clockOff(ahead) : say.clockFine;
}
