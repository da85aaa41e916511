// A file of what one phone could not send, for another phone or the office to take. Entries keep id, author and device.

export const KIND = "rackside unsent entries";

/** @param {{entries: Entry[], photos: Photo[], person: string, device: string, at: string, encode: (bytes: ArrayBuffer) => string}} held */
export const fileOf = ({ entries, photos, person, device, at, encode }) => ({
  file: KIND,
  version: 1,
  written_at: at,
  written_by: person,
  written_on: device,
  entries,
  photos: photos.map(({ sha256, media_type, entry, bytes }) => ({ sha256, media_type, entry, base64: encode(bytes) })),
});

/**
 * What a file holds, or why it can't be taken: "unreadable", "other-file" or "newer".
 * @returns {{fault: string, entries: Entry[], photos: any[], by: string}}
 */
export function readFile(text) {
  const file = parsed(text);
  const not = (fault) => ({ fault, entries: [], photos: [], by: "" });
  if (!file) return not("unreadable");
  if (file.file !== KIND) return not("other-file");
  if (file.version !== 1) return not("newer");
  if (!Array.isArray(file.entries) || !file.entries.every(isEntry)) return not("unreadable");
  return { fault: "", entries: file.entries, photos: Array.isArray(file.photos) ? file.photos : [], by: String(file.written_by ?? "") };
}

function parsed(text) {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}

const TEXTS = ["id", "kind", "made_at", "device", "author"];
const isEntry = (entry) =>
  Boolean(entry) && TEXTS.every((key) => typeof entry[key] === "string") && Array.isArray(entry.base) && typeof entry.body === "object" && entry.body !== null;

export const fileName = (device, at) => `rackside-unsent-${device.slice(0, 8)}-${at.slice(0, 16).replace(/\D/g, "")}.json`;
