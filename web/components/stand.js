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

const SHAPES = {
  kept: html`<svg viewBox="0 0 20 20" aria-hidden="true"><rect x="4" y="4" width="12" height="12" rx="2" /><path d="M7 10l2.5 2.5L13.5 7.5" /></svg>`,
  sent: html`<svg viewBox="0 0 20 20" aria-hidden="true"><path d="M3 11l3.5 3.5L13 6M9 13l1.5 1.5L18 6" /></svg>`,
  refused: html`<svg viewBox="0 0 20 20" aria-hidden="true"><circle cx="10" cy="10" r="6.5" /><path d="M10 6.5v4.5M10 13.4v.2" /></svg>`,
};
