// A few answers side by side, each a thumb wide; one is taken.
import { html } from "../vendor/lit-html/lit-html.js";

/**
 * @param {{title: any, label?: string, values: any[], chosen: any, textOf: (value: any) => any, choose: (value: any) => void, hideTitle?: boolean}} question
 */
export function choice({ title, label = title, values, chosen, textOf, choose, hideTitle = false }) {
  return html`<div class="choice" role="group" aria-label=${label}>
    ${hideTitle ? "" : html`<span class="choice-title" aria-hidden="true">${title}</span>`}
    ${values.map((value) => html`<button type="button" class="chip" aria-pressed=${String(value === chosen)} @click=${() => choose(value)}>${textOf(value)}</button>`)}
  </div>`;
}
