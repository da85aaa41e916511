// The page kept whole on this phone; a new version waits until the person takes it over.

let takingOver = false;

export async function startOffline({ store }) {
  if (!navigator.serviceWorker) return;
  const registration = await navigator.serviceWorker.register("/sw.js", { updateViaCache: "none" }).catch(() => null);
  if (!registration) return addEventListener("online", () => startOffline({ store }), { once: true });
  const tell = () => store.dispatch({ type: "page-held", held: Boolean(registration.active) });
  navigator.serviceWorker.addEventListener("controllerchange", () => (takingOver ? location.reload() : tell()));
  navigator.serviceWorker.ready.then(tell);
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

export async function takeOver() {
  const registration = await navigator.serviceWorker.getRegistration();
  takingOver = true;
  registration?.waiting?.postMessage("take-over");
}
