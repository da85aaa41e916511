// How far a step has come, as a shape: an empty ring, a part of it, a closed ring with a tick, or a line through.
import { html, svg } from "../vendor/lit-html/lit-html.js";

/** @param {{stand: "open" | "begun" | "done" | "skipped", count: number, of: number}} how */
export function progress({ stand, count, of }) {
  return html`<svg class="progress is-${stand}" viewBox="0 0 24 24" aria-hidden="true"><circle class="progress-ring" cx="12" cy="12" r="9"/>${INNER[stand](count, of)}</svg>`;
}

const INNER = {
  open: () => svg``,
  begun: (count, of) => svg`<circle class="progress-part" cx="12" cy="12" r="9" pathLength="100" stroke-dasharray="${Math.round((100 * count) / Math.max(1, of))} 100"/>`,
  done: () => svg`<path class="progress-sign" d="M7.5 12.5l3 3 6-7"/>`,
  skipped: () => svg`<path class="progress-sign" d="M7.5 12h9"/>`,
};
