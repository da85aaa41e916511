// The page looks at itself: engine, store, line and versions, from this phone alone.
import { countOf } from "../storage/counts.js";
import { readMeta } from "../storage/meta.js";
import { spaceLeft } from "../storage/room.js";
import { language } from "../words/index.js";

const PREFIX = "rackside-page-";

export async function diagnose({ store }) {
  const [counts, epoch, cursor, versions, left] = await Promise.all([countOf(["entries", "outbox", "refused", "photos", "machines"]), readMeta("epoch"), readMeta("cursor"), pageVersions(), spaceLeft()]);
  store.dispatch({ type: "diagnosed", diagnosis: { counts, epoch: epoch ?? "", cursor: cursor ?? 0, versions, left, language, browser: navigator.userAgent, controlled: Boolean(navigator.serviceWorker?.controller) } });
}

/** Which whole versions of the page this phone holds. */
async function pageVersions() {
  const names = await globalThis.caches?.keys().catch(() => []);
  return (names ?? []).filter((name) => name.startsWith(PREFIX)).map((name) => name.slice(PREFIX.length));
}
