// How this phone shows things: light, letters, units, language.
import { html, nothing } from "../vendor/lit-html/lit-html.js";
import words, { language } from "../words/index.js";
import { choice } from "../components/choice.js";
import { CHOICES } from "../state/settings.js";
import { installCard } from "./install.js";

const say = words.settings;

export function settingsScreen(state, act) {
  return html`<main class="screen">
    <header class="topline"><a class="back" href="#/" aria-label=${words.back}>‹</a><h1>${say.title}</h1></header>
    ${Object.keys(CHOICES).map((name) => setting(name, state.settings[name], act))}
    ${state.languages.length > 1 ? languages(state.languages, act) : nothing}
    ${installCard({ install: { ...state.install, later: false, putOff: true } }, act)}
    <p><a class="quiet-button" href="#/diagnose">${words.diagnose.title}</a></p>
  </main>`;
}

const setting = (name, chosen, act) => html`<section class="panel"><h2>${say[name].title}</h2>
  ${choice({ title: say[name].title, values: CHOICES[name], chosen, textOf: (value) => say[name][value], choose: (value) => act.set(name, value), hideTitle: true })}
  ${say[name].note ? html`<p class="soft">${say[name].note}</p>` : nothing}</section>`;

const languages = (codes, act) => html`<section class="panel"><h2>${say.language}</h2>
  ${choice({ title: say.language, values: codes, chosen: language, textOf: ownName, choose: act.speak, hideTitle: true })}</section>`;

/** A language by its own name. */
function ownName(code) {
  const name = new Intl.DisplayNames([code], { type: "language" }).of(code);
  return html`<span lang=${code}>${name.charAt(0).toLocaleUpperCase(code) + name.slice(1)}</span>`;
}
