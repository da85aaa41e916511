// Entries as the contract has them, made on this phone.

/** A random UUID, also where the page has no secure context and the browser hides its own. */
export function newId(random = crypto.getRandomValues(new Uint8Array(16))) {
  random[6] = (random[6] & 0x0f) | 0x40;
  random[8] = (random[8] & 0x3f) | 0x80;
  const hex = [...random].map((byte) => byte.toString(16).padStart(2, "0")).join("");
  return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join("-");
}

/** A moment as RFC 3339 with this phone's offset, to the second. */
export function stamp(date = new Date()) {
  const offset = -date.getTimezoneOffset();
  const local = new Date(date.getTime() + offset * 60_000).toISOString().slice(0, 19);
  const size = Math.abs(offset);
  const pad = (number) => String(number).padStart(2, "0");
  return `${local}${offset < 0 ? "-" : "+"}${pad(Math.floor(size / 60))}:${pad(size % 60)}`;
}

/** Whether this sign-in may send an entry: made at it, or by the same person on a phone whose entries were carried here. */
export const isMine = (mark, session) => Boolean(session) && (mark.device === session.device || mark.author === session.person);

/**
 * @param {Session} session
 * @param {string} kind
 * @param {string | null} call null for site, machine and meter; "own" for the first entry of a call
 * @param {Record<string, any>} body
 * @param {string[]} [base]
 * @returns {Entry}
 */
export function newEntry(session, kind, call, body, base = []) {
  const id = newId();
  return { id, schema: 1, kind, call: call === "own" ? id : call, base, made_at: stamp(), device: session.device, author: session.person, body };
}
