// Press and hold: half a second on whatever carries data-hold goes to that address; the style sheet shows how far it is.
// Only a quicker way for a thumb: the same address stands on a link or button for keyboards and ears.

const LONG = 500;
const STRAYED = 12;
/** @type {{element: HTMLElement, timer: any, x: number, y: number, gone: boolean} | null} one thumb holds one thing */
let held = null;

/** @param {Document} page */
export function listenForHolds(page) {
  page.addEventListener("pointerdown", press);
  for (const name of ["pointerup", "pointercancel", "scroll"]) page.addEventListener(name, end, true);
  page.addEventListener("pointermove", move);
  page.addEventListener("contextmenu", (event) => held && event.preventDefault());
  page.addEventListener("click", click, true);
}

function press({ target, button, isPrimary, clientX: x, clientY: y }) {
  end();
  held = null;
  const element = target.closest?.("[data-hold]");
  if (!element || button !== 0 || !isPrimary) return;
  held = { element, x, y, gone: false, timer: setTimeout(reached, LONG) };
  element.dataset.held = "";
}

function reached() {
  if (!held) return;
  delete held.element.dataset.held;
  held.gone = true;
  navigator.vibrate?.(20);
  location.hash = held.element.dataset.hold ?? "";
}

function end() {
  if (!held) return;
  clearTimeout(held.timer);
  delete held.element.dataset.held;
  if (!held.gone) held = null;
}

function move({ clientX, clientY }) {
  if (held && Math.hypot(clientX - held.x, clientY - held.y) > STRAYED) end();
}

/** The click that ends a hold opens nothing more. */
function click(event) {
  if (held?.gone) event.preventDefault();
  held = null;
}
