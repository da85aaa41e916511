// Everything beyond the first screen: what the screens do, the other screens, the engine, the line to the office.
import { listenForHolds } from "../components/hold.js";
import { isMine } from "../state/entries.js";
import { routeOf } from "../state/route.js";
import { holdReserve } from "../storage/room.js";
import { createLine } from "../sync/line.js";
import { BEYOND_SCREENS } from "../views/beyond.js";
import { createActs } from "./acts.js";
import { openAround, startAround } from "./around.js";
import { openCall, reopenCall } from "./call.js";
import { lookUpLabel } from "./label.js";
import { openSheet } from "./job.js";
import { markWaiting, readLog, readMarks } from "./log.js";
import { startOffline } from "./offline.js";
import { photoLeft, photosLost } from "./photos.js";
import { openReading } from "./reading.js";

/** Bring the rest of the page to life round the engine that is starting; `showAll` paints with it. */
export async function startBeyond(page, engine, showAll) {
  page.line = createLine({ session: () => page.store.state.session, isMine, tell: (event) => hear(page, event) });
  const act = createActs(page);
  addEventListener("hashchange", () => turnTo(page));
  addEventListener("keydown", act.keyboard);
  listenForHolds(document);
  showAll(act, BEYOND_SCREENS);
  startAround(page);
  markWaiting(page);
  await follow(page);
  await Promise.all([readMarks(page), engine]);
  startOffline(page);
  page.line.start();
  holdSpace(page);
}

/** Once the reserve could be held again, the phone is not full any more. */
async function holdSpace({ store }) {
  if ((await holdReserve()) && store.state.storage.trouble === "full") store.dispatch({ type: "storage-trouble", trouble: "" });
}

function turnTo(page) {
  follow(page);
  scrollTo(0, 0);
}

/** Go to the screen the address names, with the call and the reading it needs. */
async function follow(page) {
  const { store } = page;
  const route = routeOf(location.hash);
  store.dispatch({ type: "went", route });
  if (route.name === "sheet" && !route.call) openSheet(page, route);
  if (!route.call) return openAround(page, route);
  if (store.state.call?.id !== route.call) await openCall(page, route.call);
  if (store.state.route !== route) return;
  if (route.name === "sheet") openSheet(page, route);
  if (route.name === "reading") await openReading(page, route);
  await openAround(page, route);
}

/** The browser may close the store while the line works; the person is told, and the line comes round again. */
const hear = (page, event) =>
  heard(page, event).catch((error) => {
    page.store.dispatch({ type: "storage-trouble", trouble: "closed" });
    page.store.dispatch({ type: "line-failed", reason: "trouble", detail: error.message });
  });

/** What the line tells: what left and what came is read from the phone's store before anything is said. */
async function heard(page, event) {
  const { store } = page;
  if (event.type === "sent" || event.type === "line-done") await readLog(page);
  if (event.type === "sent") return lookUpLabel(page);
  if (event.type === "photo-left") return photoLeft(page, event);
  if (event.type === "photos-lost") return photosLost(page, event.lost);
  store.dispatch({ at: new Date().toISOString(), ...event });
  if (event.type === "line-done" && store.state.storage.trouble === "full") await holdSpace(page);
  if (event.type === "line-done" && event.calls.includes(store.state.call?.id)) await reopenCall(page);
}
