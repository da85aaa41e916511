// What happens around the job: settings, installing, photos, clocks, files carried by hand. Pure, like state/actions.js.
import { USUAL, withUnits } from "./settings.js";

export const FIRST_AROUND = {
  settings: USUAL,
  languages: /** @type {string[]} */ ([]),
  install: { offered: false, onHome: true, byHand: false, later: false },
  space: /** @type {number | null} */ (null),
  photos: /** @type {Record<string, {url: string, standing: string}>} */ ({}),
  photoTrouble: "",
  photosLost: /** @type {{photo: string, call: string}[]} */ ([]),
  caption: /** @type {string | null} */ (null),
  photosWaiting: 0,
  timers: /** @type {Timer[]} */ ([]),
  clock: { now: 0, awake: false, audible: false },
  carried: /** @type {any} */ (null),
  shared: /** @type {{how: string, text: string} | null} */ (null),
  diagnosis: /** @type {any} */ (null),
  code: "",
  machineHistory: /** @type {any} */ (null),
};

/** @type {Record<string, (state: any, event: any) => any>} */
export const AROUND = {
  "setting-chosen": (state, { change }) => withSettings(state, { ...state.settings, ...change }),
  "languages-found": (state, { languages }) => ({ ...state, languages }),
  "install-changed": (state, { change }) => ({ ...state, install: { ...state.install, ...change } }),
  "space-told": (state, { left }) => ({ ...state, space: left }),
  "photo-told": (state, { sha256, photo }) => ({ ...state, photos: { ...state.photos, [sha256]: photo } }),
  "photos-lost": (state, { lost }) => ({ ...state, photosLost: lost }),
  "caption-typed": (state, { caption }) => ({ ...state, caption }),
  "photo-trouble": (state, { trouble }) => ({ ...state, photoTrouble: trouble }),
  "timers-changed": (state, { timers, now }) => ({ ...state, timers, clock: { ...state.clock, now } }),
  ticked: (state, { now }) => ({ ...state, clock: { ...state.clock, now } }),
  "sound-woken": (state) => ({ ...state, clock: { ...state.clock, audible: true } }),
  "wake-lock": (state, { awake }) => ({ ...state, clock: { ...state.clock, awake } }),
  carried: (state, { carried }) => ({ ...state, carried }),
  shared: (state, { shared }) => ({ ...state, shared }),
  "machine-history": (state, { machine, rounds }) => ({ ...state, machineHistory: { machine, rounds } }),
  diagnosed: (state, { diagnosis }) => ({ ...state, diagnosis }),
  "code-typed": (state, { code }) => ({ ...state, code }),
};

function withSettings(state, settings) {
  return { ...state, settings, engine: { ...state.engine, words: withUnits(state.engine.words, settings.units) } };
}
