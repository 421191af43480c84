// A newer version of the app that lies ready beside this one, and how much room the phone leaves. No rules, no words.

const hour = 3_600_000;
let registration;
let told = () => {};
let asked = Date.now();

// Tells once a newer version has been fetched whole. The first copy of all is no newer one.
export function whenNewer(tell) {
  told = tell;
  navigator.serviceWorker?.ready.then(ready => {
    registration = ready;
    ready.addEventListener('updatefound', () => follow(ready.installing));
    follow(ready.installing);
    look();
  });
}

export const hasNewer = () => !!(registration?.waiting && navigator.serviceWorker.controller);

function follow(worker) {
  worker?.addEventListener('statechange', look);
}

function look() {
  if (hasNewer()) told();
}

// A page that stays open for days asks now and then, when it is looked at.
document.addEventListener('visibilitychange', () => {
  if (document.visibilityState !== 'visible' || Date.now() - asked < hour) return;
  asked = Date.now();
  registration?.update().catch(() => {});
});

// Opens the newer version in place of this one. Answers how many pages of the old one are open: with more than one
// nothing happens.
export function takeNewer() {
  const waiting = registration?.waiting;
  if (!waiting) {
    location.reload();
    return Promise.resolve(0);
  }
  navigator.serviceWorker.addEventListener('controllerchange', () => location.reload(), { once: true });
  return new Promise(done => {
    const line = new MessageChannel();
    line.port1.onmessage = answer => done(answer.data);
    waiting.postMessage('take over', [line.port2]);
  });
}

export const openAgain = () => location.reload();

// Bytes used and bytes allowed, by the browser's own reckoning; none where it does not say.
export async function room() {
  const { usage, quota } = (await navigator.storage?.estimate?.().catch(() => null)) ?? {};
  return Number.isFinite(usage) && Number.isFinite(quota) ? { usage, quota } : null;
}

export async function copy(text) {
  try {
    await navigator.clipboard.writeText(text);
    return true;
  } catch {
    return false;
  }
}
