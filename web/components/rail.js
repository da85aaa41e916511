// The three-leg rail: one thin rail per leg with its allowed band, a mark where the reading stands, a whisker of doubt.
import { html, nothing, svg } from "../vendor/lit-html/lit-html.js";
import { railGeometry } from "./rail-geometry.js";

/**
 * @param {Finding} finding @param {string} label for ears @param {string} [size] class of the drawing
 */
export function rail(finding, label, size = "") {
  const { width, rails } = railGeometry(finding);
  return html`<svg class="rail ${size}" viewBox="0 0 ${width} 168" role="img" aria-label=${label}>${rails.map(oneRail)}</svg>`;
}

/** Rails before anything is typed: no band, no mark, only the names. */
export function emptyRail(names, label) {
  const rails = names.map((name, i) => svg`<line class="rail-line is-dashed" x1=${30 + 60 * i} x2=${30 + 60 * i} y1="16" y2="136"/>
    <text class="rail-name" x=${30 + 60 * i} y="158">${name}</text>`);
  return html`<svg class="rail" viewBox="0 0 ${60 * names.length} 168" role="img" aria-label=${label}>${rails}</svg>`;
}

const oneRail = ({ x, y, name, verdict, dashed, near, band, whisker, off }) => svg`
  <line class="rail-line ${dashed ? "is-dashed" : ""}" x1=${x} x2=${x} y1="16" y2="136"/>
  ${near.map((zone) => svg`<rect class="rail-near" x=${x - 2} width="4" y=${zone.y} height=${zone.height}/>`)}
  ${band ? svg`<rect class="rail-band" x=${x - 5} width="10" y=${band.y} height=${band.height}/>` : nothing}
  ${whisker ? whiskerOf(x, whisker) : nothing}
  ${mark(verdict, x, y)}
  ${off ? svg`<polygon class="rail-off" points=${arrow(x, off)}/>` : nothing}
  <text class="rail-name" x=${x} y="158">${name}</text>`;

const whiskerOf = (x, { top, bottom, capTop, capBottom }) => svg`
  <line class="rail-whisker" x1=${x} x2=${x} y1=${top} y2=${bottom}/>
  ${capTop ? svg`<line class="rail-whisker" x1=${x - 7} x2=${x + 7} y1=${top} y2=${top}/>` : nothing}
  ${capBottom ? svg`<line class="rail-whisker" x1=${x - 7} x2=${x + 7} y1=${bottom} y2=${bottom}/>` : nothing}`;

const arrow = (x, end) => (end === "high" ? `${x},3 ${x + 5},10 ${x - 5},10` : `${x},149 ${x + 5},142 ${x - 5},142`);

/** The mark of a verdict: its shape alone tells which. */
export function mark(verdict, x, y) {
  if (verdict === "pass") return svg`<circle class="rail-mark is-pass" cx=${x} cy=${y} r="7"/>`;
  if (verdict === "watch") return svg`<polygon class="rail-mark is-watch" points="${x},${y - 9} ${x + 9},${y + 7} ${x - 9},${y + 7}"/>`;
  if (verdict === "fail") return svg`<path class="rail-mark is-fail" d="M${x - 7} ${y - 7}L${x + 7} ${y + 7}M${x + 7} ${y - 7}L${x - 7} ${y + 7}"/>`;
  return svg`<circle class="rail-mark is-cannot-tell" cx=${x} cy=${y} r="8"/><text class="rail-mark is-cannot-tell" x=${x} y=${y + 4.5}>?</text>`;
}
