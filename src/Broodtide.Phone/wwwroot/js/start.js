// Runs before the first picture: the ground and the language that the keeper chose, and the copy kept for days
// without a network.
'use strict';
const setting = name => {
  // Without local storage the phone's own choice holds.
  try { return localStorage.getItem('broodtide.' + name); } catch { return null; }
};
const ground = setting('ground');
if (ground === 'light' || ground === 'dark') document.documentElement.dataset.ground = ground;

const chosen = setting('language');
const language = chosen === 'en' || chosen === 'de' ? chosen : /^de(-|$)/i.test(navigator.language ?? '') ? 'de' : 'en';
document.documentElement.lang = language;
if (language !== 'en') {
  // On its way while the program itself still comes.
  const words = document.createElement('link');
  Object.assign(words, { rel: 'preload', as: 'fetch', crossOrigin: 'anonymous', href: `language/${language}.json` });
  document.head.append(words);
}
if ('serviceWorker' in navigator) {
  // The copy for days without a network holds this language too: it is noted where the worker reads it.
  const noted = 'caches' in globalThis
    ? caches.open('broodtide-language').then(notes => notes.put('/chosen-language', new Response(language)))
    : Promise.resolve();
  // The first time it waits until the pages are there: it asks for every file, and the line is narrow.
  const ready = navigator.serviceWorker.controller
    ? Promise.resolve()
    : new Promise(done => addEventListener('keep-copy', done, { once: true }));
  Promise.all([ready, noted.catch(() => {})]).then(() =>
    navigator.serviceWorker.register('service-worker.js', { updateViaCache: 'none' }).catch(() => {}));
}
