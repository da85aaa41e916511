// The service worker: one version of the page in one cache, whole or not at all, and nothing else.
/* global RELEASE */
importScripts("/precache.js");

const PREFIX = "rackside-page-";
const CACHE = PREFIX + RELEASE.digest;
/** Addresses that open the page: its own, a machine label's, and the page that looks at itself. */
const DOORS = /^\/$|^\/m\/[^/]*$|^\/diagnose$/;
const FILES = Object.entries(RELEASE.files);

self.addEventListener("install", (event) => event.waitUntil(fetchWholeVersion()));
self.addEventListener("activate", (event) => event.waitUntil(dropOlderVersions().then(() => self.clients.claim())));
self.addEventListener("message", (event) => event.data === "take-over" && self.skipWaiting());
self.addEventListener("fetch", (event) => {
  const path = ownPath(event.request);
  if (path) event.respondWith(fromCache(path, event.request));
});

async function fetchWholeVersion() {
  const answers = await Promise.all(FILES.map(fetchExactly));
  const cache = await caches.open(CACHE);
  await Promise.all(answers.map((answer, i) => cache.put(FILES[i][0], answer)));
}

async function fetchExactly([path, mark]) {
  const answer = await fetch(path, { cache: "no-cache" });
  if (!answer.ok) throw new Error(`${path}: ${answer.status}`);
  const found = await hashOf(await answer.clone().arrayBuffer());
  if (!found.startsWith(mark)) throw new Error(`${path}: not the file of this version`);
  return answer;
}

async function hashOf(bytes) {
  const hash = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
  return btoa(String.fromCharCode(...hash));
}

async function dropOlderVersions() {
  const names = await caches.keys();
  await Promise.all(names.filter((name) => name.startsWith(PREFIX) && name !== CACHE).map((name) => caches.delete(name)));
}

function ownPath(request) {
  const url = new URL(request.url);
  if (request.method !== "GET" || url.origin !== self.location.origin) return null;
  const path = DOORS.test(url.pathname) ? "/index.html" : url.pathname;
  return Object.hasOwn(RELEASE.files, path) ? path : null;
}

async function fromCache(path, request) {
  const cache = await caches.open(CACHE);
  return (await cache.match(path)) ?? fetch(request);
}
