// Two versions of one fact, each with who wrote it and when; a tap settles it.
import { html, nothing } from "../vendor/lit-html/lit-html.js";
import words from "../words/index.js";
import { dayText } from "../state/format.js";
import { factText } from "./plate.js";

const say = words.clash;

/** @param {string} kind @param {any} thing a site or machine of the register @param {any} act */
export function clashCards(kind, thing, act) {
  if (!thing?.clashes?.length) return nothing;
  return thing.clashes.map((clash) => html`<section class="panel clash" aria-label=${say.title(nameOf(clash.member))}>
    <h2 class="list-title">${say.title(nameOf(clash.member))}</h2><p class="soft">${say.why}</p>
    <ul class="clash-versions">${clash.versions.map((version) => oneVersion(version, clash.member, () => act.pickVersion(kind, thing.id, clash.member, version.entry)))}</ul></section>`);
}

const oneVersion = ({ value, by, at, holds }, member, pick) => html`<li><span><b>${factText(member, value)}</b><span class="soft">${by}, ${dayText(at, words)}${holds ? ` · ${say.holds}` : ""}</span></span>
  <button type="button" class="small-button" @click=${pick}>${say.pick}</button></li>`;

const nameOf = (member) => words.plate[member]?.[0] ?? words.sheet.field[member] ?? say.field[member] ?? member.replaceAll("_", " ");
