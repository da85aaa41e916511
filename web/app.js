// The page starts here: the store, the engine, the line to the office, and the screen that follows the state.
import { render } from "./vendor/lit-html/lit-html.js";
import { createActs } from "./app/acts.js";
import { openCall, reopenCall } from "./app/call.js";
import { startEngine } from "./app/engine.js";
import { openSheet } from "./app/job.js";
import { readLog, wake } from "./app/log.js";
import { startOffline } from "./app/offline.js";
import { hearOffer } from "./app/install.js";
import { photoLeft } from "./app/photos.js";
import { openReading } from "./app/reading.js";
import { listenForHolds } from "./components/hold.js";
import { FIRST_STATE, reduce } from "./state/actions.js";
import { openAround, startAround } from "./app/around.js";
import { doorOf, routeOf } from "./state/route.js";
import { isMine } from "./state/entries.js";
import { createStore } from "./state/store.js";
import { onTrouble } from "./storage/database.js";
import { onFull } from "./storage/room.js";
import { createLine } from "./sync/line.js";
import { shell } from "./views/shell.js";
import { language } from "./words/index.js";

const store = createStore(reduce, FIRST_STATE);
const page = { store, kept: 0, line: /** @type {any} */ (null), judge: /** @type {any} */ (null), look: /** @type {any} */ (null) };
const act = createActs(page);

const ground = document.getElementById("page");
document.documentElement.lang = language;

function paint(state) {
  Object.assign(document.documentElement.dataset, { theme: state.settings.theme, text: state.settings.text });
  render(shell(state, act), ground);
}

/** Go to the screen the address names, with the call and the reading it needs. */
async function follow() {
  const route = routeOf(location.hash);
  store.dispatch({ type: "went", route });
  scrollTo(0, 0);
  if (route.name === "sheet" && !route.call) openSheet(page, route);
  if (!route.call) return openAround(page, route);
  if (store.state.call?.id !== route.call) await openCall(page, route.call);
  if (route.name === "sheet") openSheet(page, route);
  if (route.name === "reading") await openReading(page, route);
  await openAround(page, route);
}

/** What the line tells: what left and what came is read from the phone's store before anything is said. */
async function heard(event) {
  if (event.type === "sent" || event.type === "line-done") await readLog(page);
  if (event.type === "sent") return;
  if (event.type === "photo-left") return photoLeft(page, event);
  store.dispatch({ at: new Date().toISOString(), ...event });
  if (event.type === "line-done" && event.calls.includes(store.state.call?.id)) await reopenCall(page);
}

/** An address from outside, a machine's label, becomes the screen it stands for. */
function throughDoor() {
  const hash = doorOf(location.pathname);
  if (hash) history.replaceState(null, "", "/" + hash);
}

async function start() {
  hearOffer(page);
  throughDoor();
  onTrouble((trouble) => store.dispatch({ type: "storage-trouble", trouble }));
  onFull(() => store.dispatch({ type: "storage-trouble", trouble: "full" }));
  page.line = createLine({ session: () => store.state.session, isMine, tell: heard });
  const engine = startEngine(page);
  await wake(page);
  ground.replaceChildren();
  store.subscribe(paint);
  addEventListener("hashchange", follow);
  addEventListener("keydown", act.keyboard);
  listenForHolds(document);
  paint(store.state);
  startAround(page);
  await Promise.all([follow(), engine]);
  startOffline(page);
  page.line.start();
}

start();
