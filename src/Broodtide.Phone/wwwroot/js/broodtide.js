// The one script of the app: what only a browser can do. Storage, sound, light and size; no rules, no words.

import { takeLease } from './lease.js';

// ---- bytes across the border: a handle holds an array, one call copies it ----

export const give = view => view.slice();
export const take = (bytes, view) => view.set(bytes);

// ---- settings ----

export function readSetting(name) {
  try { return localStorage.getItem('broodtide.' + name); } catch { return null; }
}

export function writeSetting(name, value) {
  try {
    if (value === null) localStorage.removeItem('broodtide.' + name);
    else localStorage.setItem('broodtide.' + name, value);
    return true;
  } catch { return false; }
}

export function setGround(ground) {
  if (ground === 'light' || ground === 'dark') document.documentElement.dataset.ground = ground;
  else delete document.documentElement.dataset.ground;
}

// Which of our languages the phone speaks is told to the page before its first picture, by start.js.
export const phoneSpeaks = () => navigator.language ?? '';
export const setLanguage = language => { document.documentElement.lang = language; };
export const openAnew = () => location.reload();

// Marks for whoever measures.
export const firstPageStands = () => void performance.mark('first page');

// The script of the opening waits for it: what the first page needs is fetched before the copy of everything.
export function keepCopy() {
  performance.mark('all pages');
  document.documentElement.dataset.pages = 'asked';
  globalThis.dispatchEvent(new Event('keep-copy'));
}

export const timeZone = () => Intl.DateTimeFormat().resolvedOptions().timeZone ?? '';

// ---- the store ----

const digestLength = 32, replicaLength = 16;
const waitingRow = 0, acknowledgedRow = 1;
const batch = 2000;
let database;
let storeTold = () => {};

// Told 'blocked' while another tab holds an older store open, 'open' once it is free, 'newer' when another tab makes
// the store newer than this page understands, 'older' when it has been made so before.
export const whenStore = told => { storeTold = told; };

export function openStore() {
  database ??= new Promise((done, failed) => {
    const request = indexedDB.open('broodtide', 1);
    // One step for each version of the store; what an older one holds is never touched.
    request.onupgradeneeded = ({ oldVersion }) => {
      if (oldVersion < 1) {
        const entries = request.result.createObjectStore('entries', { keyPath: 'digest' });
        entries.createIndex('place', ['replica', 'seq']);
        entries.createIndex('acknowledged', 'acknowledged');
        request.result.createObjectStore('checkpoints');
        request.result.createObjectStore('facts');
      }
    };
    request.onsuccess = () => {
      request.result.onversionchange = () => {
        request.result.close();
        // This page understands the store no longer: it says so, and every later write fails instead of being lost.
        database = Promise.reject(new DOMException('The store is a newer one.', 'VersionError'));
        database.catch(() => {});
        storeTold('newer');
      };
      storeTold('open');
      done(request.result);
    };
    request.onerror = () => {
      database = undefined;
      if (request.error.name === 'VersionError') storeTold('older');
      failed(request.error);
    };
    // It goes on as soon as the other tab is closed.
    request.onblocked = () => storeTold('blocked');
  });
  return database.then(() => undefined);
}

// A row, packed: digest 32, replica 16, seq float64, acknowledged u8, then length u32 and bytes of envelope, salt, body.
function unpack(bytes) {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const rows = [];
  let at = 0;
  const part = length => bytes.slice(at, at += length);
  const measured = () => { const length = view.getUint32(at, true); at += 4; return part(length); };
  while (at < bytes.length) {
    const digest = part(digestLength), replica = part(replicaLength);
    const seq = view.getFloat64(at, true); at += 8;
    const acknowledged = view.getUint8(at); at += 1;
    rows.push({ digest, replica, seq, acknowledged, envelope: measured(), salt: measured(), body: measured() });
  }
  return rows;
}

const packedLength = row => digestLength + replicaLength + 8 + 1 + 12 + row.envelope.length + row.salt.length + row.body.length;

function pack(rows) {
  const bytes = new Uint8Array(rows.reduce((sum, row) => sum + packedLength(row), 0));
  const view = new DataView(bytes.buffer);
  let at = 0;
  const put = part => { bytes.set(part, at); at += part.length; };
  const measured = part => { view.setUint32(at, part.length, true); at += 4; put(part); };
  for (const row of rows) {
    put(row.digest); put(row.replica);
    view.setFloat64(at, row.seq, true); at += 8;
    view.setUint8(at, row.acknowledged); at += 1;
    measured(row.envelope); measured(row.salt); measured(row.body);
  }
  return bytes;
}

function joined(parts) {
  if (parts.length === 1) return parts[0];
  const bytes = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) { bytes.set(part, at); at += part.length; }
  return bytes;
}

const asked = request => new Promise((done, failed) => {
  request.onsuccess = () => done(request.result);
  request.onerror = () => failed(request.error);
});

