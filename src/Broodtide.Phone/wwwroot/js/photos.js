// Photos on this phone: a database of their own, so that neither a large photo nor a change of its shape ever touches
// the entries. What a photo may be and what is left out of it is decided elsewhere.

const waitingFile = 1, sentFile = 0;
let database;

const asked = request => new Promise((done, failed) => {
  request.onsuccess = () => done(request.result);
  request.onerror = () => failed(request.error);
});

function open() {
  database ??= new Promise((done, failed) => {
    const request = indexedDB.open('broodtide-photos', 1);
    // One step for each version; what an older one holds is never touched.
    request.onupgradeneeded = ({ oldVersion }) => {
      if (oldVersion < 1) {
        request.result.createObjectStore('bytes');
        request.result.createObjectStore('files', { keyPath: 'hash' }).createIndex('waiting', 'waiting');
      }
    };
    request.onsuccess = () => {
      request.result.onversionchange = () => { request.result.close(); database = undefined; };
      done(request.result);
    };
    request.onerror = () => { database = undefined; failed(request.error); };
  });
  return database;
}

// Complete means: on the disk, not only handed over.
async function written(work) {
  const transaction = (await open()).transaction(['files', 'bytes'], 'readwrite', { durability: 'strict' });
  const done = new Promise((ok, failed) => {
    transaction.oncomplete = () => ok();
    transaction.onabort = () => failed(transaction.error ?? new Error('The write was given up.'));
  });
  work(transaction.objectStore('files'), transaction.objectStore('bytes'));
  await done;
}

// A photo with its thumbnail, both or neither. Answers whether there was room.
export async function keep(entry, isWaiting, hash, bytes, smallHash, smallBytes) {
  const waiting = isWaiting ? waitingFile : sentFile;
  const files = [{ hash, bytes }, ...(smallHash ? [{ hash: smallHash, bytes: smallBytes }] : [])];
  try {
    await written((rows, stored) => {
      for (const file of files) {
        rows.put({ hash: file.hash, entry, waiting, kept: Date.now() });
        stored.put(file.bytes, file.hash);
      }
    });
    return true;
  } catch (error) {
    if (error?.name === 'QuotaExceededError') return false;
    throw error;
  }
}

const rows = async () => asked((await open()).transaction('files').objectStore('files').getAll());

// Every file with the entry it came with and when: one line each.
export const list = async () => (await rows()).map(row => `${row.hash} ${row.entry} ${row.kept} ${row.waiting}`).join('\n');

export async function read(hash) {
  return (await asked((await open()).transaction('bytes').objectStore('bytes').get(hash))) ?? null;
}

export async function sent(hash) {
  await written(files => {
    files.get(hash).onsuccess = event => {
      const row = event.target.result;
      if (row) files.put({ ...row, waiting: sentFile });
    };
  });
}

export async function remove(hash) {
  await written((files, bytes) => { files.delete(hash); bytes.delete(hash); });
}

// An address that an <img> can show, until it is let go; none if the file is not here.
export async function address(hash, type) {
  const bytes = await read(hash);
  return bytes ? URL.createObjectURL(new Blob([bytes], { type })) : null;
}

export const show = (bytes, type) => URL.createObjectURL(new Blob([bytes], { type }));

export const letGo = url => URL.revokeObjectURL(url);

// A small JPEG, turned as the photo is to be seen; none if this browser cannot show the photo.
export async function shrink(bytes, type, across, down) {
  let picture;
  try {
    picture = await createImageBitmap(new Blob([bytes], { type }), {
      resizeWidth: across, resizeHeight: down, resizeQuality: 'high', imageOrientation: 'from-image',
    });
  } catch {
    return null;
  }
  try {
    const canvas = document.createElement('canvas');
    canvas.width = picture.width;
    canvas.height = picture.height;
    const pen = canvas.getContext('2d', { alpha: false });
    pen.fillStyle = '#fff';
    pen.fillRect(0, 0, canvas.width, canvas.height);
    pen.drawImage(picture, 0, 0);
    const blob = await new Promise(done => canvas.toBlob(done, 'image/jpeg', 0.8));
    // Hands the pixels back at once instead of when somebody cleans up.
    canvas.width = canvas.height = 0;
    return blob ? new Uint8Array(await blob.arrayBuffer()) : null;
  } finally {
    picture.close();
  }
}

// How many bytes the browser says are left for this app; less than none where it does not say.
export async function room() {
  const { quota, usage } = (await navigator.storage?.estimate?.()) ?? {};
  return quota === undefined || usage === undefined ? -1 : quota - usage;
}
