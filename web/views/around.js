// The screens around the job, by the name of their address.
import { carryScreen } from "./carry.js";
import { codeScreen } from "./code.js";
import { diagnoseScreen } from "./diagnose.js";
import { machineScreen } from "./machine.js";
import { photoScreen, photosScreen } from "./photos.js";
import { settingsScreen } from "./settings.js";

export const AROUND_SCREENS = {
  settings: settingsScreen,
  diagnose: diagnoseScreen,
  carry: carryScreen,
  code: codeScreen,
  machine: machineScreen,
  photos: photosScreen,
  photo: photoScreen,
};

/** Screens that need nobody signed in. */
export const openToAll = new Set(["settings", "diagnose"]);
