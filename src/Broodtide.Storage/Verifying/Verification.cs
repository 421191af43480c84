using Broodtide.Domain.Journal;
using Broodtide.Storage.Blocks;
using Broodtide.Storage.Dossiers;
using Broodtide.Storage.Photos;
using Broodtide.Storage.Sqlite;
using Broodtide.Units;
using Broodtide.Workbench.Photos;
using NodaTime;

namespace Broodtide.Storage.Verifying;

/// <summary>
/// Verifies a journal with all that belongs to it, and believes nothing: every byte of every entry, each writer's chain, each
/// photo and dossier against its name, every view told anew.
/// </summary>
public static class Verification
{
    /// <summary>Verifies a journal and what lies beside it. Nothing is changed.</summary>
    /// <param name="journal">The journal, open.</param>
    /// <param name="path">Its file.</param>
    /// <param name="now">The instant that counts as now.</param>
    /// <param name="zone">The zone of the keeper.</param>
    /// <param name="cancellation">Gives up between pieces.</param>
    /// <exception cref="StoreUnusableException">The store cannot be read at all.</exception>
    public static async Task<Verified> OfAsync(
        SqliteJournal journal,
        string path,
        Instant now,
        DateTimeZone zone,
        CancellationToken cancellation = default
    )
    {
        ArgumentNullException.ThrowIfNull(journal);
        ArgumentNullException.ThrowIfNull(zone);
        var found = await journal.VerifyAsync(cancellation);
        var faults = found.Where(fault => !StoreCheck.IsKeptOnPurpose(fault)).ToList();
        var isReadable = faults.Count == 0;
        var entries = isReadable
            ? await journal.ReadAllAsync(cancellation)
            : StoreSalvage.Read(path, cancellation);
        var notes = new List<Remark>([.. found.Where(StoreCheck.IsKeptOnPurpose), .. Gaps(entries)]);
        var photos = Photos(PhotoFolder.Beside(path), entries, faults, notes, cancellation);
        var dossiers = Dossiers(path, faults, cancellation);
        var (damaged, days) = await ReadingsCheck.OfAsync(ReadingsFile.BesidePath(path), cancellation);
        faults.AddRange(damaged);
        var folds = FoldsRebuilt.Of(
            entries,
            isReadable ? await journal.CheckpointsAsync(cancellation) : [],
            now,
            zone,
            faults
        );
        return new(entries.Count, photos, dossiers, days, folds, faults, notes);
    }

    // A number that is missing below one that is here: its entry is on its way still, or on a phone.
    private static IEnumerable<Remark> Gaps(IReadOnlyList<Entry> entries) =>
        entries
            .GroupBy(entry => entry.Envelope.Replica)
            .Select(chain =>
                (
                    Replica: chain.Key,
                    Missing: chain.Max(entry => entry.Envelope.Sequence)
                        - chain.Select(entry => entry.Envelope.Sequence).Distinct().LongCount()
                )
            )
            .Where(chain => chain.Missing > 0)
            .OrderBy(chain => chain.Replica.Value)
            .Select(chain => new Remark(
                "entries-not-here-yet",
                new("count", chain.Missing),
                new("replica", chain.Replica)
            ));

    private static int Photos(
        PhotoFolder folder,
        IReadOnlyList<Entry> entries,
        List<Remark> faults,
        List<Remark> notes,
        CancellationToken cancellation
    )
    {
        var here = folder.All();
        foreach (var hash in here)
        {
            cancellation.ThrowIfCancellationRequested();
            if (folder.Read(hash) is { Succeeded: false } damaged)
            {
                faults.Add(damaged.Reason);
            }
        }

        var named = PhotoNames.Named(entries);
        if (named.Except(here, StringComparer.Ordinal).Count() is var missing and > 0)
        {
            notes.Add(new Remark("photos-not-here-yet", new Argument("count", missing)));
        }

        if (here.Count(hash => !named.Contains(hash)) is var unnamed and > 0)
        {
            notes.Add(new Remark("photos-nobody-names", new Argument("count", unnamed)));
        }

        return here.Count;
    }

    private static int Dossiers(string path, List<Remark> faults, CancellationToken cancellation)
    {
        var folder = Path.ChangeExtension(Path.GetFullPath(path), ".dossiers");
        var count = 0;
        foreach (
            var file in Directory.Exists(folder)
                ? Directory.EnumerateFiles(folder, "*.dossier").Order(StringComparer.Ordinal)
                : Enumerable.Empty<string>()
        )
        {
            cancellation.ThrowIfCancellationRequested();
            count++;
            var read = DossierFiles.Read(file, cancellation);
            if (!read.Succeeded || read.Value.Id != Path.GetFileNameWithoutExtension(file))
            {
                faults.Add(new Remark("dossier-file-damaged", new Argument("file", file)));
            }
        }

        return count;
    }
}

/// <summary>What a verification found.</summary>
/// <param name="EntryCount">Entries that are whole.</param>
/// <param name="PhotoCount">Photos here.</param>
/// <param name="DossierCount">Dossiers of others here.</param>
/// <param name="SensorDayCount">Closed days of sensors here.</param>
/// <param name="Folds">Every view that was told anew, by name, with how many things it tells of.</param>
/// <param name="Faults">What is wrong; nothing if all is as it was written.</param>
/// <param name="Notes">What is no fault and worth knowing: entries and photos that are not here yet.</param>
public sealed record Verified(
    int EntryCount,
    int PhotoCount,
    int DossierCount,
    int SensorDayCount,
    IReadOnlyList<(string Name, int Count)> Folds,
    IReadOnlyList<Remark> Faults,
    IReadOnlyList<Remark> Notes
);
