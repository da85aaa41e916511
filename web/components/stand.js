// Where an entry is: kept on this phone, sent to the office, or refused by it.
import { html } from "../vendor/lit-html/lit-html.js";

/** @param {string} id @param {import("../state/actions.js").State} state */
export function standOf(id, state) {
  if (state.refused.some((refused) => refused.id === id)) return "refused";
  return waits(id, state) ? "kept" : "sent";
}

/** Until the list of what waits is read, an entry that the server has not numbered waits. */
const waits = (id, { waiting, call }) => (waiting ? waiting.has(id) : Boolean(call?.rows.some((row) => row.id === id && row.cursor === null)));

/** @param {"kept" | "sent" | "refused"} stand @param {any} words @param {boolean} [withWord] */
export function standMark(stand, words, withWord = false) {
  const name = words.stand[stand];
  return html`<span class="stand is-${stand}" role="img" aria-label=${name}>${SHAPES[stand]}${withWord ? html`<span aria-hidden="true">${name}</span>` : ""}</span>`;
}

/** The way from the phone, round, to the office, square: not gone yet, gone all of it, turned away. */
const SHAPES = {
  kept: html`<svg viewBox="0 0 20 20" aria-hidden="true"><circle class="is-full" cx="4" cy="10" r="2.6" /><path d="M9.4 10h.1" /><rect x="13" y="7.4" width="5.2" height="5.2" /></svg>`,
  sent: html`<svg viewBox="0 0 20 20" aria-hidden="true"><circle class="is-full" cx="4" cy="10" r="2.6" /><path d="M6.6 10H13" /><rect class="is-full" x="13" y="7.4" width="5.2" height="5.2" /></svg>`,
  refused: html`<svg viewBox="0 0 20 20" aria-hidden="true"><circle class="is-full" cx="4" cy="10" r="2.6" /><path d="M6.6 10H10M12.5 7l6 6M18.5 7l-6 6" /></svg>`,
};
