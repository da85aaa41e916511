// The page starts here: what the phone holds is read and the first screen stands; everything else comes after it.
import { render } from "./vendor/lit-html/lit-html.js";
import { wake } from "./app/log.js";
import { hearOffer } from "./app/install.js";
import { FIRST_STATE, reduce } from "./state/actions.js";
import { doorOf, routeOf } from "./state/route.js";
import { createStore } from "./state/store.js";
import { onTrouble } from "./storage/database.js";
import { onFull } from "./storage/room.js";
import { FIRST_SCREENS, shell } from "./views/shell.js";
import { language } from "./words/index.js";

const store = createStore(reduce, FIRST_STATE);
const page = { store, kept: 0, opening: 0, judging: Promise.resolve(), line: /** @type {any} */ (null), judge: /** @type {any} */ (null), look: /** @type {any} */ (null) };
let act = /** @type {any} */ ({});
let screens = FIRST_SCREENS;

const ground = document.getElementById("page");
document.documentElement.lang = language;

/** A screen that can't be drawn is told as an error; what is kept goes out all the same. */
function paint(state) {
  Object.assign(document.documentElement.dataset, { theme: state.settings.theme, text: state.settings.text });
  try {
    render(shell(state, act, screens), ground);
  } catch (error) {
    reportError(error);
  }
}

function showAll(acts, others) {
  act = acts;
  screens = { ...screens, ...others };
}

/** An address from outside, a machine's label, becomes the screen it stands for. */
function throughDoor() {
  const hash = doorOf(location.pathname);
  if (hash) history.replaceState(null, "", "/" + hash);
}

/** Once what stands on the screen has been drawn; nobody draws a page that is hidden. */
const drawn = () => new Promise((/** @type {(value?: any) => void} */ done) => (document.hidden ? done() : requestAnimationFrame(() => setTimeout(done))));

/** The engine first, which starts on a thread of its own; then all other modules at once, which the page names in a template. */
async function bringRest(route, waking) {
  const { startEngine } = await import("./app/engine.js");
  const engine = startEngine(page);
  const opening = route.call && openEarly(route.call, waking);
  document.head.append(/** @type {HTMLTemplateElement} */ (document.getElementById("beyond")).content);
  const beyond = await import("./app/beyond.js");
  await opening;
  return { engine, ...beyond };
}

/** The call that the address names goes to the engine while its screens are still on their way. */
async function openEarly(call, waking) {
  const [{ openCall }] = await Promise.all([import("./app/call.js"), waking]);
  return openCall(page, call);
}

/** The first screen stands alone only where this phone holds the whole version that the rest will come from. */
async function start() {
  hearOffer(page);
  throughDoor();
  const route = routeOf(location.hash);
  const controlled = Boolean(navigator.serviceWorker?.controller);
  const alone = controlled && route.name in FIRST_SCREENS;
  onTrouble((trouble) => store.dispatch({ type: "storage-trouble", trouble }));
  onFull(() => store.dispatch({ type: "storage-trouble", trouble: "full" }));
  const waking = wake(page, controlled);
  const early = alone ? null : bringRest(route, waking).catch(cutShort);
  await waking;
  if (alone) await showFirst(route);
  const rest = await (early ?? bringRest(route, waking).catch(cutShort));
  if (!alone) beginPainting();
  if (!rest) return tellCutShort();
  await rest.startBeyond(page, rest.engine, showAll);
}

function showFirst(route) {
  beginPainting();
  store.dispatch({ type: "went", route });
  return drawn();
}

function beginPainting() {
  ground.replaceChildren();
  store.subscribe(paint);
}

/** @returns {any} */
const cutShort = (error) => console.error(error);

/** How long a page that is whole on this phone waits before it starts anew, in milliseconds; common practice, no source. */
const ANEW = 5000;

/** The line broke before the page was whole: it says so, and starts anew when the line is back, or soon where this phone holds all of it. */
function tellCutShort() {
  store.dispatch({ type: "cut-short" });
  addEventListener("online", () => location.reload());
  if (navigator.serviceWorker?.controller) setTimeout(() => location.reload(), ANEW);
}

start();
