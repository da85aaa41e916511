// The end of the call on one page: what stands open, the gates, the decision, the hand-over.
import { html } from "../vendor/lit-html/lit-html.js";
import { gateCard } from "./gate-card.js";
import { openItems } from "./open-items.js";
import { decisionStep } from "./step-decision.js";
import { handOverStep } from "./step-hand-over.js";

export const closeTab = (state, act) => html`${openItems(state.call)} ${gateCard("return_to_service", state)} ${decisionStep(state, act)} ${handOverStep(state, act)}`;
