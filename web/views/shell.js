// The frame round every screen: what must be said whatever is on it, then the screen itself.
import { html, nothing } from "../vendor/lit-html/lit-html.js";
import words from "../words/index.js";
import { dayText } from "../state/format.js";
import { unsaved } from "../state/unsaved.js";
import { OPEN_TO_ALL } from "../state/route.js";
import { callsScreen } from "./calls.js";

/** The screens that stand before the rest of the page is here. */
export const FIRST_SCREENS = { calls: callsScreen };

export function shell(state, act, screens) {
  if (state.page.cutShort) return html`<main class="screen">${notice("alarm", words.cutShort)}</main>`;
  if (state.route.name === "start") return nothing;
  const name = state.session || OPEN_TO_ALL.has(state.route.name) ? state.route.name : "sign-in";
  return html`${notices(state, act)}${screens[name] ? screens[name](state, act) : onItsWay}`;
}

const onItsWay = html`<main class="screen" aria-busy="true"></main>`;

const notices = (state, act) => html`
  ${state.secure ? nothing : notice("alarm", html`<b>${words.insecure.title}</b> ${words.insecure.text}`)}
  ${state.page.update ? updateNotice(state, act) : nothing}
  ${state.storage.trouble ? troubleNotice(state.storage.trouble) : nothing}
  ${state.storage.lost ? lossNotice(state.storage.lost, act) : nothing}
  ${state.engine.state === "gone" ? notice("calm", words.entry.gone) : nothing}`;

const notice = (kind, content) => html`<aside class="notice is-${kind}" role="status">${content}</aside>`;

function updateNotice(state, act) {
  if (unsaved(state)) return notice("calm", html`${words.update.text} ${words.update.later}`);
  return notice("calm", html`${words.update.text} <button class="small-button" @click=${act.takeOver}>${words.update.take}</button>`);
}

const lossNotice = ({ waiting, at }, act) =>
  notice("alarm", html`<b>${words.lost.title}</b> ${words.lost.text(waiting, dayText(at, words))} <button class="small-button" @click=${act.lossSeen}>${words.lost.seen}</button>`);

/** What was not kept must be seen wherever the screen is scrolled to; that space runs out can wait until the person looks. */
const troubleNotice = (trouble) => notice(trouble === "full" ? "alarm" : "alarm is-pressing", troubleText(trouble));

const troubleText = (trouble) => (typeof words.trouble[trouble] === "string" ? words.trouble[trouble] : words.trouble.failed(trouble));
