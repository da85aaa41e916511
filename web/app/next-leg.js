// The next leg by itself: after a pause that shows, and that any key, tap or change of the reading ends.
import { isSure } from "../state/next-leg.js";
import { lastVisit } from "../state/round.js";
import { draftChanged } from "./reading.js";

const PAUSE = 1500;

/** @param {any} page @param {string} key the pad's key just pressed */
export function goOnWhenSure(page, key) {
  const { store } = page;
  const { draft, call, settings, engine } = store.state;
  const point = engine.words.points.find((one) => one.name === draft?.point);
  if (!point || settings.legs !== "itself" || !isSure(point, draft, key, lastVisit(call.history, point.name)?.reading)) return;
  store.dispatch({ type: "leg-sure", draft });
  setTimeout(() => store.state.draft === draft && !store.state.skipping && goOn(page, point), PAUSE);
}

function goOn(page, point) {
  page.store.dispatch({ type: "moved-on", point });
  draftChanged(page);
}
