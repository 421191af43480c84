// Within the page of a dossier that carries the engine: unpacks it, computes the numbers of the entries again, and says
// whether they are the printed ones. It asks nothing of any network; every file of the engine lies in the page, as gzip
// in base64, under its name.

const said = document.getElementById('replay-said');
const carried = name => document.querySelector(`script[data-name="${name}"]`)?.textContent.trim();
const text = name => new TextDecoder().decode(plain(carried(name)));

function plain(base64) {
  const letters = atob(base64);
  const bytes = new Uint8Array(letters.length);
  for (let at = 0; at < letters.length; at++) bytes[at] = letters.charCodeAt(at);
  return bytes;
}

const unpacked = (name, type) => new Response(
  new Blob([plain(carried(name))]).stream().pipeThrough(new DecompressionStream('gzip')),
  { headers: { 'content-type': type } });

// A script of the engine is loaded as a module, from an address that lasts as long as this page. Such an address has no
// folder, and the scripts put names behind theirs: they are told another, which nothing is ever fetched from.
async function module(name) {
  const script = (await unpacked(name, 'text/javascript').text())
    .replaceAll('import.meta.url', `"https://dossier.invalid/${name}"`);
  return URL.createObjectURL(new Blob([script], { type: 'text/javascript' }));
}

async function engine() {
  const scripts = new Map();
  for (const name of ['dotnet.js', 'dotnet.native.js', 'dotnet.runtime.js']) scripts.set(name, await module(name));
  const { dotnet } = await import(scripts.get('dotnet.js'));
  const { getAssemblyExports } = await dotnet
    // A script by its address, everything else as an answer that is promised.
    .withResourceLoader((type, name) => scripts.get(name) ?? Promise.resolve(unpacked(name, 'application/wasm')))
    .create();
  return (await getAssemblyExports('Broodtide.Phone')).Broodtide.Phone.Dossiers.Replay;
}

// Two tables, cell by cell: a number agrees where it differs by less than one in a thousand million.
function compare(was, now) {
  const cells = table => table.split('\r\n').filter(line => line).map(line => line.split(','));
  const [before, after] = [cells(was), cells(now)];
  let numbers = 0, different = 0, worst = 0;
  for (let row = 0; row < Math.max(before.length, after.length); row++) {
    const [left, right] = [before[row] ?? [], after[row] ?? []];
    for (let at = 0; at < Math.max(left.length, right.length); at++) {
      const [old, fresh] = [left[at] ?? '', right[at] ?? ''];
      const [a, b] = [Number(old), Number(fresh)];
      const isNumber = old !== '' && Number.isFinite(a);
      if (isNumber) numbers++;
      if (old === fresh) continue;
      const apart = isNumber && fresh !== '' ? Math.abs(a - b) / Math.max(1, Math.abs(a)) : Infinity;
      worst = Math.max(worst, apart);
      if (!(apart <= 1e-9)) different++;
    }
  }
  return { numbers, different, worst };
}

try {
  const about = JSON.parse(text('about.json'));
  const began = performance.now();
  const replay = await engine();
  const now = replay.Estimates(text('journal.jsonl'), about.runs.join(','), about.toldFor, about.zone);
  const { numbers, different, worst } = compare(text('estimates.csv'), now);
  const seconds = ((performance.now() - began) / 1000).toFixed(1);
  const words = different === 0 ? about.same : about.other;
  said.textContent = words.replace('{numbers}', numbers).replace('{different}', different).replace('{seconds}', seconds);
  Object.assign(document.documentElement.dataset, { replay: different === 0 ? 'same' : 'other', numbers, different, worst });
  globalThis.recomputed = now;
} catch (error) {
  said.textContent = `${JSON.parse(text('about.json')).failed} ${error}`;
  document.documentElement.dataset.replay = 'failed';
}
