// Dossiers of others on this phone: a database of their own, beside the journal and never in it. What a dossier may be is
// decided elsewhere; here lie its bytes, and what the list of them shows.

let database;

const asked = request => new Promise((done, failed) => {
  request.onsuccess = () => done(request.result);
  request.onerror = () => failed(request.error);
});

function open() {
  database ??= new Promise((done, failed) => {
    const request = indexedDB.open('broodtide-dossiers', 1);
    request.onupgradeneeded = ({ oldVersion }) => {
      if (oldVersion < 1) {
        request.result.createObjectStore('bytes');
        request.result.createObjectStore('lines');
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

async function written(work) {
  const transaction = (await open()).transaction(['bytes', 'lines'], 'readwrite', { durability: 'strict' });
  const done = new Promise((ok, failed) => {
    transaction.oncomplete = () => ok();
    transaction.onabort = () => failed(transaction.error ?? new Error('The write was given up.'));
  });
  work(transaction.objectStore('bytes'), transaction.objectStore('lines'));
  await done;
}

// Both or neither. Answers whether there was room.
export async function put(id, line, bytes) {
  try {
    await written((stored, lines) => { stored.put(bytes, id); lines.put(line, id); });
    return true;
  } catch (error) {
    if (error?.name === 'QuotaExceededError') return false;
    throw error;
  }
}

// The lines of all, as one JSON list.
export const list = async () =>
  `[${(await asked((await open()).transaction('lines').objectStore('lines').getAll())).join(',')}]`;

export const read = async id => (await asked((await open()).transaction('bytes').objectStore('bytes').get(id))) ?? null;

export async function remove(id) {
  const was = (await read(id)) !== null;
  await written((stored, lines) => { stored.delete(id); lines.delete(id); });
  return was;
}
