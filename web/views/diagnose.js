// What to read out when something seems wrong: every fact the page knows about itself.
import { html } from "../vendor/lit-html/lit-html.js";
import words from "../words/index.js";
import { dayText } from "../state/format.js";

const say = words.diagnose;

export function diagnoseScreen(state) {
  return html`<main class="screen">
    <header class="topline"><a class="back" href="#/" aria-label=${words.back}>‹</a><h1>${say.title}</h1></header>
    <p class="soft">${say.why}</p>
    ${parts(state).map(([title, facts]) => html`<section class="panel"><h2>${title}</h2><dl class="readings">${facts.map(([name, text]) => html`<div><dt>${name}</dt><dd>${text}</dd></div>`)}</dl></section>`)}
  </main>`;
}

/** @returns {[string, string[][]][]} */
function parts(state) {
  const found = state.diagnosis;
  return [[say.engine, engineFacts(state)], [say.page, found ? pageFacts(found) : []], [say.store, found ? storeFacts(state, found) : []], [say.line, lineFacts(state, found)]];
}

function engineFacts({ engine }) {
  const { vectors, startedIn, words: told } = engine;
  return [
    [say.state, say.states[engine.state]],
    [say.started, startedIn ? say.ms(startedIn) : "…"],
    [say.vectors, vectors ? say.of(vectors.passed, vectors.of) : "…"],
    [say.version, told ? `${told.engine.version}, ${told.engine.rules}` : "…"],
    [say.digest, told?.engine.digest.slice(0, 12) ?? "…"],
  ];
}

const pageFacts = ({ versions, controlled, language, browser }) => [
  [say.version, versions.map((one) => one.slice(0, 12)).join(", ") || say.notHeld],
  [say.offline, controlled ? say.yes : say.no],
  [say.language, language],
  [say.browser, browser],
];

const storeFacts = ({ storage }, { counts, left }) => [
  [say.persisted, say.answers[storage.persisted]],
  [say.left, left === null ? say.unknown : say.megabytes(left)],
  ...Object.entries(counts).map(([name, count]) => [say.counts[name], String(count)]),
  [say.trouble, storage.trouble || say.none],
];

const lineFacts = ({ line, session, pulledAt }, found) => [
  [say.signedIn, session ? `${session.person}, ${session.device.slice(0, 8)}` : say.no],
  [say.lastLine, line.at ? dayText(line.at, words) : say.never],
  [say.lastRead, pulledAt ? dayText(pulledAt, words) : say.never],
  [say.lineTrouble, line.reason ? [line.reason, line.detail].filter(Boolean).join(": ") : say.none],
  [say.cursor, found ? `${found.cursor} · ${found.epoch.slice(0, 8)}` : "…"],
];
