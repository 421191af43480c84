// Keeps one whole version of the app on the phone. A new version is fetched completely, beside the old one, and
// takes over when the last page of the old one is closed, or when its keeper asks for it: half of each is never mixed.
'use strict';
self.importScripts('./service-worker-assets.js');

const prefix = 'broodtide-app-';
const cacheName = prefix + self.assetsManifest.version;
const kept = [/\.(html|js|css|woff2|svg|png|webmanifest|wasm|dat|json|txt)$/];
const left = [/^service-worker/, /\.map$/];
// Words of other languages: the one that is read is kept, the others are not fetched.
const languages = /^language\//;

self.addEventListener('install', event => event.waitUntil(keepAll()));
self.addEventListener('activate', event => event.waitUntil(dropOld()));
self.addEventListener('message', event => {
  if (event.data === 'take over') event.waitUntil(takeOver(event.ports[0]));
});
self.addEventListener('fetch', event => {
  const url = new URL(event.request.url);
  if (event.request.method !== 'GET' || url.origin !== self.location.origin || url.pathname.startsWith('/api/')) return;
  event.respondWith(answer(event.request));
});

// A note that was tapped leads to what is due.
self.addEventListener('notificationclick', event => {
  event.notification.close();
  event.waitUntil(openDue());
});

async function openDue() {
  const pages = await self.clients.matchAll({ type: 'window' });
  await (pages.length > 0 ? pages[0].focus() : self.clients.openWindow('./'));
}

async function chosenLanguage() {
  const note = await caches.match('/chosen-language', { cacheName: 'broodtide-language' });
  return note ? note.text() : 'en';
}

// All files or none, each with the hash that its version names. A fetch that breaks off leaves the old version as it is.
async function keepAll() {
  const own = `language/${await chosenLanguage()}.`;
  const requests = self.assetsManifest.assets
    .filter(asset => kept.some(name => name.test(asset.url)) && !left.some(name => name.test(asset.url)))
    .filter(asset => !languages.test(asset.url) || asset.url.startsWith(own))
    .map(asset => new Request(asset.url, { integrity: asset.hash, cache: 'no-cache' }));
  try {
    const cache = await caches.open(cacheName);
    await cache.addAll(requests);
  } catch (broken) {
    await caches.delete(cacheName);
    throw broken;
  }
}

// A page of the old version may be open in another tab: then this one goes on waiting, and says how many are open.
async function takeOver(port) {
  const windows = await self.clients.matchAll({ type: 'window', includeUncontrolled: true });
  port.postMessage(windows.length);
  if (windows.length <= 1) await self.skipWaiting();
}

async function dropOld() {
  const names = await caches.keys();
  await Promise.all(names.filter(name => name.startsWith(prefix) && name !== cacheName).map(name => caches.delete(name)));
  // Pages opened before there was a copy use it from now on.
  await self.clients.claim();
}

async function answer(request) {
  const cache = await caches.open(cacheName);
  const found = await cache.match(request.mode === 'navigate' ? 'index.html' : request, { ignoreSearch: true });
  return found ?? (languages.test(new URL(request.url).pathname.slice(1)) ? fetchWords(request, cache) : fetch(request));
}

// Words that are asked for later belong to this version, or they are not kept.
async function fetchWords(request, cache) {
  const name = new URL(request.url).pathname.slice(1);
  const asset = self.assetsManifest.assets.find(asset => asset.url === name);
  if (!asset) return fetch(request);
  const words = await fetch(new Request(name, { integrity: asset.hash, cache: 'no-cache' }));
  if (words.ok) await cache.put(name, words.clone());
  return words;
}
