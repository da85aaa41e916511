// A verdict as shape and word, never colour alone.
import { html, nothing } from "../vendor/lit-html/lit-html.js";
import { mark } from "./rail.js";

/** @param {Verdict | undefined} verdict @param {any} words @param {boolean} [withWord] */
export function badge(verdict, words, withWord = true) {
  if (!verdict) return nothing;
  const name = words.verdict[verdict];
  const shape = html`<svg class="shape" viewBox="0 0 24 24" aria-hidden="true">${mark(verdict, 12, 12)}</svg>`;
  const kind = "is-" + verdict.replace("_", "-");
  if (withWord) return html`<span class="badge ${kind}">${shape}<b>${name}</b></span>`;
  return html`<span class="badge ${kind}" role="img" aria-label=${name}>${shape}</span>`;
}
