// The first screen: is this phone ready, what is still to be sent, and the calls.
import { html, nothing } from "../vendor/lit-html/lit-html.js";
import words from "../words/index.js";
import { dayText } from "../state/format.js";
import { callLists } from "../state/lists.js";
import { toCall, toPhoto } from "../state/route.js";
import { installCard } from "./install.js";
import { clockLine, readyLine, sendLine } from "./line.js";

export function callsScreen(state, act) {
  const { mine, others, done } = callLists(state);
  const complaints = state.engine.words?.complaints ?? [];
  const list = (title, calls) => (calls.length ? html`<h2 class="list-title">${title}</h2>${calls.map((call) => callCard(call, state, complaints))}` : nothing);
  return html`<main class="screen has-foot">
    <header class="topline">
      <h1>${words.name}</h1><span class="soft">${state.session.person}</span><a class="gear" href="#/settings" aria-label=${words.settings.title}>${GEAR}</a>
    </header>
    ${installCard(state, act)}
    ${readyLine(state)} ${sendLine(state, act)} ${clockLine(state)} ${refusedLine(state)} ${lostLine(state, act)}
    ${list(words.calls.mine, mine)} ${list(words.calls.others, others)} ${doneList(done, state, complaints)}
    ${mine.length + others.length + done.length ? nothing : html`<p class="soft empty">${words.calls.none}</p>`}
    <footer class="foot"><a class="big-button" href="#/new">${words.calls.open}</a><a class="quiet-button" href="#/code/">${words.code.title}</a></footer>
  </main>`;
}

const doneList = (done, state, complaints) =>
  done.length ? html`<details class="done-calls"><summary>${words.calls.done} <span class="count">${done.length}</span></summary>${done.map((call) => callCard(call, state, complaints))}</details>` : nothing;

function callCard(call, state, complaints) {
  const complaint = complaints.find((one) => one.complaint === call.complaint)?.text ?? call.complaint;
  const site = state.register.sites.find((one) => one.id === call.site)?.name ?? "";
  return html`<a class="card call-card" href=${toCall(call.id)}>
    <span class="tag">${call.tag}</span>
    <span class="call-what"><b>${complaint}</b><span class="soft">${site}<br>${dayText(call.opened_at, words)}</span></span>
    <span class="call-state is-${call.state}">${words.callState[call.state]}</span>
  </a>`;
}

const GEAR = html`<svg class="camera-shape" viewBox="0 0 24 24" aria-hidden="true"><path d="M4 7h9M17 7h3M4 17h3M11 17h9"/><circle cx="15" cy="7" r="2.2"/><circle cx="9" cy="17" r="2.2"/></svg>`;

const refusedLine = (state) =>
  state.refused.length ? html`<a class="strip is-alarm" href="#/refused"><b>${words.calls.refused(state.refused.length)}</b></a>` : nothing;

/** Photos that the office asks for again and this phone gave up: each may be looked at, all may be put away. */
function lostLine({ photosLost }, act) {
  if (photosLost.length === 0) return nothing;
  const [{ call, photo }] = photosLost;
  return html`<aside class="notice is-calm" role="status">${words.photos.lost(photosLost.length)}
    <div class="foot-row"><a class="small-button" href=${toPhoto(call, photo)}>${words.photos.lostShow}</a><button class="quiet-button" @click=${act.putLostAway}>${words.photos.lostAway}</button></div></aside>`;
}
