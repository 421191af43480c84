// Runs before the first picture: the ground that the keeper chose, and the copy kept for days without a network.
'use strict';
try {
  const ground = localStorage.getItem('broodtide.ground');
  if (ground === 'light' || ground === 'dark') document.documentElement.dataset.ground = ground;
} catch {
  // Without local storage the phone's own choice holds.
}
if ('serviceWorker' in navigator) {
  navigator.serviceWorker.register('service-worker.js', { updateViaCache: 'none' }).catch(() => {});
}
