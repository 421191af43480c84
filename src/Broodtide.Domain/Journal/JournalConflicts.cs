using Broodtide.Units;
using NodaTime;

namespace Broodtide.Domain.Journal;

/// <summary>
/// What does not agree in the journal itself. A conflict is shown beside its entry; it refuses nothing. Equal sets
/// of entries give equal conflicts in equal order.
/// </summary>
internal static class JournalConflicts
{
    // A phone's clock may be some hours off without anybody noticing; a day is asked about.
    private static readonly Duration ClockSlack = Duration.FromDays(1);

    public static IReadOnlyList<Remark> Of(
        Account account,
        Corrections corrections,
        IReadOnlySet<EntryId> erased
    )
    {
        var entries = account
            .Entries.OrderBy(entry => entry.Envelope.Replica.Value)
            .ThenBy(entry => entry.Envelope.Sequence)
            .ThenBy(entry => entry.Digest)
            .ToList();
        return
        [
            .. Chains(entries),
            .. Identities(entries),
            .. Targets(entries, corrections),
            .. Rivals(corrections),
            .. Facts(entries, erased),
            .. Clocks(account.Occurrences),
        ];
    }

    private static IEnumerable<Remark> Chains(List<Entry> entries)
    {
        foreach (var replica in entries.GroupBy(entry => entry.Envelope.Replica))
        {
            var before = new List<Entry>();
            foreach (var number in replica.GroupBy(entry => entry.Envelope.Sequence))
            {
                var same = number.ToList();
                foreach (var entry in same.Skip(1))
                {
                    yield return Numbered("number-twice", entry);
                }

                // After a gap nothing can be said: what is between may still come.
                if (before.Count > 0 && before[0].Envelope.Sequence == number.Key - 1)
                {
                    foreach (
                        var entry in same.Where(entry =>
                            !before.Exists(b => b.Digest == entry.Envelope.Previous)
                        )
                    )
                    {
                        yield return Numbered("chain-broken", entry);
                    }
                }

                before = same;
            }
        }
    }

    private static Remark Numbered(string code, Entry entry) =>
        new(
            code,
            new("replica", entry.Envelope.Replica),
            new("sequence", entry.Envelope.Sequence),
            new("entry", entry.Id)
        );

    private static IEnumerable<Remark> Identities(List<Entry> entries) =>
        entries
            .GroupBy(entry => entry.Id)
            .Where(twins => twins.Skip(1).Any())
            .OrderBy(twins => twins.Key.Value)
            .Select(twins => new Remark("identity-twice", new Argument("entry", twins.Key)));

    private static IEnumerable<Remark> Targets(List<Entry> entries, Corrections corrections)
    {
        foreach (var entry in entries)
        {
            if (entry.Envelope.Correction is { } correction && corrections.Find(correction.Target) is null)
            {
                yield return new Remark(
                    "corrects-what-is-not-here",
                    new("entry", entry.Id),
                    new("target", correction.Target)
                );
            }
        }
    }

    private static IEnumerable<Remark> Rivals(Corrections corrections)
    {
        foreach (var id in corrections.AimedAtOften)
        {
            var competing = corrections.TreeOf(id).CompetingFor(id);
            if (competing.Count > 1)
            {
                yield return new Remark(
                    "rival-corrections",
                    new("entry", id),
                    new("stands", competing[^1].Id)
                );
            }
        }
    }

    private static IEnumerable<Remark> Facts(List<Entry> entries, IReadOnlySet<EntryId> erased)
    {
        foreach (var entry in entries)
        {
            if (!entry.HasBody && !erased.Contains(entry.Id))
            {
                yield return new Remark("facts-missing", new Argument("entry", entry.Id));
            }

            if (entry.Fact is UnreadableFact unreadable)
            {
                yield return new Remark(
                    "facts-unreadable",
                    new("entry", entry.Id),
                    new("reason", unreadable.Reason)
                );
            }
        }
    }

    private static IEnumerable<Remark> Clocks(IReadOnlyList<Occurrence> occurrences) =>
        occurrences
            .Where(occurrence => occurrence.Happened.Earliest > occurrence.Written + ClockSlack)
            .Select(occurrence => new Remark("happened-after-written", new Argument("entry", occurrence.Id)));
}
