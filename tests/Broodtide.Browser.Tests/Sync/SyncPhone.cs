using Microsoft.Playwright;

namespace Broodtide.Browser.Tests.Sync;

/// <summary>One row in the browser's database, as far as sync is judged by it.</summary>
internal sealed record PhoneRow(string Digest, string Place, bool IsAcknowledged);

/// <summary>A browser context as a phone, with the app open.</summary>
internal sealed class SyncPhone(IBrowserContext context, string address)
{
    private const string Rows = """
        async () => {
          const open = indexedDB.open('broodtide');
          const database = await new Promise((done, failed) => { open.onsuccess = () => done(open.result); open.onerror = failed; });
          const all = database.transaction('entries').objectStore('entries').getAll();
          const rows = await new Promise((done, failed) => { all.onsuccess = () => done(all.result); all.onerror = failed; });
          database.close();
          const hex = bytes => Array.from(bytes, one => one.toString(16).padStart(2, '0')).join('');
          return rows.map(row => `${hex(row.digest)} ${hex(row.replica)}/${row.seq} ${row.acknowledged}`);
        }
        """;

    private const string Count = """
        async acknowledged => {
          const open = indexedDB.open('broodtide');
          const database = await new Promise((done, failed) => { open.onsuccess = () => done(open.result); open.onerror = failed; });
          const entries = database.transaction('entries').objectStore('entries');
          const count = acknowledged ? entries.index('acknowledged').count(1) : entries.count();
          const found = await new Promise((done, failed) => { count.onsuccess = () => done(count.result); count.onerror = failed; });
          database.close();
          return found;
        }
        """;

    private static readonly string[] Forms = ["power-failed", "power-restored"];
    private int _form;

    public Opened Opened { get; private set; } = null!;

    public bool IsOffline { get; private set; }

    public async Task OpenAsync()
    {
        Opened = await Opened.At(context, address + "/settings");
        await Opened.Page.EvaluateAsync("async () => { await navigator.serviceWorker.ready; }");
        // The copy of the app answers only from the second opening on.
        await ReloadAsync();
    }

    public async Task ReloadAsync()
    {
        await Opened.Page.ReloadAsync();
        await Opened.Page.Locator("nav.places").WaitForAsync(new() { Timeout = 120_000 });
    }

    public async Task OfflineAsync(bool offline)
    {
        await context.SetOfflineAsync(offline);
        IsOffline = offline;
    }

    /// <summary>Writes as a keeper does; returns once the app shows the entry as written.</summary>
    public async Task WriteAsync()
    {
        // Two forms in turn, so that each begins empty and shows nothing of the last.
        await Opened.GoTo("/write/" + Forms[_form++ % 2]);
        await Opened.Page.Locator("form.writing button[type=submit]").ClickAsync();
        await Opened.Page.Locator(".saved").First.WaitForAsync(new() { Timeout = 60_000 });
    }

    /// <summary>How many rows there are, or of them how many the server is known to hold; cheap enough to ask often.</summary>
    public Task<int> CountAsync(bool isAcknowledged = false) =>
        Opened.Page.EvaluateAsync<int>(Count, isAcknowledged);

    public async Task<IReadOnlyList<PhoneRow>> RowsAsync() =>
        [
            .. (await Opened.Page.EvaluateAsync<string[]>(Rows)).Select(row =>
            {
                var parts = row.Split(' ');
                return new PhoneRow(parts[0], parts[1], parts[2] == "1");
            }),
        ];
}
