// What was found: every finding with its rail, its reason and its limit; causes; gates.
import { html, nothing } from "../vendor/lit-html/lit-html.js";
import words from "../words/index.js";
import { badge } from "../components/badge.js";
import { rail } from "../components/rail.js";
import { bandText, railLabel } from "../state/format.js";
import { worstFirst } from "../state/round.js";
import { causesShown } from "./causes.js";

const say = words.findings;

export function findingsTab(state) {
  const { result, judging } = state.call;
  const rounds = (result?.rounds ?? []).filter((round) => round.findings.length > 0);
  if (rounds.length === 0) return html`<p class="soft empty">${say.none}</p>`;
  const titles = Object.fromEntries(state.engine.words.checks.map((check) => [check.check, check.title]));
  return html`<div class="stack" aria-busy=${String(judging > 0)}>
    ${rounds.map((round) => html`<section class="stack" data-round=${round.label}><h2 class="list-title">${words.label[round.label]}</h2>
      ${[...round.findings].sort(worstFirst).map((finding) => findingCard(finding, titles))}</section>`)}
    ${causesShown(result)}</div>`;
}

export function findingCard(finding, titles) {
  const title = titles[finding.check] ?? finding.check;
  const band = bandText(finding, words);
  return html`<article class="panel finding" data-check=${finding.check} data-verdict=${finding.verdict}>
    <header>${badge(finding.verdict, words)}<h3>${title}</h3></header>
    <div class="finding-body">${hasNumbers(finding) ? rail(finding, railLabel(finding, title, words), "is-small") : nothing}
      <div><p>${finding.because}</p>${band ? html`<p class="soft">${words.entry.allowed} ${band}. ${sourceOf(finding)}</p>` : nothing}</div>
    </div>
  </article>`;
}

export const hasNumbers = (finding) => finding.legs.length > 0 || (finding.value !== null && finding.value !== undefined);

function sourceOf(finding) {
  const source = finding.limits[0]?.source;
  if (!source) return "";
  const cited = [source.work, source.clause, source.edition].filter(Boolean).join(" ");
  const standing = say.standing[source.status] ?? source.status ?? "";
  return standing && !cited.includes(standing) ? `${cited}, ${standing}` : cited;
}
