// A machine's label, opened by the camera or typed: one match opens the machine, several are shown, none is told.
import { html, nothing } from "../vendor/lit-html/lit-html.js";
import words from "../words/index.js";
import { codeFault, matches } from "../state/short-code.js";
import { toMachine } from "../state/route.js";

const say = words.code;

export function codeScreen(state, act) {
  const code = state.code || state.route.code;
  const found = code ? matches(code, state.register.machines) : [];
  return html`<main class="screen">
    <header class="topline"><a class="back" href="#/" aria-label=${words.back}>‹</a><h1>${say.title}</h1></header>
    <label class="text-field">${say.label}<input class="code-field" inputmode="text" autocapitalize="characters" autocomplete="off" spellcheck="false" maxlength="32" .value=${code} @input=${(event) => act.typeCode(event.target.value)}></label>
    <div class="stack" role="status">${found.map((machine) => machineLink(machine, state))} ${found.length || !code ? nothing : html`<p>${state.register.machines.length ? faultText(code) : say.unread}</p>`}</div>
  </main>`;
}

const faultText = (code) => say.fault[codeFault(code)] ?? say.none;

export function machineLink(machine, state) {
  const site = state.register.sites.find((one) => one.id === machine.site)?.name ?? "";
  return html`<a class="card" href=${toMachine(machine.id)}><span class="tag">${machine.tag}</span>
    <span class="call-what"><b>${machine.rack ? words.newCall.rack(machine.rack) : ""}</b><span class="soft">${site}</span></span></a>`;
}
