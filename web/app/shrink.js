// A photo made small enough to send from a basement: upright, without its hidden facts, at most 2 MB.
import { fitted } from "../state/photos.js";

const MOST_BYTES = 2_000_000;
const TRIES = [{ side: 2000, quality: 0.82 }, { side: 1600, quality: 0.75 }, { side: 1200, quality: 0.65 }, { side: 800, quality: 0.6 }];

/** @param {Blob} file @returns {Promise<Blob>} a JPEG; drawing it anew turns it upright and leaves place and camera behind */
export async function shrink(file) {
  const picture = await createImageBitmap(file, { imageOrientation: "from-image" });
  for (const { side, quality } of TRIES) {
    const blob = await drawn(picture, side, quality);
    if (blob.size <= MOST_BYTES) return blob;
  }
  throw new Error("This picture does not shrink below 2 MB.");
}

function drawn(picture, side, quality) {
  const canvas = document.createElement("canvas");
  Object.assign(canvas, fitted(picture.width, picture.height, side));
  canvas.getContext("2d").drawImage(picture, 0, 0, canvas.width, canvas.height);
  return new Promise((resolve, reject) => canvas.toBlob((blob) => (blob ? resolve(blob) : reject(new Error("No picture."))), "image/jpeg", quality));
}

export async function sha256Of(bytes) {
  const found = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
  return [...found].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}
