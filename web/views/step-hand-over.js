// Handing over: who takes the machine, signed on the glass; a note, and off to the office.
import { html, nothing } from "../vendor/lit-html/lit-html.js";
import words from "../words/index.js";
import { ink } from "../components/ink.js";
import { standing } from "../state/fold.js";
import { dayText } from "../state/format.js";
import { thingsOf } from "../state/round.js";
import { sharePart } from "./share.js";

const say = words.close;

export function handOverStep(state, act) {
  const { closing, call } = state;
  const handedIn = call.state !== "open" && call.state !== "returned";
  return html`
    <p>${say.state} <b>${words.callState[call.state]}</b>.</p>
    ${signed(call)}
    <form class="panel stack" @submit=${act.sign}><h2>${say.signature}</h2>
      <p class="soft">${say.signatureWhy}</p>
      <label class="text-field">${say.who}<input name="who" required autocomplete="off"></label>
      <div class="chips" role="group" aria-label=${say.role}>${say.roles.map((role) => html`<label class="chip radio"><input type="radio" name="role" value=${role}>${role}</label>`)}</div>
      <p class="soft" aria-hidden="true">${say.ink}</p>
      ${ink({ label: say.ink, changed: (drawn) => act.closing({ drawn }) })}
      <div class="button-row"><button type="button" class="small-button" @click=${act.wipeInk}>${say.wipe}</button>
      <button class="small-button" ?disabled=${!closing.drawn}>${say.keepSignature}</button></div></form>
    <section class="panel stack"><label class="text-field">${say.note}<textarea rows="3" .value=${closing.note} @input=${(event) => act.closing({ note: event.target.value })}></textarea></label>
      <button class="big-button" ?disabled=${handedIn || closing.handing} @click=${act.submit}>${say.submit}</button>
      ${handedIn || closing.handing ? html`<p role="status">${handedIn ? say.submitted : say.handing}</p>` : nothing}
      ${sharePart(state, act)}
    </section>`;
}

function signed(call) {
  const signatures = standing(thingsOf(call), "signature");
  return signatures.length ? html`<p class="panel">${signatures.map(({ body, rows }) => html`${say.signedBy([body.who, body.role].filter(Boolean).join(", "), dayText(rows[0].entry.made_at, words))} `)}</p>` : nothing;
}
