// Two strips that are always true: whether this phone can go without signal, and what the office still lacks.
import { html, nothing } from "../vendor/lit-html/lit-html.js";
import words from "../words/index.js";
import { dayText, timeText } from "../state/format.js";
import { isClockOff, readiness } from "../state/readiness.js";

export function readyLine(state) {
  const { ready, sites, machines, asOf, vectors } = readiness(state);
  const facts = [words.ready.holds(sites.length, machines), asOf ? words.ready.heldAs(dayText(asOf, words)) : words.ready.never, words.ready.engine(vectors)];
  return html`<a class="strip ready-line ${ready ? "is-ready" : "is-unready"}" href="#/ready">
    ${ready ? READY : UNREADY}<span><b>${ready ? words.ready.yes : words.ready.no}</b><span class="soft">${facts.join(" · ")}</span></span>
  </a>`;
}

export function sendLine(state, act) {
  const { line, toSend, othersWaiting } = state;
  return html`<div class="strip send-line" role="status">
    <span><b>${waitingText(toSend, state.photosWaiting)}</b><span class="soft">${lineText(line)}${othersWaiting ? ` · ${words.line.others(othersWaiting)}` : ""}</span></span>
    ${line.reason === "password" ? html`<a class="small-button" href="#/sign-in">${words.signIn.go}</a>` : sendButton(line, toSend, act)}
  </div>`;
}

/** Where people work, not only where they look for trouble: the times they write down are this phone's. */
export const clockLine = ({ line }) => (isClockOff(line.ahead) ? html`<a class="strip is-alarm clock-line" href="#/ready"><b>${words.ready.clockOff(line.ahead)}</b></a>` : nothing);

/** Entries first; the office has all only when the photos are there too. */
function waitingText(mine, photos) {
  if (mine) return words.line.waiting(mine);
  return photos ? words.line.photos(photos) : words.line.allSent;
}

const sendButton = (line, mine, act) =>
  mine || line.reason ? html`<button class="small-button" ?disabled=${line.busy || !act.sendNow} @click=${act.sendNow}>${words.line.sendNow}</button>` : nothing;

function lineText(line) {
  if (line.busy) return words.line.sending;
  if (line.reason === "no-line") return words.line.noLine;
  if (line.reason === "password") return words.line.password;
  if (line.reason === "full") return words.trouble.full;
  if (line.reason) return words.line.trouble(line.detail);
  return line.at ? words.line.last(timeText(line.at)) : "";
}

const READY = html`<svg class="shape" viewBox="0 0 24 24" aria-hidden="true"><rect class="lamp" x="3" y="3" width="18" height="18" rx="5"/><path class="lamp-sign" d="M7.5 12.5l3 3 6-7"/></svg>`;
const UNREADY = html`<svg class="shape" viewBox="0 0 24 24" aria-hidden="true"><rect class="lamp" x="3" y="3" width="18" height="18" rx="5"/><path class="lamp-sign" d="M12 7v6M12 16.5v.3"/></svg>`;
