// Photos: the camera's button, a row of small ones, all of a call, and one opened large.
import { html, nothing } from "../vendor/lit-html/lit-html.js";
import words from "../words/index.js";
import { dayText } from "../state/format.js";
import { photosOf, SUBJECTS } from "../state/photos.js";
import { toCall, toPhoto, toPhotos } from "../state/route.js";

const say = words.photos;

/** A button that opens the phone's camera; what it takes is kept as a photo of a subject, and of a thing when named. */
export const cameraButton = (act, { shows, of = null, text = say.shows[shows] }) => html`<label class="small-button camera">
  ${CAMERA}<span>${text}</span><input class="unseen" type="file" accept="image/*" capture="environment" @change=${(event) => act.takePhoto(event, shows, of)}></label>`;

export function photoStrip(state, photos) {
  if (photos.length === 0) return nothing;
  return html`<ul class="photos">${photos.map((photo) => html`<li><a href=${toPhoto(state.call.id, photo.id)} aria-label=${[say.shows[photo.shows], photo.caption, dayText(photo.at, words)].filter(Boolean).join(", ")}>
    ${picture(state.photos[photo.sha256], "", "photo-small")}</a></li>`)}</ul>`;
}

/** The small photos of a call that show one thing. */
export const photosShowing = (state, shows) => photoStrip(state, photosOf(state.call).filter((photo) => photo.shows === shows));

/** The way to a call's photos, from its head. */
export const photosLink = (call) => html`<a class="gear" href=${toPhotos(call.id)} aria-label=${say.title}>${CAMERA}</a>`;

/** The camera beside a reading, and what it took of it. */
export const photosBeside = (state, act, { shows, of }) => html`<div class="photos-beside">
  ${photoStrip(state, photosOf(state.call, of))} ${cameraButton(act, { shows, of, text: say.take })} ${troubleText(state)}</div>`;

function picture(photo, alt, kind) {
  if (photo?.url) return html`<img class=${kind} src=${photo.url} alt=${alt}>`;
  return html`<span class="${kind} is-missing">${say.standing[photo?.standing] ?? "…"}</span>`;
}

export function photosScreen(state, act) {
  const { call } = state;
  if (!call) return html`<main class="screen" aria-busy="true"></main>`;
  const photos = photosOf(call);
  return html`<main class="screen">
    <header class="topline"><a class="back" href=${toCall(call.id)} aria-label=${words.back}>‹</a><h1><span class="tag">${call.tag}</span> ${say.title}</h1></header>
    <p class="soft">${say.hint}</p>
    <div class="chips" role="group" aria-label=${say.take}>${SUBJECTS.map((shows) => cameraButton(act, { shows, of: shows === "plate" ? call.machine : null }))}</div>
    ${troubleText(state)}
    ${SUBJECTS.map((shows) => shelf(state, shows, photos.filter((photo) => photo.shows === shows)))}
    ${photos.length ? nothing : html`<p class="soft empty">${say.none}</p>`}
  </main>`;
}

const shelf = (state, shows, photos) => (photos.length ? html`<section class="stack"><h2 class="list-title">${say.shows[shows]}</h2>${photoStrip(state, photos)}</section>` : nothing);

const troubleText = (state) => (state.photoTrouble ? html`<p class=${state.photoTrouble === "busy" ? "soft" : "trouble"} role="status">${say.trouble[state.photoTrouble]}</p>` : nothing);

export function photoScreen(state, act) {
  const photo = state.call && photosOf(state.call).find((one) => one.id === state.route.photo);
  if (!photo) return html`<main class="screen" aria-busy="true"></main>`;
  const held = state.photos[photo.sha256];
  const title = say.shows[photo.shows];
  return html`<main class="screen">
    <header class="topline"><a class="back" href=${toPhotos(state.call.id)} aria-label=${words.back}>‹</a><h1><span class="tag">${state.call.tag}</span> ${title}</h1></header>
    ${picture(held, photo.caption ?? title, "photo-large")}
    <p class="soft">${dayText(photo.at, words)}${held?.url ? ` · ${say.standing[held.standing]}` : ""}</p>
    ${captionForm(photo, state, act)}
    ${held?.url || held?.standing === "coming" ? nothing : html`<button class="big-button" @click=${() => act.fetchPhoto(photo.sha256)}>${say.fetch}</button>`}
  </main>`;
}

const captionForm = (photo, { caption }, act) => html`<form class="stack" @submit=${(event) => act.keepCaption(event, photo.id)}>
  <label class="text-field">${say.caption}<input name="caption" maxlength="200" autocomplete="off" .value=${caption ?? photo.caption ?? ""} @input=${(event) => act.typeCaption(event.target.value)}></label>
  ${caption === null ? nothing : html`<button class="big-button">${say.keepCaption}</button>`}</form>`;

/** The plate's newest photo beside the fields that are typed from it, and the camera. */
export function plateBeside(state, act) {
  const photo = photosOf(state.call, state.call.machine).findLast(({ shows }) => shows === "plate");
  return html`<div class="plate-beside">${photo ? html`<a href=${toPhoto(state.call.id, photo.id)}>${picture(state.photos[photo.sha256], say.shows.plate, "photo-beside")}</a>` : nothing}
    ${cameraButton(act, { shows: "plate", of: state.call.machine, text: photo ? say.again : say.shows.plate })} ${troubleText(state)}</div>`;
}

const CAMERA = html`<svg class="camera-shape" viewBox="0 0 24 24" aria-hidden="true"><path d="M3 8h4l2-3h6l2 3h4v11H3z"/><circle cx="12" cy="13" r="3.6"/></svg>`;
