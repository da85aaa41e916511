// What was opened and is not yet closed: shown wherever the job stands, until it is closed.
import { html, nothing } from "../vendor/lit-html/lit-html.js";
import words from "../words/index.js";
import { toSheet } from "../state/route.js";

export function openItems(call) {
  const items = call.result?.open_items ?? [];
  if (items.length === 0) return nothing;
  return html`<section class="panel open-items" aria-label=${words.job.openItems}><h2>${words.job.openItems}</h2>
    ${items.map((item) => html`<div class="open-item"><span>${item.what}</span>
      ${item.action && item.kind !== "setting" ? html`<a class="small-button" href=${toSheet(call.id, "action", "close~" + item.action)}>${words.job.close[item.kind] ?? words.job.closeIt}</a>` : nothing}</div>`)}
  </section>`;
}
