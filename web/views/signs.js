// What a person saw, heard or read: large toggles by where one looks; three standings: not looked, there, not there.
import { html, nothing } from "../vendor/lit-html/lit-html.js";
import words from "../words/index.js";
import { choice } from "../components/choice.js";
import { signShelves } from "../state/signs.js";
import { signsOf } from "../state/round.js";

const say = words.signs;

export function signsTab(state, act) {
  const present = signsOf(state.call);
  const shelves = signShelves(state.engine.words.signs);
  const place = shelves.find((one) => state.shown.has("place:" + one.place))?.place ?? shelves[0].place;
  const looked = (one) => shelves.find((shelf) => shelf.place === one).signs.filter(({ sign }) => present[sign] !== undefined).length;
  const text = (one) => html`${say.place[one]} ${looked(one) ? html`<span class="count">${looked(one)}</span>` : nothing}`;
  return html`${choice({ title: say.where, values: shelves.map((one) => one.place), chosen: place, textOf: text, choose: (one) => act.pickOne("place:", shelves.map((shelf) => shelf.place), one), hideTitle: true })}
    <p class="soft">${say.hint}</p>
    <div class="signs">${shelves.find((one) => one.place === place).signs.map((sign) => signToggle(sign, state, act))}</div>`;
}

export function signToggle({ sign, text }, state, act) {
  const present = signsOf(state.call)[sign];
  const standing = present === undefined ? say.unasked : present ? say.yes : say.no;
  const kind = present === undefined ? "" : present ? "is-there" : "is-not-there";
  return html`<button type="button" class="sign ${kind}" aria-pressed=${String(present === true)} @click=${() => act.setSign(sign, present !== true)}>
    <span>${text}</span><span class="sign-standing">${standing}</span></button>`;
}
