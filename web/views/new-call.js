// Opening a call: which machine, what they called about, what was said.
import { html } from "../vendor/lit-html/lit-html.js";
import words from "../words/index.js";
import { machineShelves } from "../state/lists.js";
import { toSheet } from "../state/route.js";

const say = words.newCall;

export function newCallScreen(state, act) {
  const { machine, complaint, reported } = state.newCall;
  const shelves = machineShelves(state);
  const complaints = state.engine.words?.complaints ?? [];
  return html`<main class="screen has-foot">
    <header class="topline"><a class="back" href="#/" aria-label=${words.back}>‹</a><h1>${say.title}</h1></header>
    <h2 class="list-title">${say.machine}</h2>
    ${shelves.length ? shelves.map((shelf) => siteShelf(shelf, machine, act)) : html`<p class="soft">${say.none}</p>`}
    <a class="small-button" href=${toSheet(null, "site")}>${say.newSite}</a>
    <h2 class="list-title">${say.complaint}</h2>
    <div class="chips" role="group" aria-label=${say.complaint}>${complaints.map((one) => chip(one.text, one.complaint === complaint, () => act.newCall({ complaint: one.complaint })))}</div>
    <label class="text-field">${say.reported}<textarea rows="3" .value=${reported} @input=${(event) => act.newCall({ reported: event.target.value })}></textarea></label>
    <footer class="foot"><button class="big-button" ?disabled=${!machine || !complaint} @click=${act.openCall}>${say.go}</button></footer>
  </main>`;
}

const siteShelf = ({ site, racks }, chosen, act) => html`<section class="panel" aria-label=${site.name}>
  <h3>${site.name}</h3>
  ${racks.map(({ rack, machines }) => html`<div class="rack">
    <span class="choice-title">${rack ? say.rack(rack) : ""}</span><div class="chips">
    ${machines.map((one) => chip(one.tag, one.id === chosen, () => act.newCall({ machine: one.id })))}
  </div></div>`)}
  <a class="quiet-button" href=${toSheet(null, "machine", site.id)}>${say.newMachine}</a>
</section>`;

const chip = (text, pressed, choose) => html`<button type="button" class="chip" aria-pressed=${String(pressed)} @click=${choose}>${text}</button>`;
