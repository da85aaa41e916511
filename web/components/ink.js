// A field to sign in with a finger: ink follows the pointer, and the drawing can be had as a picture.
import { html } from "../vendor/lit-html/lit-html.js";

const SIZE = { width: 640, height: 240 };

/** @param {{label: string, changed: (drawn: boolean) => void}} field */
export function ink({ label, changed }) {
  return html`<canvas class="ink" width=${SIZE.width} height=${SIZE.height} role="img" aria-label=${label}
    @pointerdown=${(event) => begin(event, changed)} @pointermove=${draw}></canvas>`;
}

function begin(event, changed) {
  event.preventDefault();
  event.target.setPointerCapture(event.pointerId);
  const pen = penOf(event.target);
  pen.beginPath();
  pen.moveTo(...placeOf(event));
  pen.lineTo(...placeOf(event));
  pen.stroke();
  changed(true);
}

function draw(event) {
  if (!event.buttons) return;
  const pen = penOf(event.target);
  pen.lineTo(...placeOf(event));
  pen.stroke();
}

function penOf(canvas) {
  const pen = canvas.getContext("2d");
  Object.assign(pen, { lineWidth: 4, lineCap: "round", lineJoin: "round", strokeStyle: "#11140f" });
  return pen;
}

function placeOf({ target, clientX, clientY }) {
  const box = target.getBoundingClientRect();
  return [((clientX - box.left) / box.width) * SIZE.width, ((clientY - box.top) / box.height) * SIZE.height];
}

export const wipe = (canvas) => canvas.getContext("2d").clearRect(0, 0, SIZE.width, SIZE.height);

/** The drawing on white, as a small PNG. @returns {Promise<Blob>} */
export function pictureOf(canvas) {
  const sheet = document.createElement("canvas");
  Object.assign(sheet, SIZE);
  const pen = sheet.getContext("2d");
  pen.fillStyle = "#ffffff";
  pen.fillRect(0, 0, SIZE.width, SIZE.height);
  pen.drawImage(canvas, 0, 0);
  return new Promise((resolve) => sheet.toBlob(resolve, "image/png"));
}