// A write counts only when the transaction is complete, and strict means: on the disk, not only handed over.
async function written(stores, work) {
  const transaction = (await database).transaction(stores, 'readwrite', { durability: 'strict' });
  const done = new Promise((ok, failed) => {
    transaction.oncomplete = () => ok();
    transaction.onabort = () => failed(transaction.error ?? new Error('The write was given up.'));
  });
  const results = [];
  try {
    work(transaction, results);
  } catch (error) {
    transaction.abort();
    await done.catch(() => {});
    throw error;
  }
  await done;
  return results;
}

// All rows or none; a row whose digest is already there is left as it is, but for a body that was missing. Answers how
// many were new.
export async function append(packed) {
  const added = await written(['entries'], (transaction, results) => {
    const entries = transaction.objectStore('entries');
    for (const row of unpack(packed)) {
      const request = entries.add(row);
      request.onsuccess = () => results.push(row.digest);
      request.onerror = event => {
        if (request.error.name !== 'ConstraintError') return;
        event.preventDefault();
        event.stopPropagation();
        if (row.body.length > 0) complete(entries, row);
      };
    }
  });
  if (added.length > 0) others?.postMessage('written');
  return added.length;
}

function complete(entries, row) {
  entries.get(row.digest).onsuccess = event => {
    const held = event.target.result;
    if (held && held.body.length === 0) entries.put({ ...held, salt: row.salt, body: row.body });
  };
}

// In batches, so that no single answer of the browser is long.
async function collect(source, range) {
  const parts = [];
  let after = range;
  for (;;) {
    const rows = await asked(source().getAll(after, batch));
    if (rows.length > 0) parts.push(pack(rows));
    if (rows.length < batch) return joined(parts.length > 0 ? parts : [new Uint8Array()]);
    after = IDBKeyRange.lowerBound(rows[rows.length - 1].digest, true);
  }
}

const entriesForReading = async () => {
  const store = await database;
  return () => store.transaction('entries').objectStore('entries');
};

export async function readAll() {
  return collect(await entriesForReading(), null);
}

export async function readWaiting() {
  const entries = await entriesForReading();
  return pack(await asked(entries().index('acknowledged').getAll(waitingRow)));
}

export async function countWaiting() {
  const entries = await entriesForReading();
  return asked(entries().index('acknowledged').count(waitingRow));
}

// The rows of one replica after a number, in its order, at most so many.
export async function readAfter(replica, seq, most) {
  const entries = await entriesForReading();
  const range = IDBKeyRange.bound([replica, seq], [replica, Infinity], true, false);
  return pack(await asked(entries().index('place').getAll(range, most)));
}

async function change(digests, alter) {
  await written(['entries'], transaction => {
    const entries = transaction.objectStore('entries');
    for (let at = 0; at < digests.length; at += digestLength) {
      entries.get(digests.slice(at, at + digestLength)).onsuccess = event => {
        const row = event.target.result;
        if (row) entries.put(alter(row));
      };
    }
  });
}

export const acknowledge = digests => change(digests, row => ({ ...row, acknowledged: acknowledgedRow }));

export const awaitAgain = digests => change(digests, row => ({ ...row, acknowledged: waitingRow }));

export const erase = digests => change(digests, row => ({ ...row, salt: new Uint8Array(), body: new Uint8Array() }));

async function put(store, name, bytes) {
  await written([store], transaction => transaction.objectStore(store).put(bytes, name));
}

async function get(store, name) {
  const open = await database;
  return (await asked(open.transaction(store).objectStore(store).get(name))) ?? null;
}

export const putCheckpoint = (name, bytes) => put('checkpoints', name, bytes);
export const getCheckpoint = name => get('checkpoints', name);
export const clearCheckpoints = () => written(['checkpoints'], transaction => transaction.objectStore('checkpoints').clear());
export const putFact = (name, bytes) => put('facts', name, bytes);
export const getFact = name => get('facts', name);

// Whether a small piece still finds room; it is taken away again.
export async function probe(length) {
  try {
    await put('facts', 'probe', new Uint8Array(length));
    await written(['facts'], transaction => transaction.objectStore('facts').delete('probe'));
    return true;
  } catch (error) {
    return error?.name !== 'QuotaExceededError';
  }
}

// Whether the browser promises not to throw the store away.
export async function keepForGood() {
  if (!navigator.storage?.persist) return false;
  return (await navigator.storage.persisted()) || navigator.storage.persist();
}

// ---- one pen for all tabs ----

let letGo;

export function takePen() {
  // Where the browser has no locks (an address without a certificate), the pen is a row of the store.
  if (!navigator.locks) return takeLease(written).then(giveBack => { letGo = giveBack; });
  return new Promise((held, failed) => {
    navigator.locks
      .request('broodtide-pen', () => new Promise(done => { letGo = done; held(); }))
      .catch(failed);
  });
}

export function putPenDown() {
  const done = letGo;
  letGo = undefined;
  done?.();
}

const others = 'BroadcastChannel' in globalThis ? new BroadcastChannel('broodtide') : undefined;

export function whenOthersWrite(told) {
  if (others) others.onmessage = () => told();
}

// ---- sound: laid on the audio clock ahead of time, so that a busy page cannot be late ----

let audio;
let planned = [];
let sounding = [];
let buzz;

