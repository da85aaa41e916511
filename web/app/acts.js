// What the screens may do. Each act changes the state by an event, and asks store, engine or line for the rest.
import { LABELS } from "../state/round.js";
import { newId } from "../state/entries.js";
import { corrected } from "../state/leaves.js";
import { sendAgain } from "../storage/log.js";
import { startCall } from "./call.js";
import { closingActs } from "./closing.js";
import { jobActs } from "./job.js";
import { tellNotKept } from "./keep.js";
import { readLog } from "./log.js";
import { takeOver } from "./offline.js";
import { oneAtATime } from "./one-at-a-time.js";
import { aroundActs } from "./around.js";
import { readingActs } from "./reading-acts.js";
import { deviceName, signInHere, signOutHere } from "./sign-in.js";

export const createActs = (page) => ({ ...phoneActs(page), ...aroundActs(page), ...listActs(page), ...closingActs(page), ...jobActs(page), ...readingActs(page) });

async function resend(page, id, body = null, as = id) {
  await sendAgain(id, body, as).catch((error) => tellNotKept(page.store, error));
  await readLog(page);
  page.line.poke();
}

const phoneActs = (page) => ({
  deviceName: deviceName(),
  signIn: (event) => signInHere(page, event),
  signOut: () => signOutHere(page),
  sendNow: () => page.line.poke(),
  takeOver: () => takeOver(page),
  lossSeen: () => page.store.dispatch({ type: "loss-seen" }),
  sendAgain: (id) => resend(page, id),
  sendCorrected(event, id) {
    event.preventDefault();
    const { code, entry } = page.store.state.refused.find((one) => one.id === id);
    const typed = Object.fromEntries([...new FormData(event.target)].map(([name, text]) => [name, String(text)]));
    return resend(page, id, corrected(entry.body, typed), code === "id_reused" ? newId() : id);
  },
});

const listActs = (page) => ({
  fold: (what) => page.store.dispatch({ type: "folded", what }),
  newCall: (change) => page.store.dispatch({ type: "new-call", change }),
  openCall: oneAtATime(() => startCall(page)),
  pickOne: (prefix, values, chosen) => pickOne(page, prefix, values, chosen),
  chooseLabel: (label) => pickOne(page, "label:", LABELS, label),
});

/** One of several is shown, the others are not. */
function pickOne({ store }, prefix, values, chosen) {
  const wrong = values.filter((one) => store.state.shown.has(prefix + one) !== (one === chosen));
  wrong.forEach((one) => store.dispatch({ type: "folded", what: prefix + one }));
}
