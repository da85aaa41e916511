// Carrying by hand what the line does not take: a file out, a file in.
import { html, nothing } from "../vendor/lit-html/lit-html.js";
import words from "../words/index.js";

const say = words.carry;

export function carryScreen(state, act) {
  const unsent = state.toSend + state.othersWaiting + state.refused.length;
  return html`<main class="screen">
    <header class="topline"><a class="back" href="#/ready" aria-label=${words.back}>‹</a><h1>${say.title}</h1></header>
    <section class="panel stack"><h2>${say.out}</h2><p class="soft">${say.outWhy}</p>
      <button class="big-button" ?disabled=${unsent === 0} @click=${act.writeUnsent}>${say.write(unsent)}</button></section>
    <section class="panel stack"><h2>${say.in}</h2><p class="soft">${say.inWhy}</p>
      <label class="small-button">${say.take}<input class="unseen" type="file" accept=".json,application/json" @change=${act.takeUnsent}></label></section>
    <div role="status">${outcome(state.carried)}</div>
  </main>`;
}

function outcome(carried) {
  if (!carried) return nothing;
  if (carried.fault) return html`<p class="trouble">${say.fault[carried.fault]}</p>`;
  return html`<p>${carried.done === "written" ? say.written(carried.count, carried.photos) : say.taken(carried.count, carried.known, carried.by)}</p>`;
}
