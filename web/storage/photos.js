// Photos this phone holds until the server has them. A photo is kept with its entry by storage/log.js.
import { transact } from "./database.js";
import { write } from "./room.js";

export const heldPhoto = (sha256) => transact(["photos"], "readonly", (tx) => tx.objectStore("photos").get(sha256));

/** The next photo that an entry names which the server has, and that it has not refused itself, but none of `later`; null when none is left. */
export const photoToSend = (later) =>
  transact(["photos", "entries"], "readonly", async (tx) => {
    const rows = await tx.objectStore("entries").index("kind").getAll("photo");
    const named = new Set(rows.filter((row) => row.cursor !== null).map((row) => row.entry.body.sha256));
    const photos = await tx.objectStore("photos").getAll();
    return photos.find(({ sha256, trouble }) => named.has(sha256) && !trouble && !later.has(sha256)) ?? null;
  });

/** Which of these photos this phone no longer holds. */
export const photosLacked = (wanted) =>
  transact(["photos"], "readonly", async (tx) => {
    const held = await Promise.all(wanted.map((sha256) => tx.objectStore("photos").getKey(sha256)));
    return wanted.filter((_, place) => held[place] === undefined);
  });

/** The server confirmed it: the space is this phone's again. */
export const freePhoto = (sha256) => transact(["photos"], "readwrite", (tx) => tx.objectStore("photos").delete(sha256));

/** The server would not take it; it stays, with the reason. */
export const setPhotoAside = (sha256, trouble) =>
  write(["photos"], async (tx) => {
    const photo = await tx.objectStore("photos").get(sha256);
    if (photo) await tx.objectStore("photos").put({ ...photo, trouble });
  });
