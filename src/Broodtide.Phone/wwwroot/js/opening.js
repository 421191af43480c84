// How the journal of ten years is read without holding the page: a few rows at a time, each in one array.

const digestLength = 32;
let database;

// The same store that broodtide.js has opened; no other version of it is ever asked for.
function opened() {
  database ??= new Promise((done, failed) => {
    const request = indexedDB.open('broodtide');
    request.onsuccess = () => {
      request.result.onversionchange = () => { request.result.close(); database = undefined; };
      done(request.result);
    };
    request.onerror = () => { database = undefined; failed(request.error); };
  });
  return database;
}

// A row, packed: digest 32, then length u32 of envelope and of salt with body, then the bytes of both.
function pack(rows) {
  const length = row => digestLength + 8 + row.envelope.length + row.salt.length + row.body.length;
  const bytes = new Uint8Array(rows.reduce((sum, row) => sum + length(row), 0));
  const view = new DataView(bytes.buffer);
  let at = 0;
  const put = part => { bytes.set(part, at); at += part.length; };
  for (const row of rows) {
    put(row.digest);
    view.setUint32(at, row.envelope.length, true);
    view.setUint32(at + 4, row.salt.length + row.body.length, true);
    at += 8;
    put(row.envelope); put(row.salt); put(row.body);
  }
  return bytes;
}

const asked = request => new Promise((done, failed) => {
  request.onsuccess = () => done(request.result);
  request.onerror = () => failed(request.error);
});

// The rows after one, by their digests, at most so many; from the first if none is named.
export async function readSome(after, most) {
  const entries = (await opened()).transaction('entries').objectStore('entries');
  const range = after.length > 0 ? IDBKeyRange.lowerBound(after, true) : null;
  return pack(await asked(entries.getAll(range, most)));
}

// Resumes when what was drawn is on the screen; a page that nobody sees draws nothing and waits a moment only.
export const painted = () => new Promise(done => {
  const line = new MessageChannel();
  let late;
  line.port1.onmessage = () => { clearTimeout(late); line.port1.close(); done(); };
  late = setTimeout(() => line.port2.postMessage(0), 200);
  requestAnimationFrame(() => line.port2.postMessage(0));
});
