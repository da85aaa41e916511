// What was done: moved, jumped, lifted, set, fitted, cleaned; what it took; and what still stands open.
import { html, nothing } from "../vendor/lit-html/lit-html.js";
import words from "../words/index.js";
import { actionsOf, linesOf } from "../state/job.js";
import { timeText } from "../state/format.js";
import { toSheet } from "../state/route.js";
import { openItems } from "./open-items.js";
import { cameraButton, photosShowing } from "./photos.js";

const say = words.job.repair;

export function repairStep(state, act) {
  const { call, engine } = state;
  const actions = actionsOf(call);
  const lines = linesOf(call);
  return html`${openItems(call)}
    <h2 class="list-title">${say.write}</h2>
    <div class="chips">${engine.words.actions.map(({ action, text }) => html`<a class="chip" href=${toSheet(call.id, "action", action)}>${text}</a>`)}</div>
    ${actions.length ? html`<h2 class="list-title">${say.done}</h2><ol class="events">${actions.map(({ body }) => actionLine(body, engine.words))}</ol>` : nothing}
    ${photosShowing(state, "part")} ${cameraButton(act, { shows: "part" })}
    <h2 class="list-title">${say.lines}</h2>
    ${lines.length ? html`<ul class="events">${lines.map(({ body }) => html`<li class="event"><b>${body.what}</b> <span class="soft">${[words.sheet.option[body.kind], body.quantity].filter(Boolean).join(" · ")}</span></li>`)}</ul>` : nothing}
    <div class="button-row"><a class="small-button" href=${toSheet(call.id, "line")}>${say.addLine}</a></div>`;
}

function actionLine(body, vocabulary) {
  const kind = vocabulary.actions.find((one) => one.action === body.kind)?.text ?? body.kind;
  const change = body.before || body.after ? `${body.before ?? "?"} → ${body.after ?? "?"}` : "";
  return html`<li class="event"><b>${kind}: ${body.what ?? ""}</b><span class="soft">${[body.at && timeText(body.at), change].filter(Boolean).join(" · ")}</span></li>`;
}
