// A photo from the camera to "kept", and a photo from this phone or the office to the screen.
import { stamp } from "../state/entries.js";
import { fold } from "../state/fold.js";
import { photosOf } from "../state/photos.js";
import { rowsOfKinds } from "../storage/log.js";
import { readMeta, writeMeta } from "../storage/meta.js";
import { heldPhoto } from "../storage/photos.js";
import { fetchPhoto } from "../sync/photos.js";
import { keepInCall } from "./call.js";
import { readLog } from "./log.js";
import { oneAtATime } from "./one-at-a-time.js";
import { sha256Of, shrink } from "./shrink.js";

export const photoActs = (page) => ({
  takePhoto: (event, shows, of) => takePhoto(page, event, shows, of),
  fetchPhoto: (sha256) => showPhoto(page, sha256, true),
  typeCaption: (caption) => page.store.dispatch({ type: "caption-typed", caption }),
  keepCaption: oneAtATime((event, id) => keepCaption(page, event, id)),
  putLostAway: () => tellLost(page, []),
});

/** Keep what the camera gave: shrunk, with its entry, in one transaction. */
async function takePhoto(page, event, shows, of = null) {
  const [file] = event.target.files;
  event.target.value = "";
  if (!file) return;
  const { state } = page.store;
  page.store.dispatch({ type: "photo-trouble", trouble: "busy" });
  try {
    const blob = await shrink(file);
    const photo = await photoOf(blob);
    const body = { sha256: photo.sha256, media_type: blob.type, size: blob.size, shows, ...(of && { of }), taken_at: stamp() };
    const entry = await keepInCall(page, "photo", body, { photo, state });
    if (entry) show(page.store, photo.sha256, "kept", blob);
    page.store.dispatch({ type: "photo-trouble", trouble: "" });
  } catch (error) {
    console.error(error);
    page.store.dispatch({ type: "photo-trouble", trouble: "unreadable" });
  }
}

/** What a photo shows in a person's words: a correction of its entry, like any other. */
async function keepCaption(page, event, id) {
  event.preventDefault();
  const { call, caption, route } = page.store.state;
  if (caption === null) return;
  const { rows } = fold(call.rows).get(id);
  const kept = await keepInCall(page, "photo", { caption: caption.trim() || null }, { base: [rows.at(-1).id] });
  if (kept && page.store.state.route === route) page.store.dispatch({ type: "caption-typed", caption: null });
}

async function photoOf(blob) {
  const bytes = await blob.arrayBuffer();
  return { sha256: await sha256Of(bytes), media_type: blob.type, bytes };
}

/** Show the photos of the open call that this phone holds; those at the office are asked for one by one. */
export async function showPhotosHere(page) {
  for (const { sha256 } of photosOf(page.store.state.call)) await showPhoto(page, sha256);
}

/** One photo opened large: asked for at the office when this phone has freed it. */
export async function openPhoto(page, id) {
  const photo = photosOf(page.store.state.call).find((one) => one.id === id);
  if (photo) await showPhoto(page, photo.sha256, true);
}

async function showPhoto({ store }, sha256, ask = false) {
  if (store.state.photos[sha256]?.url) return;
  const held = await heldPhoto(sha256);
  if (held) return show(store, sha256, held.trouble ? "refused" : "kept", new Blob([held.bytes], { type: held.media_type }));
  if (!ask) return tell(store, sha256, "office");
  tell(store, sha256, "coming");
  const got = await fetchPhoto(store.state.session, sha256).catch(() => undefined);
  if (got) show(store, sha256, "office", got);
  else tell(store, sha256, got === null ? absence(store.state, sha256) : "no-line");
}

/** Why the office lacks a photo: nobody has sent it yet, or this phone did and gave its room back. */
function absence({ call, waiting }, sha256) {
  const row = call.rows.find(({ entry }) => entry.body.sha256 === sha256);
  return row?.own && !waiting?.has(row.id) ? "lost" : "not-yet";
}

const tell = (store, sha256, standing) => store.dispatch({ type: "photo-told", sha256, photo: { url: "", standing } });

function show(store, sha256, standing, blob) {
  store.dispatch({ type: "photo-told", sha256, photo: { url: URL.createObjectURL(blob), standing } });
}

/** The server answered for a photo: what is on screen stays on screen. */
export async function photoLeft(page, { sha256, trouble }) {
  const { store } = page;
  const shown = store.state.photos[sha256];
  await readLog(page);
  if (shown) store.dispatch({ type: "photo-told", sha256, photo: { ...shown, standing: trouble ? "refused" : "office" } });
}

/** The office asks for photos that this phone sent and freed: told with where they belong, and asked for no further. */
export async function photosLost(page, lost) {
  const [rows, known = []] = await Promise.all([rowsOfKinds(["photo"]), readMeta("photos_lost")]);
  const found = lost.map((sha256) => rows.find(({ entry }) => entry.body.sha256 === sha256)).filter(Boolean);
  const fresh = found.filter(({ id }) => !known.some((one) => one.photo === id));
  await tellLost(page, [...known, ...fresh.map(({ id, call }) => ({ photo: id, call }))]);
}

async function tellLost({ store }, lost) {
  await writeMeta("photos_lost", lost);
  store.dispatch({ type: "photos-lost", lost });
}
