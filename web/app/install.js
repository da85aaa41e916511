// Putting the page on the home screen: offered by the browser, or done by hand where it offers nothing.
import { spaceLeft } from "../storage/room.js";

let offer = /** @type {any} */ (null);

/** Listen before anything else runs: the browser offers once. */
export function hearOffer({ store }) {
  addEventListener("beforeinstallprompt", (event) => {
    event.preventDefault();
    offer = event;
    store.dispatch({ type: "install-changed", change: { offered: true } });
  });
  addEventListener("appinstalled", () => store.dispatch({ type: "install-changed", change: { offered: false, onHome: true } }));
}

export function lookAtHome({ store }) {
  const onHome = matchMedia("(display-mode: standalone)").matches || /** @type {any} */ (navigator).standalone === true;
  const byHand = /iPhone|iPad/.test(navigator.userAgent) || (/Macintosh/.test(navigator.userAgent) && navigator.maxTouchPoints > 1);
  store.dispatch({ type: "install-changed", change: { onHome, byHand, later: localStorage.getItem("install-later") === "yes" } });
  return tellSpace({ store });
}

export async function tellSpace({ store }) {
  store.dispatch({ type: "space-told", left: await spaceLeft() });
}

export const installActs = ({ store }) => ({
  async install() {
    await offer?.prompt();
    const answer = await offer?.userChoice;
    offer = null;
    store.dispatch({ type: "install-changed", change: { offered: false, onHome: answer?.outcome === "accepted" } });
  },
  installLater() {
    localStorage.setItem("install-later", "yes");
    store.dispatch({ type: "install-changed", change: { later: true } });
  },
});
