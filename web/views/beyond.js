// The screens beyond the first, by the name of their address.
import { callScreen } from "./call.js";
import { carryScreen } from "./carry.js";
import { codeScreen } from "./code.js";
import { diagnoseScreen } from "./diagnose.js";
import { machineScreen } from "./machine.js";
import { newCallScreen } from "./new-call.js";
import { photoScreen, photosScreen } from "./photos.js";
import { readingScreen } from "./reading.js";
import { readyScreen } from "./ready.js";
import { refusedScreen } from "./refused.js";
import { settingsScreen } from "./settings.js";
import { sheetScreen } from "./sheet.js";
import { signInScreen } from "./sign-in.js";
import { startsScreen } from "./starts.js";
import { stepScreen } from "./step.js";

export const BEYOND_SCREENS = {
  call: callScreen,
  new: newCallScreen,
  reading: readingScreen,
  ready: readyScreen,
  refused: refusedScreen,
  sheet: sheetScreen,
  step: stepScreen,
  starts: startsScreen,
  "sign-in": signInScreen,
  settings: settingsScreen,
  diagnose: diagnoseScreen,
  carry: carryScreen,
  code: codeScreen,
  machine: machineScreen,
  photos: photosScreen,
  photo: photoScreen,
};
