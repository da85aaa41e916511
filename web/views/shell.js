// The frame round every screen: what must be said whatever is on it, then the screen itself.
import { html, nothing } from "../vendor/lit-html/lit-html.js";
import words from "../words/index.js";
import { unsaved } from "../state/unsaved.js";
import { AROUND_SCREENS, openToAll } from "./around.js";
import { callsScreen } from "./calls.js";
import { callScreen } from "./call.js";
import { newCallScreen } from "./new-call.js";
import { readingScreen } from "./reading.js";
import { readyScreen } from "./ready.js";
import { refusedScreen } from "./refused.js";
import { sheetScreen } from "./sheet.js";
import { signInScreen } from "./sign-in.js";
import { stepScreen } from "./step.js";

const SCREENS = {
  calls: callsScreen,
  call: callScreen,
  new: newCallScreen,
  reading: readingScreen,
  ready: readyScreen,
  refused: refusedScreen,
  sheet: sheetScreen,
  step: stepScreen,
  "sign-in": signInScreen,
  ...AROUND_SCREENS,
};

export function shell(state, act) {
  if (state.route.name === "start") return nothing;
  const screen = state.session || openToAll.has(state.route.name) ? SCREENS[state.route.name] : signInScreen;
  return html`${notices(state, act)}${screen(state, act)}`;
}

const notices = (state, act) => html`
  ${state.secure ? nothing : notice("alarm", html`<b>${words.insecure.title}</b> ${words.insecure.text}`)}
  ${state.page.update ? updateNotice(state, act) : nothing}
  ${state.storage.trouble ? notice("alarm", troubleText(state.storage.trouble)) : nothing}
  ${state.engine.state === "gone" ? notice("calm", words.entry.gone) : nothing}`;

const notice = (kind, content) => html`<aside class="notice is-${kind}" role="status">${content}</aside>`;

function updateNotice(state, act) {
  if (unsaved(state)) return notice("calm", html`${words.update.text} ${words.update.later}`);
  return notice("calm", html`${words.update.text} <button class="small-button" @click=${act.takeOver}>${words.update.take}</button>`);
}

const troubleText = (trouble) => (typeof words.trouble[trouble] === "string" ? words.trouble[trouble] : words.trouble.failed(trouble));
