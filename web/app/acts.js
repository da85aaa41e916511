// What the screens may do. Each act changes the state by an event, and asks store, engine or line for the rest.
import { LABELS } from "../state/round.js";
import { sendAgain } from "../storage/log.js";
import { startCall } from "./call.js";
import { closingActs } from "./closing.js";
import { readLog } from "./log.js";
import { takeOver } from "./offline.js";
import { aroundActs } from "./around.js";
import { readingActs } from "./reading-acts.js";
import { deviceName, signInHere, signOutHere } from "./sign-in.js";

export const createActs = (page) => ({ ...phoneActs(page), ...aroundActs(page), ...listActs(page), ...closingActs(page), ...readingActs(page) });

const phoneActs = (page) => ({
  deviceName: deviceName(),
  signIn: (event) => signInHere(page, event),
  signOut: () => signOutHere(page),
  sendNow: () => page.line.poke(),
  takeOver,
  async sendAgain(id) {
    await sendAgain(id);
    await readLog(page);
    page.line.poke();
  },
});

const listActs = (page) => ({
  fold: (what) => page.store.dispatch({ type: "folded", what }),
  newCall: (change) => page.store.dispatch({ type: "new-call", change }),
  openCall: () => startCall(page),
  chooseLabel(label) {
    const { store } = page;
    const wrong = LABELS.filter((one) => store.state.shown.has("label:" + one) !== (one === label));
    wrong.forEach((one) => store.dispatch({ type: "folded", what: "label:" + one }));
  },
});
