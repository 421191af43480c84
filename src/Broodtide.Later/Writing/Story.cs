using Broodtide.Domain;
using Broodtide.Domain.Journal;

namespace Broodtide.Phone.Writing;

/// <summary>What the journal holds on one thing that happened: the first words, and what became of them.</summary>
/// <param name="First">The first words.</param>
/// <param name="Versions">The words in turn, the ones that stand last.</param>
/// <param name="Rivals">Corrections that lost to another one.</param>
/// <param name="Undone">Corrections that were taken back themselves.</param>
/// <param name="TakenBackBy">The entry that took it back.</param>
/// <param name="ErasedBy">The entry that had it erased.</param>
public sealed record Story(
    Entry First,
    IReadOnlyList<Entry> Versions,
    IReadOnlyList<Entry> Rivals,
    IReadOnlyList<Entry> Undone,
    Entry? TakenBackBy,
    Entry? ErasedBy
)
{
    /// <summary>The words that stand, or stood last.</summary>
    public Entry Told => Versions[^1];

    public Happened Happened => Told.Envelope.Happened;

    /// <summary>The corrections of each entry.</summary>
    public static ILookup<EntryId, Entry> Aimed(Account account) =>
        account
            .Entries.Where(entry => entry.Envelope.Correction is not null)
            .OrderBy(entry => entry.Envelope.Written)
            .ToLookup(entry => entry.Envelope.Correction!.Value.Target);

    /// <summary>The story that begins with an entry.</summary>
    public static Story Of(Account account, Entry first, ILookup<EntryId, Entry> aimed)
    {
        var versions = new List<Entry> { first };
        var rivals = new List<Entry>();
        Entry? takenBack = null;
        while (account.CorrectionsOf(versions[^1].Id).ToList() is { Count: > 0 } competing)
        {
            var replacing = competing.Where(entry => !Retracts(entry)).ToList();
            takenBack = Retracts(competing[^1]) ? competing[^1] : null;
            // A ring of corrections has no end.
            if (replacing.Count == 0 || versions.Exists(version => version.Id == replacing[^1].Id))
            {
                break;
            }

            rivals.AddRange(replacing[..^1]);
            versions.Add(replacing[^1]);
            if (takenBack is not null)
            {
                break;
            }
        }

        var all = versions.Concat(rivals).SelectMany(version => aimed[version.Id]).ToList();
        var undone = all.Where(entry =>
                entry.Envelope.Correction is { Kind: CorrectionKind.Replaces }
                && !versions.Contains(entry)
                && !rivals.Contains(entry)
            )
            .ToList();
        return new(
            first,
            versions,
            rivals,
            undone,
            takenBack,
            all.Find(entry => entry.Envelope.Correction is { Kind: CorrectionKind.Erases })
        );
    }

    private static bool Retracts(Entry entry) =>
        entry.Envelope.Correction is { Kind: CorrectionKind.Retracts };

    /// <summary>The first entries of all stories, the latest that happened first.</summary>
    public static IReadOnlyList<Entry> Firsts(Account account)
    {
        var told = account.Occurrences.ToDictionary(occurrence => occurrence.Id);
        var firsts = account
            .Entries.Where(entry => entry.Envelope.Correction is null && !told.ContainsKey(entry.Id))
            .Where(entry => ReferenceEquals(account.Find(entry.Id), entry))
            .Select(entry => (First: entry, entry.Envelope.Happened, entry.Envelope.Written))
            .Concat(
                account.Occurrences.Select(occurrence =>
                    (occurrence.First, occurrence.Happened, occurrence.Written)
                )
            );
        return
        [
            .. firsts
                .OrderByDescending(story => story.Happened.Latest)
                .ThenByDescending(story => story.Written)
                .ThenByDescending(story => story.First.Digest)
                .Select(story => story.First),
        ];
    }

    /// <summary>The first entry of the story that an entry belongs to.</summary>
    public static Entry FirstOf(Account account, Entry entry)
    {
        var seen = new HashSet<EntryId>();
        while (
            seen.Add(entry.Id)
            && entry.Envelope.Correction is { } correction
            && account.Find(correction.Target) is { } target
        )
        {
            entry = target;
        }

        return entry;
    }
}
