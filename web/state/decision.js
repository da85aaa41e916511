// The decision that stands on a call, in words.
import { fold, standing } from "./fold.js";

export function decisionOf(call, words) {
  const decision = standing(fold(call.rows), "decision").at(-1)?.body;
  if (!decision) return [];
  const told = words.close.decisions[decision.decision] ?? decision.decision;
  return [`${words.close.decision}: ${told}${decision.reason ? ` (${decision.reason})` : ""}`];
}
