// A mark beside the store that this phone held something: found without the store, it tells that the browser emptied it.

const MARK = "rackside-held";
const YEAR = 365 * 86_400;

/** Remember how many entries wait: in the page's other storage, and in a cookie, which browsers clear on other occasions. */
export function markHeld(waiting, now = Date.now()) {
  const mark = `${waiting}.${now}`;
  localStorage.setItem(MARK, mark);
  document.cookie = `${MARK}=${mark}; max-age=${YEAR}; path=/; samesite=strict${location.protocol === "https:" ? "; secure" : ""}`;
}

/** How many entries waited when last looked at, and when, although the store knows of nobody now; null when nothing is missing. */
export function lostHold(meta) {
  const mark = "session" in meta ? null : localStorage.getItem(MARK) ?? inCookie(document.cookie);
  if (!mark) return null;
  const [waiting, at] = mark.split(".").map(Number);
  return { waiting, at };
}

const inCookie = (cookies) => cookies.split("; ").find((one) => one.startsWith(MARK + "="))?.slice(MARK.length + 1);