function wakeAudio() {
  if (!globalThis.AudioContext) return;
  if (!audio) {
    audio = new AudioContext();
    audio.onstatechange = lay;
  }
  if (audio.state === 'suspended') audio.resume();
}

// Browsers allow sound only from a touch or a key: the first one makes the clock run.
for (const kind of ['pointerdown', 'keydown']) document.addEventListener(kind, wakeAudio, { capture: true });

// Each instant in milliseconds since 1970, with its number of beeps beside it. Replaces what was planned.
export function planSounds(instants, beeps) {
  planned = Array.from(instants, (at, index) => ({ at, beeps: beeps[index] }));
  wakeAudio();
  lay();
}

export const cancelSounds = () => planSounds([], []);
export const soundState = () => audio?.state ?? 'silent';
export const plannedSounds = () => planned.map(sound => ({ ...sound }));
export const laidSounds = () => sounding.length;

function lay() {
  for (const tone of sounding) tone.stop();
  sounding = [];
  const now = Date.now();
  if (audio?.state === 'running') {
    for (const { at, beeps } of planned) {
      if (at <= now) continue;
      for (let beep = 0; beep < beeps; beep++) sounding.push(tone(audio.currentTime + (at - now) / 1000 + 0.28 * beep));
    }
  }
  buzzNext();
}

// A phone cannot be told to buzz later, so this waits; the sound does not depend on it.
function buzzNext() {
  clearTimeout(buzz);
  const now = Date.now();
  const ahead = planned.filter(sound => sound.at > now);
  if (ahead.length === 0) return;
  const next = ahead.reduce((first, sound) => (sound.at < first.at ? sound : first));
  buzz = setTimeout(() => {
    navigator.vibrate?.(Array.from({ length: 2 * next.beeps - 1 }, (_, index) => (index % 2 === 0 ? 180 : 100)));
    buzzNext();
  }, next.at - now);
}

// After a step that exchanges the whole page, a screen reader and the next Tab begin at its title.
export function focusTitle() {
  const title = document.querySelector('h1');
  if (!title) return;
  title.tabIndex = -1;
  title.focus({ preventScroll: true });
  scrollTo(0, 0);
}

// A tap that the hand feels, for eyes that are on the water. Phones that cannot do nothing.
export function feel() {
  navigator.vibrate?.(18);
}

// 880 Hz, 0.18 s, with soft ends: a click would sound like a fault.
function tone(start) {
  const source = new OscillatorNode(audio, { frequency: 880 });
  const loudness = new GainNode(audio, { gain: 0 });
  loudness.gain.setValueAtTime(0, start);
  loudness.gain.linearRampToValueAtTime(0.7, start + 0.015);
  loudness.gain.setValueAtTime(0.7, start + 0.15);
  loudness.gain.linearRampToValueAtTime(0, start + 0.18);
  source.connect(loudness).connect(audio.destination);
  source.start(start);
  source.stop(start + 0.2);
  source.onended = () => { sounding = sounding.filter(other => other !== source); };
  return source;
}

// ---- the screen kept awake, and told when the page is seen again ----

let awakeWanted = false;
let awake;
let seen;

export async function keepAwake(wanted) {
  awakeWanted = wanted;
  if (!wanted) {
    await awake?.release();
    awake = undefined;
    return 'off';
  }
  if (!navigator.wakeLock) return 'absent';
  if (awake && !awake.released) return 'held';
  try {
    awake = await navigator.wakeLock.request('screen');
    return 'held';
  } catch {
    return 'refused';
  }
}

export const whenSeen = told => { seen = told; };

document.addEventListener('visibilitychange', () => {
  if (document.visibilityState !== 'visible') return;
  if (awakeWanted) keepAwake(true);
  if (planned.length > 0) { wakeAudio(); lay(); }
  seen?.();
});

// ---- size ----

export const width = () => document.documentElement.clientWidth;

export function whenResized(told) {
  let last = width();
  new ResizeObserver(() => {
    if (width() === last) return;
    last = width();
    told(last);
  }).observe(document.documentElement);
}

// ---- what held the page ----

const slowTasks = [];
if (globalThis.PerformanceObserver?.supportedEntryTypes?.includes('longtask')) {
  new PerformanceObserver(list => {
    for (const { startTime, duration } of list.getEntries()) slowTasks.push({ startTime, duration });
    if (slowTasks.length > 1000) slowTasks.splice(0, 500);
  }).observe({ type: 'longtask', buffered: true });
}

// Tasks over 50 ms that began after a moment of performance.now().
export const tasksOver50 = since => slowTasks.filter(task => task.startTime >= since);
export const countTasksOver50 = since => tasksOver50(since).length;
export const pageMilliseconds = () => performance.now();

// Hands the page back to the browser: taps, paint, sound. Resumes in a task of its own.
const line = new MessageChannel();
const resting = [];
line.port1.onmessage = () => resting.shift()?.();
export const rest = () => new Promise(done => { resting.push(done); line.port2.postMessage(0); });

// ---- files ----

export function download(name, type, bytes) {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([bytes], { type }));
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
}

// ---- at the start ----

// Every cut of the letters is fetched at once: without a network it would come too late.
for (const font of document.fonts) font.load().catch(() => {});
