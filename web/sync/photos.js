// Photos go after their entries, one by one, whole; each is freed when the server confirms it.
import { freePhoto, photoToSend, setPhotoAside } from "../storage/photos.js";
import { NoLine, Refusal, reach } from "./http.js";

const LONG_ENOUGH = 120_000;
const FOR_LATER = new Set([401, 408, 429, 500, 502, 503, 504]);
const UNANNOUNCED = 404;

/**
 * @param {Session} session
 * @param {(photo: {sha256: string, trouble: string}) => void} tell after each photo that the server took or refused
 */
export async function sendPhotos(session, tell) {
  const later = new Set();
  for (let photo = await photoToSend(later); photo; photo = await photoToSend(later)) {
    const trouble = await put(session, photo);
    if (trouble === UNANNOUNCED) {
      later.add(photo.sha256);
      continue;
    }
    if (trouble) await setPhotoAside(photo.sha256, trouble);
    else await freePhoto(photo.sha256);
    tell({ sha256: photo.sha256, trouble });
  }
}

/** Why the server will not take this photo; "" when it has it, and says so as only it does: by the hash of what it keeps. */
async function put(session, { sha256, media_type, bytes }) {
  const headers = { Authorization: `Bearer ${session.token}`, "Content-Type": media_type };
  const answer = await reach(`/api/v1/photos/${sha256}`, { method: "PUT", headers, body: bytes }, LONG_ENOUGH);
  if (answer.ok && answer.headers.get("ETag")?.includes(sha256)) return "";
  if (answer.ok) throw new NoLine("The answer was not the server's.");
  if (answer.status === UNANNOUNCED) return UNANNOUNCED;
  const problem = await answer.json().catch(() => ({}));
  if (FOR_LATER.has(answer.status)) throw new Refusal(answer.status, problem);
  return problem.detail ?? `The server answered ${answer.status}.`;
}

/** A photo from the server; null while the phone that took it has not sent it. */
export async function fetchPhoto(session, sha256) {
  const headers = { Authorization: `Bearer ${session?.token}` };
  const answer = await reach(`/api/v1/photos/${sha256}`, { headers }, LONG_ENOUGH);
  if (answer.status === 404) return null;
  if (!answer.ok) throw new NoLine(`The server answered ${answer.status}.`);
  return answer.blob();
}
