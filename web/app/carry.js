// What could not be sent, carried by hand: written to a file, or taken from another phone's.
import { stamp } from "../state/entries.js";
import { fileName, fileOf, readFile } from "../state/carried.js";
import { everythingUnsent, takeIn } from "../storage/carry.js";
import { reopenCall } from "./call.js";
import { readLog } from "./log.js";
import { sha256Of } from "./shrink.js";

export const carryActs = (page) => ({
  writeUnsent: () => writeUnsent(page),
  takeUnsent: (event) => takeUnsent(page, event),
});

async function writeUnsent({ store }) {
  const { session } = store.state;
  const at = stamp();
  const held = await everythingUnsent();
  const file = fileOf({ ...held, person: session.person, device: session.device, at, encode });
  handOver(new File([JSON.stringify(file)], fileName(session.device, at), { type: "application/json" }));
  store.dispatch({ type: "carried", carried: { done: "written", count: held.entries.length, photos: held.photos.length } });
}

function handOver(file) {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(file);
  link.download = file.name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
}

async function takeUnsent(page, event) {
  const [file] = event.target.files;
  event.target.value = "";
  if (!file) return;
  const read = readFile(await file.text());
  const carried = read.fault ? { fault: read.fault } : await takeRead(page, read).catch(tellFault);
  page.store.dispatch({ type: "carried", carried });
}

async function takeRead(page, { entries, photos, by }) {
  const fresh = await takeIn(entries, await whole(photos));
  await readLog(page);
  await reopenCall(page);
  page.line.poke();
  return { done: "taken", count: fresh, known: entries.length - fresh, by };
}

function tellFault(error) {
  console.error(error);
  return { fault: "not-kept" };
}

/** Photos whose bytes are still those they are named by. */
async function whole(photos) {
  const found = [];
  for (const { sha256, media_type, entry, base64 } of photos) {
    const bytes = decode(String(base64 ?? ""));
    if ((await sha256Of(bytes)) === sha256) found.push({ sha256, media_type, entry, bytes });
  }
  return found;
}

function encode(bytes) {
  let text = "";
  for (const byte of new Uint8Array(bytes)) text += String.fromCharCode(byte);
  return btoa(text);
}

function decode(text) {
  try {
    return Uint8Array.from(atob(text), (sign) => sign.charCodeAt(0)).buffer;
  } catch {
    return new ArrayBuffer(0);
  }
}
