// What the page does around the job, gathered: its acts, what starts with the page, what a screen needs when it opens.
import { machineHistory } from "../storage/pulled.js";
import { carryActs } from "./carry.js";
import { clockActs, startClocks } from "./clocks.js";
import { diagnose } from "./diagnose.js";
import { installActs, lookAtHome, tellSpace } from "./install.js";
import { openPhoto, photoActs, showPhotosHere } from "./photos.js";
import { findLanguages, settingActs } from "./settings.js";
import { lookUpLabel } from "./label.js";
import { shareActs } from "./share.js";

export const aroundActs = (page) => ({
  ...settingActs(page),
  ...photoActs(page),
  ...clockActs(page),
  ...carryActs(page),
  ...shareActs(page),
  ...installActs(page),
  typeCode: (code) => page.store.dispatch({ type: "code-typed", code }),
  callOn: (machine) => callOn(page, machine),
});

function callOn({ store }, machine) {
  store.dispatch({ type: "new-call", change: { machine } });
  location.hash = "#/new";
}

export async function startAround(page) {
  lookAtHome(page);
  findLanguages(page).catch((error) => console.error(error));
  await startClocks(page);
}

/** What a screen around the job reads from the phone's store when it opens. */
export async function openAround(page, route) {
  const { store } = page;
  if (route.call && store.state.call) await showPhotosHere(page);
  if (route.name === "photo") await openPhoto(page, route.photo);
  if (route.name === "code") lookUpLabel(page);
  if (route.name === "ready") await tellSpace(page);
  if (route.name === "diagnose") await diagnose(page);
  if (route.name !== "machine") return;
  const held = await machineHistory(route.machine);
  store.dispatch({ type: "machine-history", machine: route.machine, rounds: held?.history ?? [] });
}
