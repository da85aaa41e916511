// Signing this phone in: once, where there is signal.
import { html, nothing } from "../vendor/lit-html/lit-html.js";
import words from "../words/index.js";
import { installCard } from "./install.js";

const say = words.signIn;

export function signInScreen(state, act) {
  const { busy, trouble } = state.signIn;
  const name = state.session?.person ?? "";
  return html`<main class="screen is-narrow">
    <header class="masthead">${logo}<h1>${words.name}</h1></header>
    ${installCard(state, act)}
    <form class="stack" @submit=${act.signIn}>
      <h2>${say.title}</h2>
      <p class="soft">${say.why}</p>
      <label class="text-field">${say.name}<input name="name" autocomplete="username" required .value=${name} ?readonly=${Boolean(name)}></label>
      <label class="text-field">${say.password}<input name="password" type="password" autocomplete="current-password" required></label>
      <label class="text-field">${say.device}<input name="device" autocomplete="off" required maxlength="60" .value=${act.deviceName}></label>
      ${trouble ? html`<p class="trouble" role="alert">${trouble}</p>` : nothing}
      <button class="big-button" ?disabled=${busy}>${busy ? say.busy : say.go}</button>
    </form>
  </main>`;
}

const logo = html`<svg class="logo" viewBox="0 0 60 60" aria-hidden="true">
  <path class="logo-rails" d="M12 6v48M30 6v48M48 6v48"/><path class="logo-bands" d="M12 22v20M30 22v20M48 22v20"/>
  <circle class="logo-dot" cx="12" cy="28" r="5"/><circle class="logo-dot" cx="30" cy="34" r="5"/><path class="logo-peak" d="M48 6l6 10.5H42z"/>
</svg>`;
