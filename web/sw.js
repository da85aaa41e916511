// The service worker: one version of the page in one cache, whole or not at all, and nothing else.
/* global RELEASE */
importScripts("/precache.js");

const PREFIX = "rackside-page-";
const CACHE = PREFIX + RELEASE.digest;
/** Addresses that open the page: its own, a machine label's, and the page that looks at itself. */
const DOORS = /^\/$|^\/m\/[^/]*$|^\/diagnose$/;
const OWN_PATHS = new Set(RELEASE.files.map((file) => file.path));

self.addEventListener("install", (event) => event.waitUntil(fetchWholeVersion()));
self.addEventListener("activate", (event) => event.waitUntil(dropOlderVersions().then(() => self.clients.claim())));
self.addEventListener("message", (event) => event.data === "take-over" && self.skipWaiting());
self.addEventListener("fetch", (event) => {
  const path = ownPath(event.request);
  if (path) event.respondWith(fromCache(path, event.request));
});

async function fetchWholeVersion() {
  const answers = await Promise.all(RELEASE.files.map(fetchExactly));
  const cache = await caches.open(CACHE);
  await Promise.all(answers.map((answer, i) => cache.put(RELEASE.files[i].path, answer)));
}

async function fetchExactly({ path, integrity }) {
  const answer = await fetch(path, { integrity, cache: "no-cache" });
  if (!answer.ok) throw new Error(`${path}: ${answer.status}`);
  return answer;
}

async function dropOlderVersions() {
  const names = await caches.keys();
  await Promise.all(names.filter((name) => name.startsWith(PREFIX) && name !== CACHE).map((name) => caches.delete(name)));
}

function ownPath(request) {
  const url = new URL(request.url);
  if (request.method !== "GET" || url.origin !== self.location.origin) return null;
  const path = DOORS.test(url.pathname) ? "/index.html" : url.pathname;
  return OWN_PATHS.has(path) ? path : null;
}

async function fromCache(path, request) {
  const cache = await caches.open(CACHE);
  return (await cache.match(path)) ?? fetch(request);
}
