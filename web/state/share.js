// A call as plain text for a customer: the engine's own sentences, and nothing it did not say.
import { dayText } from "./format.js";
import { decisionOf } from "./decision.js";

const TOLD = ["as_found", "interim", "as_left"];

/**
 * @param {import("./actions.js").State} state @param {any} words of the page
 * @returns {string}
 */
export function callText(state, words) {
  const { call, engine, register } = state;
  const say = words.share;
  const machine = register.machines.find((one) => one.id === call.machine);
  const site = register.sites.find((one) => one.id === machine?.site)?.name;
  const complaint = engine.words.complaints.find((one) => one.complaint === call.complaint)?.text ?? call.complaint;
  const head = [say.head(call.tag, site), `${complaint}, ${dayText(call.opened_at, words)}`];
  return [...head, "", ...roundsText(call.result, engine.words, words), ...causesText(call.result, say), ...decisionOf(call, words), "", say.caution].join("\n");
}

function roundsText(result, vocabulary, words) {
  const titles = Object.fromEntries(vocabulary.checks.map((check) => [check.check, check.title]));
  const rounds = TOLD.flatMap((label) => (result?.rounds ?? []).filter((round) => round.label === label && round.findings.length));
  if (rounds.length === 0) return [words.share.nothing];
  const line = (finding) => `- ${titles[finding.check] ?? finding.check} (${words.verdict[finding.verdict]}): ${finding.because}`;
  return rounds.flatMap((round) => [words.label[round.label], ...round.findings.filter((finding) => finding.carries).map(line), ""]);
}

function causesText(result, say) {
  const likely = (result?.causes ?? []).filter((cause) => cause.word === "likely" && cause.cause !== "unknown");
  return likely.length ? [say.causes, ...likely.map((cause) => `- ${cause.text}`), ""] : [];
}
