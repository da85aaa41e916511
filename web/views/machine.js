// One machine, as its label opens it: plate, open calls, what was read at its last visits.
import { html, nothing } from "../vendor/lit-html/lit-html.js";
import words from "../words/index.js";
import { dateText, readingText } from "../state/format.js";
import { toCall } from "../state/route.js";
import { clashCards } from "./clashes.js";
import { plateCard } from "./plate.js";

const say = words.machine;

export function machineScreen(state, act) {
  const machine = state.register.machines.find((one) => one.id === state.route.machine);
  if (!machine) return html`<main class="screen"><header class="topline"><a class="back" href="#/" aria-label=${words.back}>‹</a><h1>${say.gone}</h1></header></main>`;
  const calls = state.register.calls.filter((call) => call.machine === machine.id);
  return html`<main class="screen has-foot">
    <header class="topline"><a class="back" href="#/" aria-label=${words.back}>‹</a><h1><span class="tag">${machine.tag}</span> ${machine.rack ? words.newCall.rack(machine.rack) : ""}</h1></header>
    <p class="soft">${siteOf(state, machine)?.name ?? ""}</p>
    ${plateCard(machine)} ${clashCards("machine", machine, act)} ${clashCards("site", siteOf(state, machine), act)}
    ${calls.length ? html`<h2 class="list-title">${say.calls}</h2>${calls.map((call) => callLink(call, state))}` : nothing}
    ${visits(state)}
    <footer class="foot"><button class="big-button" @click=${() => act.callOn(machine.id)}>${words.calls.open}</button></footer>
  </main>`;
}

const siteOf = (state, machine) => state.register.sites.find((one) => one.id === machine.site);

function callLink(call, { engine }) {
  const complaint = engine.words?.complaints.find((one) => one.complaint === call.complaint)?.text ?? call.complaint;
  return html`<a class="card" href=${toCall(call.id)}><span class="call-what"><b>${complaint}</b><span class="soft">${dateText(call.opened_at)}</span></span>
    <span class="call-state">${words.callState[call.state]}</span></a>`;
}

function visits({ machineHistory, engine, route }) {
  const rounds = machineHistory?.machine === route.machine ? machineHistory.rounds : [];
  if (rounds.length === 0) return nothing;
  const title = (name) => engine.words?.points.find((point) => point.name === name)?.title ?? name;
  const newest = [...rounds].sort((a, b) => Date.parse(b.at) - Date.parse(a.at));
  return html`<h2 class="list-title">${say.visits}</h2>${newest.map((round) => html`<details class="panel"><summary>${dateText(round.at)}, ${words.label[round.label] ?? ""}</summary>
    <dl class="readings">${round.readings.filter((reading) => !reading.not_taken).map((reading) => html`<div><dt>${title(reading.point)}</dt><dd>${readingText(reading, words)}</dd></div>`)}</dl></details>`)}`;
}
