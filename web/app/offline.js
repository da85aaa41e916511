// The page kept whole on this phone; a new version waits until the person takes it over.
import { unsaved } from "../state/unsaved.js";
import { factsWritten } from "../storage/meta.js";

/** Beside the page, because it must outlive a reload: the new version is "wanted", then "here" for the page to come. */
const TAKE_OVER = "rackside-take-over";
/** A browser may hold the new version back for as long as this page stands, for a request that it takes to be open. */
const PATIENCE = 3_000;

export async function startOffline({ store }) {
  if (!navigator.serviceWorker) return;
  const registration = await navigator.serviceWorker.register("/sw.js", { updateViaCache: "none" }).catch(() => null);
  if (!registration) return addEventListener("online", () => startOffline({ store }), { once: true });
  const tell = () => store.dispatch({ type: "page-held", held: Boolean(registration.active) });
  navigator.serviceWorker.addEventListener("controllerchange", () => (sessionStorage.getItem(TAKE_OVER) === "wanted" ? standAnew(store) : tell()));
  navigator.serviceWorker.ready.then(tell);
  if (sessionStorage.getItem(TAKE_OVER) === "here") sessionStorage.removeItem(TAKE_OVER);
  if (sessionStorage.getItem(TAKE_OVER) && !registration.waiting) return standAnew(store);
  watch(registration, store);
  document.addEventListener("visibilitychange", () => document.visibilityState === "visible" && registration.update().catch(() => {}));
}

function watch(registration, store) {
  const waits = () => registration.waiting && registration.active && store.dispatch({ type: "update-waits" });
  const follow = () => registration.installing?.addEventListener("statechange", waits);
  registration.addEventListener("updatefound", follow);
  follow();
  waits();
}

/** All of the page from the version that has the say now. */
function standAnew(store) {
  sessionStorage.setItem(TAKE_OVER, "here");
  reloadOnceKept(store);
}

/** Nothing typed is lost: with digits on the screen the reload waits until they are kept or cleared. */
function reloadOnceKept(store) {
  const reload = () => factsWritten().then(() => location.reload());
  if (!unsaved(store.state)) return reload();
  store.subscribe((state) => unsaved(state) || reload());
}

export async function takeOver({ store }) {
  const registration = await navigator.serviceWorker.getRegistration();
  sessionStorage.setItem(TAKE_OVER, "wanted");
  registration?.waiting?.postMessage("take-over");
  setTimeout(() => reloadOnceKept(store), PATIENCE);
}
