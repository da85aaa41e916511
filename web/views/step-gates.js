// The gates: what must be known before a reset, a start, leaving it running, condemning. Advice with a memory.
import { html } from "../vendor/lit-html/lit-html.js";
import { gateCard } from "./gate-card.js";
import { signToggle } from "./signs.js";

const BY_EYE = ["terminal_cover_on", "crankcase_above_atmosphere"];

export function gatesStep(state, act) {
  const signs = state.engine.words.signs.filter(({ sign }) => BY_EYE.includes(sign));
  const gates = state.engine.words.gates.map(({ gate }) => gate).filter((gate) => gate !== "condemn" || state.call.result?.gates.condemn?.for_cause);
  return html`<div class="signs">${signs.map((sign) => signToggle(sign, state, act))}</div>${gates.map((gate) => gateCard(gate, state))}`;
}
