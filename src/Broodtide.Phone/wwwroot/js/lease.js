// The pen where the browser has no locks: a row of the store that one tab takes in one transaction. A tab that died with
// it is waited for as long as no write lasts.

const leaseMilliseconds = 15_000;

// Waits for the pen; answers what gives it back. `written` runs work in one transaction that is on the disk when it ends.
export async function takeLease(written) {
  const mine = Math.random();
  for (;;) {
    const [taken] = await written(['facts'], (transaction, results) => {
      const facts = transaction.objectStore('facts');
      facts.get('pen').onsuccess = event => {
        const held = event.target.result;
        const now = Date.now();
        // A row from the future was left by a clock that has been set back since.
        const free = !held || held.until < now || held.until > now + leaseMilliseconds;
        if (free) facts.put({ mine, until: now + leaseMilliseconds }, 'pen');
        results.push(free);
      };
    });
    if (taken) break;
    await new Promise(done => setTimeout(done, 20 + 30 * Math.random()));
  }
  const giveBack = transaction => {
    const facts = transaction.objectStore('facts');
    facts.get('pen').onsuccess = event => {
      if (event.target.result?.mine === mine) facts.delete('pen');
    };
  };
  return () => written(['facts'], giveBack).catch(() => {});
}
