using Broodtide.Benchmarks;
using Broodtide.Domain.Journal;
using Broodtide.Storage.Sqlite;
using Broodtide.Workbench;
using NodaTime;

namespace Broodtide.Speed;

/// <summary>The laws of the journal: read, folded, opened, written, and filled from a logger's file.</summary>
internal static class JournalLaws
{
    private static readonly Instant Now = Instant.FromUtc(2026, 11, 26, 0, 0);
    private static readonly DateTimeZone Zone = DateTimeZoneProviders.Tzdb["Europe/Berlin"];

    /// <param name="most">Entries at 100x.</param>
    public static void Run(int most)
    {
        int[] entries = [most / 100, most / 10, most];
        var told = entries.ToDictionary(count => count, count => TenYears.Entries(count, Now));
        Folding(entries, told);
        using var folder = new TakenFolder();
        OpeningAndWriting(entries, told, folder);
        CostLaw.Of(
            "a logger's file of N rows",
            [10_000, 100_000, 1_000_000],
            rows =>
            {
                var file = Path.Combine(folder.Path, $"{rows}.csv");
                File.WriteAllText(file, LoggerFile.Rows(rows));
                return () => ImportDuel.Read(file, rows);
            }
        );
    }

    private static void Folding(int[] entries, Dictionary<int, IReadOnlyList<Entry>> told)
    {
        CostLaw.Of(
            "N entries from their bytes",
            entries,
            count =>
            {
                var bytes = told[count];
                return () =>
                {
                    foreach (var entry in bytes)
                    {
                        _ = Entry.ReadTrusted(entry.Bytes, entry.Digest).Value.Fact;
                    }
                };
            }
        );
        CostLaw.Of(
            "account and index of N entries",
            entries,
            count => () => _ = Account.Of(told[count]).Subjects(SubjectKind.Vessel).Count()
        );
        CostLaw.Of(
            "what is due, account and ledgers with it, N entries",
            entries,
            count => () => _ = Outlook.Of(Account.Of(told[count]), Now, Zone).Due.Items.Count
        );
        CostLaw.Of(
            "N entries as JSON Lines",
            entries,
            count => () => _ = JournalLines.Write([.. told[count]]).Count()
        );
        CostLaw.Of(
            "200 entries more, one by one, told by an account of N",
            entries,
            count =>
            {
                var whole = TenYears.Entries(count + 1400, Now);
                var account = Account.Of(whole.Take(count));
                var at = count;
                return () =>
                {
                    for (var i = 0; i < 200; i++)
                    {
                        account.Add(whole[at++]);
                    }
                };
            }
        );
    }

    private static void OpeningAndWriting(
        int[] entries,
        Dictionary<int, IReadOnlyList<Entry>> told,
        TakenFolder folder
    )
    {
        CostLaw.Of(
            "opening a file of N entries, to account and index",
            entries,
            count =>
            {
                var path = Opening.Made(Path.Combine(folder.Path, $"opened-{count}.db"), told[count]);
                return () => _ = Opening.Open(path);
            }
        );
        CostLaw.Of(
            "opening a file of N, to what is due, what was kept used",
            entries,
            count =>
            {
                var path = Opening.Made(Path.Combine(folder.Path, $"kept-{count}.db"), told[count]);
                Opening.KeepWhatIsWorkedOut(path, Now, Zone);
                return () =>
                {
                    var (account, _, _, kept) = Opening.Open(path);
                    _ = Outlook.Of(account, Now, Zone, kept: kept).Due.Items.Count;
                };
            }
        );
        CostLaw.Of(
            "200 entries appended to a store of N",
            entries,
            count =>
            {
                var journal = Open(Path.Combine(folder.Path, $"{count}.db"));
                journal.TakeAsync(told[count]).AsTask().GetAwaiter().GetResult();
                var drafts = Invented.Drafts(1400).Select(written => written.Draft).ToList();
                var at = 0;
                return () =>
                {
                    for (var i = 0; i < 200; i++)
                    {
                        journal.AppendAsync([drafts[at++]]).AsTask().GetAwaiter().GetResult();
                    }
                };
            }
        );
        CostLaw.Afresh(
            "N entries appended one by one to an empty store",
            [50, 500, 5_000],
            count =>
            {
                var drafts = Invented.Drafts(count).Select(written => written.Draft).ToList();
                var turn = 0;
                return () =>
                {
                    var journal = Open(Path.Combine(folder.Path, $"grown-{count}-{turn++}.db"));
                    return () =>
                    {
                        foreach (var draft in drafts)
                        {
                            journal.AppendAsync([draft]).AsTask().GetAwaiter().GetResult();
                        }
                    };
                };
            }
        );
    }

    private static SqliteJournal Open(string path) =>
        SqliteJournal.OpenAsync(path, "speed").GetAwaiter().GetResult();
}
