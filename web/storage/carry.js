// What waits on this phone as a whole, and what another phone's file brings: kept in one transaction, never twice.
import { transact } from "./database.js";
import { rowOf } from "./log.js";
import { write } from "./room.js";

/** Every entry the server lacks, whoever made it, refused ones included, with the photos not yet sent. */
export const everythingUnsent = () =>
  transact(["entries", "outbox", "refused", "photos"], "readonly", async (tx) => {
    const marks = await tx.objectStore("outbox").getAll();
    const rows = await Promise.all(marks.map((mark) => tx.objectStore("entries").get(mark.id)));
    const refused = await tx.objectStore("refused").getAll();
    const entries = [...rows.filter(Boolean).map((row) => row.entry), ...refused.map((one) => one.entry)];
    return { entries, photos: await tx.objectStore("photos").getAll() };
  });

/** Keep what this phone does not know yet. Resolves with how many entries were new. */
export const takeIn = (entries, photos) =>
  write(["entries", "outbox", "photos"], async (tx) => {
    let fresh = 0;
    for (const entry of entries) {
      if (await tx.objectStore("entries").get(entry.id)) continue;
      const order = await tx.objectStore("outbox").add({ id: entry.id, device: entry.device, author: entry.author });
      await tx.objectStore("entries").put({ ...rowOf(entry, order), own: true });
      fresh += 1;
    }
    for (const photo of photos) if (!(await tx.objectStore("photos").get(photo.sha256))) await tx.objectStore("photos").put(photo);
    return fresh;
  });
